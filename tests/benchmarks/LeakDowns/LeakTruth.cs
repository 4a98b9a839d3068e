using FuelHistory.Core.LeakDown;
using MathNet.Numerics.Distributions;

namespace FuelHistory.Benchmarks.LeakDowns;

/// <summary>What the pressure really does after the stop, drawn from MODEL.md 6; written out here anew, apart from the program's own.</summary>
internal sealed class LeakTruth
{
    private readonly double _hold;
    private readonly double _rise;
    private readonly double _drop;
    private readonly double _dropTau;
    private readonly Func<double, double> _law;

    /// <param name="level">Of the leak, 0 to 3.</param>
    /// <param name="lost">The store keeps nothing.</param>
    public LeakTruth(LeakLimit limit, int level, bool lost, LeakLaw law, Random random)
    {
        (double shortest, double longest) = limit.TauRange(level, lost);
        Tau = shortest * Math.Pow(longest / shortest, random.NextDouble());
        do
        {
            _hold = Normal.Sample(random, limit.From, Math.Sqrt(limit.HoldVariance));
        }
        while (_hold <= 0);

        double height = (limit.Running ?? limit.From) - limit.From;
        _drop = height > 0 ? Normal.Sample(random, height, 0.5 * height) : 0;
        _dropTau = new[] { 0.1, 0.25, 0.5 }[random.Next(3)];
        double soak = random.NextDouble();
        _rise = soak < 0.5 ? 0 : soak < 0.75 ? 0.05 : 0.1;
        _law = Law(law, Tau, _hold, limit.Running is null ? 0.3 + (0.9 * random.NextDouble()) : 1 + (2 * random.NextDouble()), random);
    }

    public double Tau { get; }

    public double At(double minutes) =>
        (_hold * _law(minutes) * (1 + (_rise * minutes / 12 * Math.Exp(1 - (minutes / 12))))) + (_drop * Math.Exp(-minutes / _dropTau));

    /// <summary>A law as often as the store's state has it.</summary>
    public static LeakLaw LawFor(bool lost, Random random)
    {
        double u = random.NextDouble();
        return LeakLaws.All.First(law => (u -= LeakLaws.Weight(law, lost)) < 0 || law == LeakLaws.All[^1]);
    }

    private static Func<double, double> Law(LeakLaw law, double tau, double hold, double settles, Random random)
    {
        double empty = 1 + (1.5 * random.NextDouble()), kept = 0.2 + (0.35 * random.NextDouble());
        switch (law)
        {
            case LeakLaw.Seep:
                return t => Math.Exp(-t / tau);
            case LeakLaw.Orifice:
                return t => t > 2 * tau ? 0 : Math.Pow(1 - (t / 2 / tau), 2);
            case LeakLaw.Collapse:
                double when = hold <= empty ? 0 : tau * Math.Log(hold / empty);
                return t => t < when ? Math.Exp(-t / tau) : Math.Exp(-when / tau) * Math.Exp(-10 * (t - when) / tau);
            default:
                return t => (kept + ((1 - kept) * Math.Exp(-t / settles))) * Math.Exp(-t / tau);
        }
    }
}
