using System.Collections.Concurrent;

namespace FuelHistory.Core.Life;

/// <summary>The days at which ageing is integrated: never more than a quarter year apart, and the same days for every component,
/// so that the answer does not depend on how the record is cut and each exposure is worked out once.</summary>
internal sealed class UsageSteps
{
    private const int StepDays = 91;
    private readonly Usage _usage;
    private readonly ConcurrentDictionary<int, Exposure> _known = [];
    private readonly Exposure[] _grid;

    /// <param name="until">The last day that anything is aged to.</param>
    public UsageSteps(Usage usage, DateOnly first, DateOnly until)
    {
        (_usage, First) = (usage, first);
        _grid = [.. Enumerable.Range(0, (Math.Max(0, until.DayNumber - first.DayNumber) / StepDays) + 2).Select(k => usage.At(first.AddDays(k * StepDays)))];
    }

    public DateOnly First { get; }

    public Exposure At(DateOnly day) => _known.GetOrAdd(day.DayNumber, static (number, usage) => usage.At(DateOnly.FromDayNumber(number)), _usage);

    public void Age(FittedPart part, DateOnly from, DateOnly to)
    {
        int day = from.DayNumber - First.DayNumber, end = to.DayNumber - First.DayNumber;
        Exposure at = At(from);
        while (day < end)
        {
            int step = (day / StepDays) + 1;
            day = Math.Min(step * StepDays, end);
            Exposure then = day == end ? At(to) : _grid[step];
            part.Age(then, then.UsedYears - at.UsedYears);
            at = then;
        }
    }
}
