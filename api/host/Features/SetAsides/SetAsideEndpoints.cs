using FuelHistory.Contracts;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.SetAsides;

public static class SetAsideEndpoints
{
    public static void MapSetAsides(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Set aside");
        api.Read(Routes.SetAsides, List).Says("listSetAside", "Checks and trials that were set aside under a complaint, without void entries").Refuses(404);
        api.MapPost(Routes.SetAsides, Add).Says("setAside", "Set a proposed check or trial aside: not fitted, no tool, or not today").Refuses(404, 409, 422);
        api.MapEntry<SetAsideStore, SetAsideContent, SetAside>(Routes.SetAside, Routes.SetAsideVersions, Routes.SetAsideVoid, "SetAside");
    }

    public static Results<Ok<IReadOnlyList<SetAside>>, Refused> List(
        string complaintId, SetAsideStore store, ComplaintStore complaints, Cars cars, SqliteFile file)
    {
        using var connection = file.Open();
        return complaints.Versions(connection, complaintId) is [var complaint, ..]
            ? TypedResults.Ok<IReadOnlyList<SetAside>>([.. store.OfVehicle(connection, cars.Find(connection, complaint.VehicleId)!)
                .Where(s => s.ComplaintId == complaintId && s.Entry.VoidReason is null)])
            : ProblemAnswers.NotFound(complaints.Noun, complaintId);
    }

    public static Results<Added<SetAside>, Refused> Add(
        string complaintId, NewSetAside input, SetAsideStore store, SetAsideRules rules, ComplaintStore complaints, Entries entries, Revisions revisions) =>
        revisions.VehicleOf(complaints.Kind, complaintId) is { } vehicleId
            ? entries.Add<SetAsideContent, SetAside>(
                store, vehicleId, step => new SetAsideContent(complaintId, input, SetAsideRules.Until(step, input)), step => rules.Check(step, input, complaintId))
            : ProblemAnswers.NotFound(complaints.Noun, complaintId);
}
