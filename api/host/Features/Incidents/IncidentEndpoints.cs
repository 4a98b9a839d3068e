using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.Incidents;

public static class IncidentEndpoints
{
    public static void MapIncidents(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Incidents");
        api.Read(Routes.Incidents, List).Says("listIncidents", "What happened to the vehicle, without void entries").Refuses(404);
        api.MapPost(Routes.Incidents, Add).Says("addIncident", "Enter something that happened to the vehicle").Refuses(404, 409, 422);
        api.MapPut(Routes.Incident, Replace).Says("replaceIncident", "Correct an incident: a new version").Refuses(404, 409, 412, 422);
        api.MapEntry<IncidentStore, NewIncident, Incident>(Routes.Incident, Routes.IncidentVersions, Routes.IncidentVoid, "Incident");
    }

    public static Results<Ok<IReadOnlyList<Incident>>, Refused> List(string vehicleId, IncidentStore store, Entries entries) =>
        entries.List<Incident>(vehicleId, (connection, _) => [.. store.OfVehicle(connection, vehicleId).Where(e => e.Entry.VoidReason is null)]);

    public static Results<Added<Incident>, Refused> Add(string vehicleId, NewIncident input, IncidentStore store, IncidentRules rules, Entries entries) =>
        entries.Add(store, vehicleId, input, step => rules.Check(step, input));

    public static Results<Current<Incident>, Refused> Replace(
        string entryId, NewIncident input, [FromHeader(Name = "If-Match")] string? ifMatch, IncidentStore store, IncidentRules rules, Entries entries) =>
        entries.Replace(store, entryId, input, ifMatch, step => rules.Check(step, input));
}
