using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.Vehicles;

public static class VehicleEndpoints
{
    public static void MapVehicles(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Vehicles");
        api.Read(Routes.Vehicles, List).Says("listVehicles", "Vehicles, first entered first; archived ones on request").Refuses(422);
        api.MapPost(Routes.Vehicles, Add).Says("addVehicle", "Enter a vehicle").Refuses(422);
        api.Read(Routes.Vehicle, Get).Says("getVehicle", "One vehicle").Refuses(404);
        api.MapPut(Routes.Vehicle, Replace).Says("replaceVehicle", "Correct a vehicle: a new version").Refuses(404, 409, 412, 422);
        api.Read(Routes.VehicleVersions, Versions).Says("listVehicleVersions", "Every version of the vehicle's own data, newest first").Refuses(404);
        api.MapPost(Routes.VehicleArchive, Archive).Says("archiveVehicle", "Keep the record, take no further entries").Refuses(404, 409, 412, 422);
    }

    public static Results<Ok<IReadOnlyList<Vehicle>>, Refused> List(string? archived, VehicleStore store, SqliteFile file)
    {
        if (archived is not (null or "true" or "false"))
        {
            Faults faults = new();
            faults.OneOf("archived", archived, "true", "false");
            return ProblemAnswers.Invalid(faults);
        }

        using var connection = file.Open();
        return TypedResults.Ok<IReadOnlyList<Vehicle>>([.. store.All(connection).Where(v => archived == "true" || !v.Archived)]);
    }

    public static Results<Added<Vehicle>, Refused> Add(NewVehicle input, VehicleStore store, VehicleRules rules, Entries entries) =>
        entries.Add(store, null, new VehicleContent(input), step => rules.Check(step, input));

    public static Results<Current<Vehicle>, Refused> Get(string vehicleId, VehicleStore store, Entries entries) =>
        entries.Get(store, vehicleId);

    public static Results<Current<Vehicle>, Refused> Replace(
        string vehicleId, NewVehicle input, [FromHeader(Name = "If-Match")] string? ifMatch, VehicleStore store, VehicleRules rules, Entries entries) =>
        entries.Replace(store, vehicleId, new VehicleContent(input), ifMatch, step => rules.Check(step, input));

    public static Results<Ok<IReadOnlyList<Vehicle>>, Refused> Versions(string vehicleId, VehicleStore store, Entries entries) =>
        entries.Versions(store, vehicleId);

    public static Results<Current<Vehicle>, Refused> Archive(
        string vehicleId, VoidRequest request, [FromHeader(Name = "If-Match")] string? ifMatch, VehicleStore store, Entries entries) =>
        entries.Change(
            store, vehicleId, ifMatch,
            step =>
            {
                step.Faults.Text("/reason", request.Reason, Lengths.Reason, required: true);
                return null;
            },
            step => new VehicleContent(Same(step.Car!.Vehicle), request.Reason));

    private static NewVehicle Same(Vehicle v) =>
        new(v.Name, v.Year, v.System, v.OdometerUnit, v.Engine, v.InUseSince, v.RecordComplete, v.Note, v.Make, v.Model, v.Options);
}
