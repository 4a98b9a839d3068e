using FuelHistory.Core.Readings;

namespace FuelHistory.Core.LeakDown;

/// <summary>Density of one run's looks at a law and a time constant: hold pressure and gauge error in closed form, the law's parameters by
/// quadrature, the heats soak summed. In units of <see cref="LogUnit"/>.</summary>
internal sealed class RunDensity
{
    /// <summary>What lies so far (logarithm) under the best point found adds nothing that could be seen: among other findings, and alone.</summary>
    private const double Negligible = 32, NegligibleAlone = 18;

    private const double InvRoot2Pi = 0.3989422804014327;

    private readonly double _negligible;
    private readonly double _own;
    private readonly double _shared;
    private readonly double _sharedVariance;
    private readonly double _from;
    private readonly double _positive;
    private readonly DropTerm _drop;
    private readonly Sums _bar;
    private readonly CollapseDensity _collapse;
    private readonly SettleDensity _settle;

    /// <param name="bias">Shift of the gauge, bar.</param>
    /// <param name="scale">Logarithm taken out of all densities beside <see cref="LogUnit"/>, so that they stay within what a double holds.</param>
    /// <param name="alone">No other finding will be weighed against these looks.</param>
    /// <param name="drop">Which of <see cref="LeakLaws.Drops"/> comes on top; -1: none.</param>
    public RunDensity(WatchedPressure run, double bias, LeakLimit limit, double scale = 0, bool alone = false, int drop = -1)
    {
        _negligible = alone ? NegligibleAlone : Negligible;
        (Minutes, Bar, Scale) = (run.Minutes, [.. run.Bar.Select(p => p - bias)], scale);
        (_own, _from, HoldVariance) = (run.Error.OwnVariance, limit.From, limit.HoldVariance);
        int n = Minutes.Length;
        _sharedVariance = run.Error.SharedVariance;
        _shared = _sharedVariance / (_own + (n * _sharedVariance));
        Soak = [.. LeakLaws.Soaks.Select(s => Minutes.Select(t => LeakLaws.Soak(t, s.Rise)).ToArray())];
        Dropping = [.. Minutes.Select(t => drop < 0 ? 0 : LeakLaws.Dropping(t, drop))];
        _drop = new DropTerm(this, limit, drop >= 0);
        Bar = [.. Bar.Zip(Dropping, (y, a) => y - (_drop.Mean * a))];
        _bar = Sums.Of(Bar, Dropping, Bar);
        Rest = Product(_bar.Bar, _bar, _bar) + (_from * _from / HoldVariance);
        _positive = NormalTail.Above(-_from / Math.Sqrt(HoldVariance));
        LogUnit = -0.5 * ((n * Math.Log(2 * Math.PI * _own)) + Math.Log(1 + (n * run.Error.SharedVariance / _own)));
        Slip = Math.Exp(Math.Log(ReadingError.Slip) - (n * Math.Log(run.Error.Range)) - LogUnit - scale);
        HighestHold = _from + (7 * Math.Sqrt(HoldVariance));
        (_collapse, _settle) = (new CollapseDensity(this), new SettleDensity(this, limit.Settles));
    }

    public double[] Minutes { get; }

    /// <summary>Less what is expected of the drop.</summary>
    public double[] Bar { get; }

    /// <summary>What is left of the drop at each look; 0 where there is none.</summary>
    public double[] Dropping { get; }

    public double[][] Soak { get; }

    public double Scale { get; }

    public double LogUnit { get; }

    public double HoldVariance { get; }

    public double HighestHold { get; }

    /// <summary>Density if hand or hook-up slipped, its probability included.</summary>
    public double Slip { get; }

    public double Rest { get; }

    /// <summary>No peak in ln(tau) is sharper than about this: its standard deviation where a pressure changes most with it.</summary>
    public double Sharpest => Math.Sqrt(_own / Math.Max(1, Minutes.Length)) * Math.E / _from;

    /// <summary>Largest exponent met so far.</summary>
    public double BestExponent { get; private set; } = double.NegativeInfinity;

    /// <param name="nodes">Takes the points of the inner integrals with their shares.</param>
    public double At(LeakLaw law, double tau, LeakNodes nodes) => law switch
    {
        LeakLaw.Seep => Straight(LeakForm.Seep, tau, nodes),
        LeakLaw.Orifice => Straight(LeakForm.Orifice, tau, nodes),
        LeakLaw.Collapse => _collapse.At(tau, nodes),
        _ => _settle.At(tau, nodes),
    };

    /// <summary>(a, b) = (sum of a b - k sum a sum b) / own: the shared error taken out (Sherman and Morrison); and with it the drop's height,
    /// a normal like the other.</summary>
    public double Product(double sum, in Sums a, in Sums b) => _drop.Without(Plain(sum, a, b), a, b);

    public double ProductWithBar(in Sums a) => Product(a.Bar, a, _bar);

