using FuelHistory.Core.Assessment;
using FuelHistory.Core.LeakDown;
using MathNet.Numerics.Distributions;

namespace FuelHistory.Benchmarks.LeakDowns;

/// <summary>A leak-down drawn from MODEL.md 6 with a given law: what it does and what a gauge shows of it.</summary>
internal sealed class LeakDraw
{
    public const double From = 3, LimitMinutes = 10, LimitBar = 1.7;

    /// <summary>A gauge of 10 bar, class 1.6, checked this year, readable to 0.02 bar.</summary>
    public static readonly InstrumentFact Gauge = new("gauge", 10, 1.6, 0.02, null, null, new DateOnly(2025, 1, 1));

    /// <summary>When one looks: often at first, then every minute.</summary>
    public static readonly double[] Looks = [0.5, 1, 1.5, 2, 3, 4, 5, 6, 7, 8, 9, 10];

    private static readonly LeakLimit Limit = LeakLimit.For(From, [(LimitMinutes, LimitBar)])!;

    private readonly double _hold;
    private readonly double _offset;
    private readonly double _rise;
    private readonly Func<double, double> _law;

    public LeakDraw(LeakLaw law, Random random)
    {
        LawDrawn = law;
        bool lost = random.NextDouble() < ShareLost(law);
        (double shortest, double longest) = Limit.TauRange(random.Next(LeakLimit.Levels), lost);
        Tau = shortest * Math.Pow(longest / shortest, random.NextDouble());
        _hold = Math.Max(0.01, Normal.Sample(random, From, Math.Sqrt(Limit.HoldVariance)));
        double soak = random.NextDouble();
        _rise = soak < 0.5 ? 0 : soak < 0.75 ? 0.05 : 0.1;
        _offset = Normal.Sample(random, 0, 0.16 / Math.Sqrt(3));
        _law = Law(law, Tau, _hold, random);
        bool slip = random.NextDouble() < 0.02;
        Points = [.. Looks.Select(t => new LeakPoint(t, slip ? 10 * random.NextDouble() : Shown(t) + Normal.Sample(random, 0, Math.Sqrt(0.0009 + (0.02 * 0.02 / 12)))))];
    }

    public double Tau { get; }

    public LeakLaw LawDrawn { get; }

    public IReadOnlyList<LeakPoint> Points { get; }

    /// <summary>What the gauge shows, its scatter of single readings aside.</summary>
    public double Shown(double minutes) => (_hold * _law(minutes) * (1 + (_rise * minutes / 12 * Math.Exp(1 - (minutes / 12))))) + _offset;

    public bool Holds => Shown(LimitMinutes) >= LimitBar;

    /// <summary>By Bayes from an even prior: the laws weigh differently with the store lost.</summary>
    private static double ShareLost(LeakLaw law) =>
        LeakLaws.Weight(law, true) / (LeakLaws.Weight(law, true) + LeakLaws.Weight(law, false));

    /// <summary>Written out here anew, apart from the program's own.</summary>
    private static Func<double, double> Law(LeakLaw law, double tau, double hold, Random random)
    {
        double empty = 1 + (1.5 * random.NextDouble()), kept = 0.2 + (0.35 * random.NextDouble()), settles = 0.3 + (0.9 * random.NextDouble());
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
