using FuelHistory.Core.Assessment;
using FuelHistory.Core.LeakDown;
using MathNet.Numerics.Distributions;

namespace FuelHistory.Benchmarks.LeakDowns;

/// <summary>A leak-down drawn from MODEL.md 6 with a given law, and what a gauge shows of it.</summary>
internal sealed class LeakDraw
{
    public const double From = 3, LimitMinutes = 10, LimitBar = 1.7;

    /// <summary>A gauge of 10 bar, class 1.6, checked this year, readable to 0.02 bar.</summary>
    public static readonly InstrumentFact Gauge = new("gauge", 10, 1.6, 0.02, null, null, new DateOnly(2025, 1, 1));

    /// <summary>When one looks: often at first, then every minute.</summary>
    public static readonly double[] Looks = [0.5, 1, 1.5, 2, 3, 4, 5, 6, 7, 8, 9, 10];

    private static readonly LeakLimit Limit = LeakLimit.For(From, [(LimitMinutes, LimitBar)])!;

    /// <summary>Running pressure of one that drops first.</summary>
    private const double RunningBar = 5;

    private readonly LeakTruth _truth;
    private readonly double _offset;

    /// <param name="drops">From running pressure to the hold pressure first.</param>
    public LeakDraw(LeakLaw law, Random random, bool drops = false)
    {
        Running = drops ? RunningBar : null;
        LawDrawn = law;
        bool lost = random.NextDouble() < ShareLost(law);
        _truth = new LeakTruth(Limit with { Running = Running }, random.Next(LeakLimit.Levels), lost, law, random);
        _offset = Normal.Sample(random, 0, 0.16 / Math.Sqrt(3));
        bool slip = random.NextDouble() < 0.02;
        Points = [.. Looks.Select(t => new LeakPoint(t, slip ? 10 * random.NextDouble() : Shown(t) + Normal.Sample(random, 0, Math.Sqrt(0.0009 + (0.02 * 0.02 / 12)))))];
    }

    public double? Running { get; }

    public double Tau => _truth.Tau;

    public LeakLaw LawDrawn { get; }

    public IReadOnlyList<LeakPoint> Points { get; }

    /// <summary>What the gauge shows, its scatter of single readings aside.</summary>
    public double Shown(double minutes) => _truth.At(minutes) + _offset;

    public bool Holds => Shown(LimitMinutes) >= LimitBar;

    /// <summary>By Bayes from an even prior: the laws weigh differently with the store lost.</summary>
    private static double ShareLost(LeakLaw law) =>
        LeakLaws.Weight(law, true) / (LeakLaws.Weight(law, true) + LeakLaws.Weight(law, false));
}
