using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Vehicles;

public sealed class VehicleRules(FaultModelFolder models, VehicleStore store, OptionRules options)
{
    public Refused? Check(Step step, NewVehicle input)
    {
        var faults = step.Faults;
        faults.Text("/name", input.Name, Lengths.Name, required: true);
        faults.Text("/engine", input.Engine, Lengths.Name);
        faults.Text("/make", input.Make, Lengths.Name);
        faults.Text("/model", input.Model, Lengths.Name);
        faults.Text("/note", input.Note, Lengths.Note);
        faults.OneOf("/odometerUnit", input.OdometerUnit, "km", "mi");
        if (faults.Known("/system", "fault model", input.System, models.Known.Select(m => m.Id)) && step.Car is { } car
            && car.Vehicle.System != input.System && store.Named(step.Session.Connection, car.Vehicle.Entry.Id) is var named and > 0)
        {
            faults.Add("/system", Problems.Unsuitable, $"The system cannot be changed from \"{car.Vehicle.System}\" any more: {named} entries name its parts and checks. Enter the car anew, or void those entries first.");
        }

        options.Check(step, input);
        var readable = Year(step, input.Year);
        Days days = new(readable ? BuildYear.Earliest(input.Year) : null, input.Year, step.Session.Now, step.Session.Today);
        days.Past(faults, "/inUseSince", input.InUseSince);
        return null;
    }

    private static bool Year(Step step, string text)
    {
        var newest = step.Session.Today.Year + 1;
        if (BuildYear.TryRead(text, out var year, out _) && year >= RoughDate.FirstYear && year <= newest)
        {
            return true;
        }

        step.Faults.Add("/year", Problems.ImpossibleDate, $"year \"{text}\" is not a year between {RoughDate.FirstYear} and {newest}; write 1981, or 1981~ for about 1981.");
        return false;
    }
}
