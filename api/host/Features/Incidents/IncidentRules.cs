using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Incidents;

public sealed class IncidentRules
{
    public Refused? Check(Step step, NewIncident input)
    {
        step.Faults.Text("/note", input.Note, Lengths.Note);
        step.Faults.Known("/kind", "kind of incident", input.Kind, step.Car!.Model.Incidents.Select(i => i.Id));
        step.Days.Past(step.Faults, "/date", input.Date);
        return null;
    }
}
