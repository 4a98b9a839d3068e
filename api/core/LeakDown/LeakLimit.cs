namespace FuelHistory.Core.LeakDown;

/// <summary>What is known of a leak-down before it is watched.</summary>
/// <param name="From">Hold pressure, bar; its standard deviation is 15 % of it.</param>
/// <param name="ShortestTau">Shortest acceptable time constant, minutes / ln(from / low): the most demanding of the limit's points.</param>
/// <param name="Minutes">The time of that point.</param>
/// <param name="Low">Its pressure, bar.</param>
internal sealed record LeakLimit(double From, double ShortestTau, double Minutes, double Low)
{
    /// <summary>Leak levels 0..3.</summary>
    public const int Levels = 4;

    private const double HoldSpread = 0.15;

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
