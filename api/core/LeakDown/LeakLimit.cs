using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.LeakDown;

/// <summary>What is known of a leak-down before it is watched.</summary>
/// <param name="From">Hold pressure, bar; its standard deviation is 15 % of it. Where it drops first, what it drops to.</param>
/// <param name="ShortestTau">Shortest acceptable time constant, minutes / ln(from / low): the most demanding of the limit's points.</param>
/// <param name="Minutes">The time of that point.</param>
/// <param name="Low">Its pressure, bar.</param>
internal sealed record LeakLimit(double From, double ShortestTau, double Minutes, double Low)
{
    /// <summary>Leak levels 0..3.</summary>
    public const int Levels = 4;

    private const double HoldSpread = 0.15;

    /// <summary>How much less or more than expected it drops, as a share: the watch may begin late, and running pressures differ.</summary>
    private const double DropSpread = 0.5;

    /// <summary>Pressure at the stop, where it falls from there within seconds to <see cref="From"/>; null: it starts from that.</summary>
    public double? Running { get; init; }

    public double Drop => Math.Max(0, (Running ?? From) - From);

    public double DropVariance => DropSpread * Drop * DropSpread * Drop;

    /// <summary>Time constant of a lost store's settling, minutes: uniform between the two. After a drop what is slower than that is the store.</summary>
    public (double From, double To) Settles => Running is null ? (LeakLaws.SettlesFrom, LeakLaws.SettlesTo) : (LeakLaws.SettlesAfterDropFrom, LeakLaws.SettlesAfterDropTo);

    public double HoldVariance => HoldSpread * From * HoldSpread * From;

    /// <summary>Null where no point is of use. A hold that is not above the limit itself is raised to 15 % above it.</summary>
    public static LeakLimit? For(double from, IEnumerable<(double Minutes, double Low)> points)
    {
        (double Minutes, double Low)[] usable = [.. points.Where(p => p.Minutes > 0 && p.Low > 0)];
        if (usable.Length == 0)
        {
            return null;
        }

        double hold = Math.Max(from, usable.Max(p => p.Low) * (1 + HoldSpread));
        return usable.Select(p => new LeakLimit(hold, p.Minutes / Math.Log(hold / p.Low), p.Minutes, p.Low)).MaxBy(l => l.ShortestTau);
    }

    /// <summary>By a check of the model, with the car's own limit where there is one; null where no point is of use.</summary>
    /// <remarks>Where it drops first, a pressure stated for this car is that at the stop or that which is held, whichever it is nearer to.</remarks>
    public static LeakLimit? For(Limits typical, CarLimit? own)
    {
        IReadOnlyList<LimitPoint> points = own is { Points.Count: > 0 } ? own.Points : typical.Points;
        (double Minutes, double Low)[] pairs = [.. points.Where(p => p is { Minutes: not null, Low: not null }).Select(p => (p.Minutes!.Value, p.Low!.Value))];
        double at = typical.From ?? 0;
        if (!typical.Drop || typical.Hold is not double hold)
        {
            return For(own?.From ?? at, pairs);
        }

        bool held = own?.From * own?.From < hold * at;
        LeakLimit? limit = For(held ? own!.From!.Value : hold, pairs);
        return limit is null ? null : limit with { Running = Math.Max(limit.From, held ? at : own?.From ?? at) };
    }

    /// <summary>Range of the time constant at a leak level: log-uniform between the two (MODEL.md 6).</summary>
    public (double Shortest, double Longest) TauRange(int level, bool storeLost)
    {
        (double shortest, double longest) = level switch
        {
            0 => (1.0, 30.0),
            1 => (1 / 3.0, 1.0),
            2 => (1 / 30.0, 1 / 3.0),
            _ => (1 / 1000.0, 1 / 30.0),
        };
        double scale = storeLost ? ShortestTau / 8 : ShortestTau;
        return (shortest * scale, longest * scale);
    }
}
