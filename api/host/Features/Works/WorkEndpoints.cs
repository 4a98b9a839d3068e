using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.Works;

public static class WorkEndpoints
{
    public static void MapWorks(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Work");
        api.Read(Routes.Works, List).Says("listWork", "Work on a vehicle, first entered first, without void entries").Refuses(404);
        api.MapPost(Routes.Works, Add).Says("addWork", "Enter work on one or more components").Refuses(404, 409, 422);
        api.MapPut(Routes.Work, Replace).Says("replaceWork", "Correct a work entry: a new version").Refuses(404, 409, 412, 422);
        api.MapEntry<WorkStore, NewWork, Work>(Routes.Work, Routes.WorkVersions, Routes.WorkVoid, "Work");
    }

    public static Results<Ok<IReadOnlyList<Work>>, Refused> List(string vehicleId, WorkStore store, Entries entries) =>
        entries.List<Work>(vehicleId, (connection, _) => [.. store.OfVehicle(connection, vehicleId).Where(w => w.Entry.VoidReason is null)]);

    public static Results<Added<Work>, Refused> Add(string vehicleId, NewWork input, WorkStore store, WorkRules rules, Entries entries) =>
        entries.Add(store, vehicleId, input, step => rules.Check(step, input));

    public static Results<Current<Work>, Refused> Replace(
        string entryId, NewWork input, [FromHeader(Name = "If-Match")] string? ifMatch, WorkStore store, WorkRules rules, Entries entries) =>
        entries.Replace(store, entryId, input, ifMatch, step => rules.Check(step, input));
}