    internal double Plain(double sum, in Sums a, in Sums b) => (sum - (_shared * a.One * b.One)) / _own;

    public TwoCurves Two(double uu, double uv, double vv, double uy, double vy) => new(_from, HoldVariance, Rest, uu, uv, vv, uy, vy);

    /// <summary>Hold pressure given the first looks alone, along a curve with these sums.</summary>
    public (double Mean, double Precision) HoldAfter(int looks, double gg, in Sums g)
    {
        // the drop's height is taken out as over all looks, near enough for where to cut
        double shared = _sharedVariance / (_own + (looks * _sharedVariance)), y = 0;
        for (int i = 0; i < looks; i++)
        {
            y += Bar[i];
        }

        double plain = (gg - (shared * g.One * g.One)) / _own, left = _drop.Without(plain, g, g) / Math.Max(plain, 1e-9);
        double precision = (1 / HoldVariance) + (Math.Clamp(left, 0.01, 1) * plain);
        return (((_from / HoldVariance) + (Math.Clamp(left, 0.01, 1) * (g.Bar - (shared * g.One * y)) / _own)) / precision, precision);
    }

    /// <summary>Whether an exponent is worth going on with; remembers the best.</summary>
    public bool Counts(double exponent)
    {
        BestExponent = Math.Max(BestExponent, exponent);
        return exponent > BestExponent - _negligible;
    }

    /// <summary>The density with p0 integrated over everything above 0.</summary>
    public double Whole(double exponent, double mean, double precision)
    {
        double z = mean * Math.Sqrt(precision);
        return Density(exponent, precision) * (z > 8 ? 1 : NormalTail.Above(-z));
    }

    /// <summary>The density with p0 integrated over all values, beside the prior's share above 0.</summary>
    public double Density(double exponent, double precision) => Math.Exp(exponent - Scale) / (Math.Sqrt(HoldVariance * precision) * _positive * _drop.Root);

    /// <summary>Integral of (intercept + slope p0) over from..to under the normal p0.</summary>
    public static double Linear(double mean, double precision, double from, double to, double intercept, double slope)
    {
        double root = Math.Sqrt(precision), a = (from - mean) * root, b = (to - mean) * root;
        if (a < -8 && b > 8)
        {
            return intercept + (slope * mean);
        }

        return ((intercept + (slope * mean)) * NormalTail.Between(a, b)) + (slope / root * (Height(a) - Height(b)));
    }

    private static double Height(double z) => Math.Abs(z) > 38 ? 0 : InvRoot2Pi * Math.Exp(-0.5 * z * z);

    private double Straight(LeakForm form, double tau, LeakNodes nodes)
    {
        Span<double> curve = stackalloc double[Minutes.Length];
        for (int i = 0; i < curve.Length; i++)
        {
            curve[i] = form == LeakForm.Seep ? LeakLaws.Seep(Minutes[i], tau) : LeakLaws.Orifice(Minutes[i], tau);
        }

        double sum = 0;
        for (int h = 0; h < Soak.Length; h++)
        {
            (double e, double mean, double precision) = One(curve, h).At(0);
            if (Counts(e))
            {
                double density = LeakLaws.Soaks[h].Weight * Whole(e, mean, precision);
                nodes.Add(new LeakNode(form, h, tau, 0, 0, density));
                sum += density;
            }
        }

        return sum;
    }

    public double LastMinutes => Minutes.Length == 0 ? 0 : Minutes[^1];

    /// <summary>Standard deviation of what the gauge shows beside the truth, given the looks and the curve.</summary>
    public double OffsetSd => Math.Sqrt(_shared * _own);

    /// <summary>At a point of the integral: hold pressure given the looks; the drop's height given that; what the gauge shows beside the
    /// truth, given both.</summary>
    public (double Mean, double Precision, Func<double, (double Mean, double Sd)> Height, Func<double, double, double> Offset) Given(LeakNode node)
    {
        double[] curve = [.. Minutes.Select(node.Curve)];
        Sums g = Sums.Of(curve, Dropping, Bar);
        (_, double mean, double precision) = Two(Product(Sums.Square(curve), g, g), 0, 0, ProductWithBar(g), 0).At(0);
        return (mean, precision, hold => _drop.Given(_bar, g, hold), (hold, height) => _shared * (_bar.One - (hold * g.One) - ((height - _drop.Mean) * _drop.Own.One)));
    }

    /// <summary>A single curve, with heat soak.</summary>
    public TwoCurves One(ReadOnlySpan<double> curve, int soak)
    {
        double gg = 0;
        Sums g = default;
        double[] soaked = Soak[soak];
        for (int i = 0; i < curve.Length; i++)
        {
            double at = curve[i] * soaked[i];
            g = g.With(at, Dropping[i], Bar[i]);
            gg += at * at;
        }

        return Two(Product(gg, g, g), 0, 0, ProductWithBar(g), 0);
    }
}
