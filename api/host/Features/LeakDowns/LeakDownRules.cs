using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Features.Instruments;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.LeakDowns;

public sealed class LeakDownRules(ComplaintStore complaints, InstrumentStore instruments, LeakDownStore store)
{
    private const double Coldest = -50, Hottest = 150;

    public Refused? Check(Step step, NewLeakDown input, string complaintId)
    {
        var faults = step.Faults;
        step.Days.Past(faults, "/stoppedAt", input.StoppedAt);
        faults.OneOf("/showed", input.Showed, "yes", "no", "unknown");
        faults.Text("/session", input.Session, Lengths.Label);
        faults.Text("/note", input.Note, Lengths.Note);
        MeasuredRules.Fits(faults, "/unit", input.Unit, Quantity.Pressure);
        Temperature(faults, "/ambient", input.Ambient);
        Temperature(faults, "/fuel", input.Fuel);
        Instrument(step, input.Instrument);
        IReadOnlyList<string> known = [.. step.Car!.Model.Checks.Where(c => c.Kind == CheckKind.LeakDown).Select(c => c.Id)];
        if (faults.Known("/check", "leak-down", input.Check, known))
        {
            FittedRules.MakesSense(faults, step.Car, "/check", input.Check);
        }

        return complaints.Shut(step.Session.Connection, complaintId);
    }

    /// <summary>Why the leak-down takes no further reading and no correction, or null.</summary>
    public Refused? Open(Step step)
    {
        var leakDown = store.Versions(step.Session.Connection, step.Present!.EntryId)[0];
        return leakDown.Finding is { } finding
            ? ProblemAnswers.Closed($"This leak-down is finished; it became the finding {finding}. Begin another for further readings, or void this one.")
            : complaints.Shut(step.Session.Connection, leakDown.ComplaintId);
    }

    public Refused? CheckChange(Step step, NewLeakDown input)
    {
        var leakDown = store.Versions(step.Session.Connection, step.Present!.EntryId)[0];
        return Open(step) ?? Check(step, input, leakDown.ComplaintId);
    }

    private static void Temperature(Faults faults, string pointer, Measured? value)
    {
        if (value is not null)
        {
            faults.Within(pointer, MeasuredRules.In(faults, pointer, value, Quantity.Temperature, "°C"), Coldest, Hottest, " °C");
        }
    }

    private void Instrument(Step step, string? id)
    {
        if (id is null)
        {
            return;
        }

        if (instruments.Versions(step.Session.Connection, id) is not [{ Entry.VoidReason: null } found, ..])
        {
            step.Faults.Add("/instrument", Problems.Unknown, $"There is no instrument with the id \"{id}\"; enter the gauge first, or leave instrument out.");
        }
        else if (found.Quantity != Quantity.Pressure.Id)
        {
            step.Faults.Add("/instrument", Problems.Unsuitable, $"\"{found.Name}\" reads {found.Quantity}; name the pressure gauge that was used.");
        }
    }
}
