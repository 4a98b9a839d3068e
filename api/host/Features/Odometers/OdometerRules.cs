using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Odometers;

public sealed class OdometerRules(OdometerStore store)
{
    private const double LongestKm = 5_000_000;

    // readings of one day may be rounded differently
    private const double SlackKm = 1;

    public Refused? Check(Step step, NewOdometer input)
    {
        step.Faults.Text("/note", input.Note, Lengths.Note);
        var date = step.Days.Past(step.Faults, "/date", input.Date);
        Reading(step, "/reading", input.Reading, date, input.NewClock);
        if (input.NewClock is { } clock)
        {
            Distance(step.Faults, "/newClock", clock);
        }

        return null;
    }

    /// <summary>A figure of the clock on a date: possible by itself, and between its neighbours.</summary>
    /// <param name="newClock">What the clock shows from then on, where it was changed at this reading.</param>
    public void Reading(Step step, string pointer, Measured reading, RoughDate? date, Measured? newClock = null)
    {
        if (Distance(step.Faults, pointer, reading) is not { } km || date is null)
        {
            return;
        }

        var others = store.OfVehicle(step.Session.Connection, step.Car!.Vehicle.Entry.Id)
            .Where(o => o.Entry.VoidReason is null && o.Entry.Id != step.Present?.EntryId)
            .Select(o => (Date: RoughDate.Parse(o.Date), Entry: o))
            .OrderBy(o => o.Date).ToList();
        if (others.LastOrDefault(o => o.Date.Latest < date.Earliest) is { Entry: { } before } && Km(before.NewClock ?? before.Reading) > km + SlackKm)
        {
            step.Faults.Add(pointer + "/value", Problems.OutOfRange, $"{Names.Field(pointer)} is {MeasuredRules.Text(reading)}, but the clock showed {MeasuredRules.Text(before.NewClock ?? before.Reading)} already on {before.Date}. If the clock was changed, enter that first as a reading with newClock.");
        }

        if (others.FirstOrDefault(o => o.Date.Earliest > date.Latest) is { Entry: { } after } && Km(newClock ?? reading) > Km(after.Reading) + SlackKm)
        {
            step.Faults.Add(pointer + "/value", Problems.OutOfRange, $"{Names.Field(pointer)} is {MeasuredRules.Text(newClock ?? reading)}, but the clock showed only {MeasuredRules.Text(after.Reading)} later, on {after.Date}. If the clock was changed in between, enter that as a reading with newClock.");
        }
    }

    private static double? Distance(Faults faults, string pointer, Measured value)
    {
        var km = MeasuredRules.In(faults, pointer, value, Quantity.Distance, "km");
        if (km > LongestKm)
        {
            faults.Add(pointer + "/value", Problems.OutOfRange, $"{Names.Field(pointer)} is {MeasuredRules.Text(value)}; no car has gone that far. Check the figure.");
            return null;
        }

        return km;
    }

    private static double Km(Measured value) => Quantity.Distance.Convert(value.Value, value.Unit, "km");
}
