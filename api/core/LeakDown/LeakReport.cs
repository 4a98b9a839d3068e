namespace FuelHistory.Core.LeakDown;

/// <summary>What the readings so far say (MODEL.md 6). Pressures are those that this gauge will show, its scatter of single readings aside.</summary>
public sealed record LeakReport
{
    public required double AsOfMinutes { get; init; }

    /// <summary>Looks at the gauge that counted: readings of one moment are one look.</summary>
    public required int Looks { get; init; }

    /// <summary>The most demanding pair of the limit.</summary>
    public required double LimitMinutes { get; init; }

    public required double LimitBar { get; init; }

    /// <summary>Shortest acceptable time constant, minutes.</summary>
    public required double LimitTau { get; init; }

    /// <summary>P(pressure at the limit's minutes is at least the limit).</summary>
    public required double Holds { get; init; }

    public required LeakVerdict Verdict { get; init; }

    /// <summary>P(the verdict is wrong) if one stops now; of <see cref="LeakVerdict.GoOn"/> that of the likelier outcome.</summary>
    public required double Wrong { get; init; }

    /// <summary>What it costs to be wrong, a sentence.</summary>
    public required string CostOfWrong { get; init; }

    public required ForecastPoint AtLimit { get; init; }

    /// <summary>From the start to one and a half times the limit's minutes.</summary>
    public required IReadOnlyList<ForecastPoint> Forecast { get; init; }

    /// <summary>A tight section with a sound store: the median of leak level 0 at the same times, bar.</summary>
    public required IReadOnlyList<double> Good { get; init; }

    /// <summary>Likeliest first; probabilities add up to 1.</summary>
    public required IReadOnlyList<ShapeShare> Shapes { get; init; }

    /// <summary>Whatever the law.</summary>
    public required TimeConstant Tau { get; init; }

    /// <summary>Likeliest first; probabilities add up to 1. One law's time constant is not another's: two that fall alike may be far apart.</summary>
    public required IReadOnlyList<LawShare> Laws { get; init; }

    /// <summary>Probability of each leak level 0..3.</summary>
    public required IReadOnlyList<double> Levels { get; init; }

    public required double StoreLost { get; init; }

    /// <summary>P(slip of hand or hook-up): the readings fit no leak-down.</summary>
    public required double Slip { get; init; }
}

public enum LeakVerdict { GoOn, StopFails, StopHolds }

/// <summary>Pressure to come: median and the band that holds 95 %, bar.</summary>
public sealed record ForecastPoint(double Minutes, double Low, double Median, double High);

/// <summary>Time to fall to 37 %, minutes, while the leak is as it was at first: median and 95 % interval.</summary>
public sealed record TimeConstant(double Median, double Low, double High);

/// <param name="Id">seep, orifice, collapse or settle.</param>
/// <param name="Tau">If that is the law.</param>
public sealed record LawShare(string Id, string Words, double Probability, TimeConstant Tau);

/// <param name="Id">holds, steady-seep, hole, store-runs-empty, store-lost or slip.</param>
public sealed record ShapeShare(string Id, string Words, double Probability);
