using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.LayUps;

public sealed class LayUpRules(LayUpStore store)
{
    public Refused? Check(Step step, NewLayUp input)
    {
        step.Faults.Text("/note", input.Note, Lengths.Note);
        var from = step.Days.Past(step.Faults, "/from", input.From);
        var to = step.Days.Past(step.Faults, "/to", input.To);
        if (from is null || (to is null && input.To is not null))
        {
            return null;
        }

        if (to is not null && to.Latest < from.Earliest)
        {
            step.Faults.Add("/to", Problems.ImpossibleDate, $"to {to.Text} lies before from {from.Text}; a lay-up ends after it began.");
            return null;
        }

        Overlap(step, from, to);
        return null;
    }

    // Only where there is no doubt: months and years may meet without the days doing so.
    private void Overlap(Step step, RoughDate from, RoughDate? to)
    {
        foreach (var other in store.OfVehicle(step.Session.Connection, step.Car!.Vehicle.Entry.Id))
        {
            if (other.Entry.VoidReason is not null || other.Entry.Id == step.Present?.EntryId)
            {
                continue;
            }

            var otherEnd = other.To is null ? DateOnly.MaxValue : RoughDate.Parse(other.To).Earliest;
            if (from.Latest < otherEnd && RoughDate.Parse(other.From).Latest < (to?.Earliest ?? DateOnly.MaxValue))
            {
                step.Faults.Add("/from", Problems.Unsuitable, $"from {from.Text} falls into the lay-up from {other.From} to {other.To ?? "now"}, which is entered already; correct that one instead.");
                return;
            }
        }
    }
}
