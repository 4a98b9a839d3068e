using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.Limits;

public static class LimitEndpoints
{
    public static void MapLimits(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Limits");
        api.Read(Routes.Limits, List).Says("listLimits", "This car's own limits, without void entries").Refuses(404);
        api.MapPost(Routes.Limits, Add).Says("addLimit", "Enter what this car should read for a check, with its source").Refuses(404, 409, 422);
        api.MapPut(Routes.Limit, Replace).Says("replaceLimit", "Correct a limit: a new version").Refuses(404, 409, 412, 422);
        api.MapEntry<LimitStore, LimitContent, Limit>(Routes.Limit, Routes.LimitVersions, Routes.LimitVoid, "Limit");
    }

    public static Results<Ok<IReadOnlyList<Limit>>, Refused> List(string vehicleId, LimitStore store, Entries entries) =>
        entries.List<Limit>(vehicleId, (connection, _) => [.. store.OfVehicle(connection, vehicleId).Where(e => e.Entry.VoidReason is null)]);

    public static Results<Added<Limit>, Refused> Add(string vehicleId, NewLimit input, LimitStore store, LimitRules rules, Entries entries) =>
        entries.Add(store, vehicleId, new LimitContent(input), step => rules.Check(step, input));

    public static Results<Current<Limit>, Refused> Replace(
        string entryId, NewLimit input, [FromHeader(Name = "If-Match")] string? ifMatch, LimitStore store, LimitRules rules, Entries entries) =>
        entries.Replace(store, entryId, new LimitContent(input), ifMatch, step => rules.Check(step, input));
}
