namespace FuelHistory.Core.Life;

/// <summary>The days at which ageing is integrated: never more than a quarter year apart, and the same days for every component,
/// so that the answer does not depend on how the record is cut and each exposure is worked out once.</summary>
internal sealed class UsageSteps(Usage usage, DateOnly first)
{
    private const int StepDays = 91;
    private readonly Dictionary<int, Exposure> _known = [];
    private readonly List<Exposure> _grid = [];

    public DateOnly First { get; } = first;

    public Exposure At(DateOnly day)
    {
        if (!_known.TryGetValue(day.DayNumber, out Exposure exposure))
        {
            _known[day.DayNumber] = exposure = usage.At(day);
        }

        return exposure;
    }

    public void Age(FittedPart part, DateOnly from, DateOnly to)
    {
        int day = from.DayNumber - First.DayNumber, end = to.DayNumber - First.DayNumber;
        Exposure at = At(from);
        while (day < end)
        {
            int step = (day / StepDays) + 1;
            day = Math.Min(step * StepDays, end);
            Exposure then = day == end ? At(to) : OnGrid(step);
            part.Age(then, then.UsedYears - at.UsedYears);
            at = then;
        }
    }

    private Exposure OnGrid(int step)
    {
        while (_grid.Count <= step)
        {
            _grid.Add(usage.At(First.AddDays(_grid.Count * StepDays)));
        }

        return _grid[step];
    }
}
