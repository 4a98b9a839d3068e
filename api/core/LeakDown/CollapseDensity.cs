namespace FuelHistory.Core.LeakDown;

/// <summary>The collapse law. Empty from the start and not empty yet are single curves; between two looks the curve is one before and
/// another after, and how they join (x = when the store ran empty, in time constants) is integrated.</summary>
internal sealed class CollapseDensity(RunDensity run)
{
    private const double Steeper = LeakLaws.Faster - 1, Range = LeakLaws.EmptyTo - LeakLaws.EmptyFrom;

    private readonly int _n = run.Minutes.Length;
    private readonly double[] _seep = new double[run.Minutes.Length];
    private readonly double[] _fast = new double[run.Minutes.Length];
    private readonly Side[] _before = new Side[run.Minutes.Length + 1];
    private readonly Side[] _after = new Side[run.Minutes.Length + 1];

    /// <summary>Of the looks before a moment along exp(-t/tau); of those after it along exp(-10 t/tau), in units of its value at that moment's look.</summary>
    private readonly record struct Side(Sums G, double GG)
    {
        public Side With(double g, double dropping, double y) => new(G.With(g, dropping, y), GG + (g * g));

        public Side Times(double factor) => new(G.Times(factor), GG * factor * factor);
    }

    public double At(double tau, LeakNodes nodes)
    {
        for (int i = 0; i < _n; i++)
        {
            _seep[i] = LeakLaws.Seep(run.Minutes[i], tau);
            _fast[i] = LeakLaws.Collapse(run.Minutes[i], tau, 0);
        }

        double sum = 0;
        for (int h = 0; h < run.Soak.Length; h++)
        {
            double weight = LeakLaws.Soaks[h].Weight;
            LeakNodes own = nodes.Times(weight);
            sum += weight * (FromStart(tau, h, own) + Later(tau, h, own) + Between(tau, h, own));
        }

        return sum;
    }

    /// <summary>P(empty | p0) is 1 below 1 bar, and falls to 0 at 2.5 bar.</summary>
    private double FromStart(double tau, int h, LeakNodes nodes)
    {
        (double e, double mean, double precision) = run.One(_fast, h).At(0);
        if (!run.Counts(e))
        {
            return 0;
        }

        double share = RunDensity.Linear(mean, precision, 0, LeakLaws.EmptyFrom, 1, 0)
            + RunDensity.Linear(mean, precision, LeakLaws.EmptyFrom, LeakLaws.EmptyTo, LeakLaws.EmptyTo / Range, -1 / Range);
        return Point(LeakForm.EmptyFromStart, tau, h, Math.Max(0, run.Density(e, precision) * share), nodes);
    }

    /// <summary>P(not empty at the last look | p0) is linear in the pressure then.</summary>
    private double Later(double tau, int h, LeakNodes nodes)
    {
        double last = _n == 0 ? 1 : _seep[^1];
        if (last * run.HighestHold < LeakLaws.EmptyFrom)
        {
            return 0;
        }

        (double e, double mean, double precision) = run.One(_seep, h).At(0);
        if (!run.Counts(e))
        {
            return 0;
        }

        double share = RunDensity.Linear(mean, precision, LeakLaws.EmptyFrom / last, LeakLaws.EmptyTo / last, -LeakLaws.EmptyFrom / Range, last / Range)
            + RunDensity.Linear(mean, precision, LeakLaws.EmptyTo / last, double.PositiveInfinity, 1, 0);
        return Point(LeakForm.EmptyLater, tau, h, Math.Max(0, run.Density(e, precision) * share), nodes);
    }

    private static double Point(LeakForm form, double tau, int h, double density, LeakNodes nodes)
    {
        nodes.Add(new LeakNode(form, h, tau, 0, 0, density));
        return density;
    }

    private double Between(double tau, int h, LeakNodes nodes)
    {
        double highest = Math.Log(run.HighestHold / LeakLaws.EmptyFrom), sum = 0;
        SumUp(h, tau);
        for (int i = 0; i < _n; i++)
        {
            double from = i == 0 ? 0 : run.Minutes[i - 1] / tau, to = Math.Min(highest, run.Minutes[i] / tau);
            if (from >= highest)
            {
                break;
            }

            sum += OverJoint(tau, h, i, from, to, nodes);
        }

        return sum;
    }

    /// <summary>Sums before look i, and from it on; the latter in units of the curve at look i so that nothing underflows.</summary>
    private void SumUp(int h, double tau)
    {
        double[] soaked = run.Soak[h];
        for (int i = 0; i < _n; i++)
        {
            _before[i + 1] = _before[i].With(_seep[i] * soaked[i], run.Dropping[i], run.Bar[i]);
        }

        _after[_n] = default;
        for (int i = _n - 1; i >= 0; i--)
        {
            double step = i == _n - 1 ? 0 : Math.Exp(-LeakLaws.Faster * (run.Minutes[i + 1] - run.Minutes[i]) / tau);
            _after[i] = _after[i + 1].Times(step).With(soaked[i], run.Dropping[i], run.Bar[i]);
        }
    }

