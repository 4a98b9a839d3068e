using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.LeakDown;

/// <summary>A pressure being watched: what <see cref="LeakAnalysis"/> computes from. Pressures in bar, times in minutes since the stop.</summary>
public sealed record LeakWatch
{
    /// <summary>In any order; those of the first quarter minute and those after <see cref="AsOfMinutes"/> do not count.</summary>
    public required IReadOnlyList<LeakPoint> Points { get; init; }

    /// <summary>Hold pressure to be expected just after the stop.</summary>
    public required double From { get; init; }

    /// <summary>Pressure at the stop, where it falls from there within seconds to <see cref="From"/>; null: it starts from that.</summary>
    public double? Running { get; init; }

    /// <summary>At least so much pressure at so many minutes; the most demanding pair counts.</summary>
    public required IReadOnlyList<(double Minutes, double Low)> Limits { get; init; }

    /// <summary>Null: a gauge of which nothing is known.</summary>
    public InstrumentFact? Instrument { get; init; }

    /// <summary>Scatter of one reading, standard deviation.</summary>
    public double Repeat { get; init; } = 0.03;

    /// <summary>How far a typical limit may lie off this car's; 0 for an exact one of the car's own.</summary>
    public double Spread { get; init; }

    /// <summary>On which the gauge was used: its last check counts from here.</summary>
    public required DateOnly Day { get; init; }

    public LeakPrior Prior { get; init; } = LeakPrior.Flat(store: true);

    /// <summary>How long it has been watched, if longer than the last point; infinite: all points.</summary>
    public double AsOfMinutes { get; init; } = double.PositiveInfinity;

    /// <summary>A check's leak-down with the model's limits, or the car's own.</summary>
    /// <exception cref="ArgumentException">The check is not a leak-down.</exception>
    public static LeakWatch Of(Check check, CarLimit? own, InstrumentFact? instrument, DateOnly day, IReadOnlyList<LeakPoint> points)
    {
        if (check.Kind != CheckKind.LeakDown)
        {
            throw new ArgumentException($"{check.Id} is no leak-down.", nameof(check));
        }

        IReadOnlyList<LimitPoint> limits = own is { Points.Count: > 0 } ? own.Points : check.Limits!.Points;
        return new LeakWatch
        {
            Points = points,
            From = LeakLimit.For(check.Limits!, own)?.From ?? 0,
            Running = LeakLimit.For(check.Limits!, own)?.Running,
            Limits = [.. limits.Where(p => p is { Minutes: not null, Low: not null }).Select(p => (p.Minutes!.Value, p.Low!.Value))],
            Instrument = instrument,
            Repeat = check.Repeat,
            Spread = own is { Exact: true } ? 0 : check.Limits!.Spread,
            Day = day,
            Prior = LeakPrior.Flat(check.Store is not null),
        };
    }

    internal LeakLimit? Limit => LeakLimit.For(From, Limits) is { } limit ? limit with { Running = Running } : null;

    internal ReadingError Error(LeakLimit limit, double highest)
    {
        ReadingError error = ReadingError.Of(Instrument, highest, Repeat, limit.From * 2, Day);
        return error with { SharedVariance = error.SharedVariance + (Spread * Spread) };
    }
}

/// <summary>What was believed of the section before the run: probability of each leak level 0..3, with the store sound and with the store lost.
/// All eight add up to 1.</summary>
public sealed record LeakPrior(IReadOnlyList<double> Sound, IReadOnlyList<double> Lost)
{
    /// <summary>Nothing known: every level alike, and the store lost as likely as not where the section has one.</summary>
    public static LeakPrior Flat(bool store) => store
        ? new([0.125, 0.125, 0.125, 0.125], [0.125, 0.125, 0.125, 0.125])
        : new([0.25, 0.25, 0.25, 0.25], [0, 0, 0, 0]);

    internal IEnumerable<(int Level, bool Lost, double Weight)> Beliefs() => new[] { false, true }
        .SelectMany(lost => Enumerable.Range(0, LeakLimit.Levels).Select(level => (level, lost, lost ? Lost[level] : Sound[level]))).Where(b => b.Item3 > 0);
}
