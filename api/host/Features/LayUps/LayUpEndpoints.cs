using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.LayUps;

public static class LayUpEndpoints
{
    public static void MapLayUps(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Lay-ups");
        api.Read(Routes.LayUps, List).Says("listLayUps", "Times in which the vehicle stood, without void entries").Refuses(404);
        api.MapPost(Routes.LayUps, Add).Says("addLayUp", "Enter a time in which the vehicle stood").Refuses(404, 409, 422);
        api.MapPut(Routes.LayUp, Replace).Says("replaceLayUp", "Correct a lay-up, or give it an end: a new version").Refuses(404, 409, 412, 422);
        api.MapEntry<LayUpStore, NewLayUp, LayUp>(Routes.LayUp, Routes.LayUpVersions, Routes.LayUpVoid, "LayUp");
    }

    public static Results<Ok<IReadOnlyList<LayUp>>, Refused> List(string vehicleId, LayUpStore store, Entries entries) =>
        entries.List<LayUp>(vehicleId, (connection, _) => [.. store.OfVehicle(connection, vehicleId).Where(e => e.Entry.VoidReason is null)]);

    public static Results<Added<LayUp>, Refused> Add(string vehicleId, NewLayUp input, LayUpStore store, LayUpRules rules, Entries entries) =>
        entries.Add(store, vehicleId, input, step => rules.Check(step, input));

    public static Results<Current<LayUp>, Refused> Replace(
        string entryId, NewLayUp input, [FromHeader(Name = "If-Match")] string? ifMatch, LayUpStore store, LayUpRules rules, Entries entries) =>
        entries.Replace(store, entryId, input, ifMatch, step => rules.Check(step, input));
}
