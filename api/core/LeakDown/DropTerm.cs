namespace FuelHistory.Core.LeakDown;

/// <summary>Of a curve at the looks: its sum, and its sums of products with what is left of the drop and with the pressures.</summary>
internal readonly record struct Sums(double One, double Drop, double Bar)
{
    public static Sums Of(double[] curve, double[] dropping, double[] bar)
    {
        Sums sums = default;
        for (int i = 0; i < curve.Length; i++)
        {
            sums = sums.With(curve[i], dropping[i], bar[i]);
        }

        return sums;
    }

    public static double Square(double[] curve) => curve.Sum(g => g * g);

    public Sums With(double g, double dropping, double bar) => new(One + g, Drop + (g * dropping), Bar + (g * bar));

    public Sums Times(double factor) => new(One * factor, Drop * factor, Bar * factor);
}

/// <summary>The first fall from running pressure: a normal height times exp(-t/td), taken out of every inner product in closed form, as the
/// gauge's shared error is (MODEL.md 6).</summary>
internal readonly struct DropTerm
{
    private readonly RunDensity _run;
    private readonly bool _there;
    private readonly double _precision;
    private readonly double _variance;

    public DropTerm(RunDensity run, LeakLimit limit, bool there)
    {
        (_run, _there, _variance) = (run, there && limit.DropVariance > 0, limit.DropVariance);
        Own = Sums.Of(run.Dropping, run.Dropping, run.Bar);
        Mean = there ? limit.Drop : 0;
        _precision = _there ? (1 / _variance) + run.Plain(Own.Drop, Own, Own) : 1;
        Root = _there ? Math.Sqrt(_variance * _precision) : 1;
    }

    /// <summary>Of what is left of the drop.</summary>
    public Sums Own { get; }

    /// <summary>Expected height, bar.</summary>
    public double Mean { get; }

    /// <summary>By how much less likely the looks are for the height's freedom.</summary>
    public double Root { get; }

    public double Without(double product, in Sums a, in Sums b) =>
        _there ? product - (_run.Plain(a.Drop, a, Own) * _run.Plain(b.Drop, b, Own) / _precision) : product;

    /// <summary>The height, given the looks and a hold pressure along a curve.</summary>
    /// <param name="bar">The looks, less the expected drop.</param>
    public (double Mean, double Sd) Given(in Sums bar, in Sums curve, double hold) => _there
        ? (Mean + ((_run.Plain(bar.Drop, bar, Own) - (hold * _run.Plain(curve.Drop, curve, Own))) / _precision), 1 / Math.Sqrt(_precision))
        : (Mean, 0);
}
