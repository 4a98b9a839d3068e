namespace FuelHistory.Core.Life;

/// <summary>The days at which ageing is integrated: never more than a quarter year apart, and the same days for every component,
/// so that the answer does not depend on how the record is cut and each exposure is worked out once.</summary>
internal sealed class UsageSteps(Usage usage, DateOnly first)
{
    private const int StepDays = 91;
    private readonly Dictionary<int, Exposure> _known = [];

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
        Exposure at = At(from);
        while (from < to)
        {
            int next = ((from.DayNumber - First.DayNumber) / StepDays * StepDays) + StepDays + First.DayNumber;
            DateOnly day = next < to.DayNumber ? DateOnly.FromDayNumber(next) : to;
            Exposure then = At(day);
            part.Age(then, then.UsedYears - at.UsedYears);
            (from, at) = (day, then);
        }
    }
}
