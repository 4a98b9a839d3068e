namespace FuelHistory.Core.Life;

/// <summary>A day that is known only to lie between two days, both included.</summary>
public readonly record struct DaySpan(DateOnly From, DateOnly To)
{
    /// <summary>A span up to a year counts by its middle day: half a year of ageing moves little, and years written by themselves always
    /// counted so (MODEL.md 2).</summary>
    public const int CountsAsDay = 366;

    public int Days => To.DayNumber - From.DayNumber + 1;

    public bool IsLong => Days > CountsAsDay;

    public DateOnly Middle => RoughDate.MiddleOf(From, To);

    /// <summary>What is left between two days; where nothing is left, the nearer of them.</summary>
    public DaySpan Cut(DateOnly first, DateOnly last)
    {
        DateOnly from = From > first ? From : first;
        from = from < last ? from : last;
        DateOnly to = To < last ? To : last;
        return new DaySpan(from, to > from ? to : from);
    }

    /// <summary>The middles (whole days, rounded down) of equal parts of it.</summary>
    public DateOnly[] Equal(int parts)
    {
        DateOnly from = From;
        double length = Days / (double)parts;
        return [.. Enumerable.Range(0, parts).Select(j => from.AddDays((int)((j + 0.5) * length)))];
    }
}