    /// <summary>The store runs empty between look i - 1 and look i, x time constants after the stop.</summary>
    private double OverJoint(double tau, int h, int i, double from, double to, LeakNodes nodes)
    {
        // 1. two curves; their ratio is exp(9 x - 10 t_i / tau), stated here relative to its value at `to`
        double scale = Math.Exp((Steeper * to) - (LeakLaws.Faster * run.Minutes[i] / tau));
        Side u = _before[i], v = _after[i].Times(scale);
        TwoCurves two = run.Two(run.Product(u.GG, u.G, u.G), run.Product(0, u.G, v.G), run.Product(v.GG, v.G, v.G), run.ProductWithBar(u.G), run.ProductWithBar(v.G));

        // 2. where they fit, and whether that is worth a look
        double Ratio(double x) => Math.Exp(Steeper * (x - to));
        (double best, double width) = two.Best();
        double lowest = Ratio(from);
        (double e, double hold, double p) = two.At(Math.Clamp(best, lowest, 1));
        if (!run.Counts(e))
        {
            return 0;
        }

        // 3. the stretch of x in which both ratio and hold pressure are possible, cut where the density bends
        (double low, double high) = TwoCurves.Window(best, width, lowest, 1);
        double until = to + (Math.Log(high) / Steeper), sum = 0;
        from = low > lowest ? to + (Math.Log(low) / Steeper) : from;
        HoldRange range = width < 0.05 * best
            ? HoldRange.Along(two, low, hold, high, until - from)
            : HoldRange.Before(run.HoldAfter(i, u.GG, u.G), hold, p, two, everywhere: i == 0);
        foreach ((double a, double b, double bend) in range.Cuts(from, until))
        {
            double fine = Math.Min(bend, Math.Min(0.11, width / (Steeper * Ratio(b))));
            sum += Panels.Integrate(a, b, 5 * fine, x => Joint(two, x, Ratio(x)), nodes, x => new LeakNode(LeakForm.RunsEmpty, h, tau, x, 0, 0));
        }

        return sum;
    }

    /// <summary>p0 exp(-x) is where the store is empty: uniform in 1..2.5 bar; so x has the density p0 exp(-x) / 1.5 within.</summary>
    private double Joint(TwoCurves two, double x, double ratio)
    {
        (double e, double mean, double precision) = two.At(ratio);
        if (!run.Counts(e))
        {
            return 0;
        }

        double grown = Math.Exp(x);
        double share = RunDensity.Linear(mean, precision, LeakLaws.EmptyFrom * grown, LeakLaws.EmptyTo * grown, 0, 1 / (grown * Range));
        return Math.Max(0, run.Density(e, precision) * share);
    }

    /// <summary>Which hold pressures are possible: means from lowest to highest, and the standard deviation around each.</summary>
    /// <param name="Bend">Width in x on which p0 exp(-x) passes an end of 1..2.5 bar.</param>
    /// <param name="Everywhere">Where it does so cannot be foreseen.</param>
    private readonly record struct HoldRange(double Lowest, double Highest, double Spread, double Bend, bool Everywhere)
    {
        /// <summary>The joint is sharp: the means along the stretch of ratios that counts.</summary>
        public static HoldRange Along(TwoCurves two, double low, double hold, double high, double length)
        {
            (_, double atLow, double p) = two.At(low);
            (_, double atHigh, double q) = two.At(high);
            double lowest = Math.Min(hold, Math.Min(atLow, atHigh)), highest = Math.Max(hold, Math.Max(atLow, atHigh)), spread = 1 / Math.Sqrt(Math.Min(p, q));
            return new HoldRange(lowest, highest, spread, spread / (highest + ((highest - lowest) / length)), false);
        }

        /// <summary>It is not: what the looks before it say. Where there are none, a later moment means a lower hold pressure, nine times as
        /// steeply, as far as the looks after it say anything of the hold pressure.</summary>
        public static HoldRange Before((double Mean, double Precision) hold, double mean, double precision, TwoCurves two, bool everywhere)
        {
            double before = 1 / two.HoldVariance, after = two.VV / (before + two.VV), steep = 1 + (Steeper * after);
            return new(hold.Mean, hold.Mean, 1 / Math.Sqrt(hold.Precision), 1 / (Math.Sqrt(precision) * steep * Math.Max(0.1, mean)), everywhere);
        }

        /// <summary>Parts of from..to, with the width on which p0 exp(-x) enters or leaves 1..2.5 bar.</summary>
        public IEnumerable<(double From, double To, double Bend)> Cuts(double from, double to)
        {
            (double Low, double High) enters = Zone(LeakLaws.EmptyTo, 5), leaves = Zone(LeakLaws.EmptyFrom, 5);
            double a = Math.Max(from, Zone(LeakLaws.EmptyTo, 7).Low), end = Math.Min(to, Zone(LeakLaws.EmptyFrom, 7).High);
            foreach (double cut in new[] { enters.Low, enters.High, leaves.Low, leaves.High, end }.Where(x => x > a && x <= end).Order())
            {
                double middle = (a + cut) / 2;
                bool bends = Everywhere || (middle > enters.Low && middle < enters.High) || (middle > leaves.Low && middle < leaves.High);
                yield return (a, cut, bends ? Bend : double.PositiveInfinity);
                a = cut;
            }
        }

        private (double Low, double High) Zone(double empty, double reach) =>
            (Math.Log(Math.Max(0.02, Lowest - (reach * Spread)) / empty), Math.Log((Highest + (reach * Spread)) / empty));
    }
}
