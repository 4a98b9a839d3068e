using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.Odometers;

public static class OdometerEndpoints
{
    public static void MapOdometers(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Odometer");
        api.Read(Routes.Odometers, List).Says("listOdometer", "Odometer readings, first entered first, without void entries").Refuses(404);
        api.MapPost(Routes.Odometers, Add).Says("addOdometer", "Enter a dated odometer reading, or a change of the clock").Refuses(404, 409, 422);
        api.MapPut(Routes.Odometer, Replace).Says("replaceOdometer", "Correct an odometer reading: a new version").Refuses(404, 409, 412, 422);
        api.MapEntry<OdometerStore, NewOdometer, Odometer>(Routes.Odometer, Routes.OdometerVersions, Routes.OdometerVoid, "Odometer");
    }

    public static Results<Ok<IReadOnlyList<Odometer>>, Refused> List(string vehicleId, OdometerStore store, Entries entries) =>
        entries.List<Odometer>(vehicleId, (connection, _) => [.. store.OfVehicle(connection, vehicleId).Where(o => o.Entry.VoidReason is null)]);

    public static Results<Added<Odometer>, Refused> Add(string vehicleId, NewOdometer input, OdometerStore store, OdometerRules rules, Entries entries) =>
        entries.Add(store, vehicleId, input, step => rules.Check(step, input));

    public static Results<Current<Odometer>, Refused> Replace(
        string entryId, NewOdometer input, [FromHeader(Name = "If-Match")] string? ifMatch, OdometerStore store, OdometerRules rules, Entries entries) =>
        entries.Replace(store, entryId, input, ifMatch, step => rules.Check(step, input));
}
