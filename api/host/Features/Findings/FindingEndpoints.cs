using FuelHistory.Contracts;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.Findings;

public static class FindingEndpoints
{
    public static void MapFindings(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Findings");
        api.Read(Routes.VehicleFindings, ListOfVehicle).Says("listVehicleFindings", "Everything found on a vehicle, in the order of its time, without void entries").Refuses(404);
        api.MapPost(Routes.VehicleFindings, AddToVehicle).Says("addVehicleFinding", "Enter a finding that belongs to no complaint").Refuses(404, 409, 422);
        api.Read(Routes.ComplaintFindings, ListOfComplaint).Says("listComplaintFindings", "What was found for a complaint, in the order of its time, without void entries").Refuses(404);
        api.MapPost(Routes.ComplaintFindings, AddToComplaint).Says("addComplaintFinding", "Enter a finding for an open complaint").Refuses(404, 409, 422);
        api.MapPut(Routes.Finding, Replace).Says("replaceFinding", "Correct a finding: a new version").Refuses(404, 409, 412, 422);
        api.MapEntry<FindingStore, FindingContent, Finding>(Routes.Finding, Routes.FindingVersions, Routes.FindingVoid, "Finding");
    }

    public static Results<Ok<IReadOnlyList<Finding>>, Refused> ListOfVehicle(string vehicleId, FindingStore store, Entries entries) =>
        entries.List<Finding>(vehicleId, (connection, car) => [.. store.OfVehicle(connection, car).Where(f => f.Entry.VoidReason is null)]);

    public static Results<Ok<IReadOnlyList<Finding>>, Refused> ListOfComplaint(
        string complaintId, FindingStore store, ComplaintStore complaints, Cars cars, SqliteFile file)
    {
        using var connection = file.Open();
        return complaints.Versions(connection, complaintId) is [var complaint, ..]
            ? TypedResults.Ok<IReadOnlyList<Finding>>([.. store.OfVehicle(connection, cars.Find(connection, complaint.VehicleId)!)
                .Where(f => f.ComplaintId == complaintId && f.Entry.VoidReason is null)])
            : ProblemAnswers.NotFound(complaints.Noun, complaintId);
    }

    public static Results<Added<Finding>, Refused> AddToVehicle(string vehicleId, NewFinding input, FindingStore store, FindingRules rules, Entries entries) =>
        entries.Add(store, vehicleId, new FindingContent(input, null), step => rules.Check(step, input, null));

    public static Results<Added<Finding>, Refused> AddToComplaint(
        string complaintId, NewFinding input, FindingStore store, FindingRules rules, ComplaintStore complaints, Entries entries, Revisions revisions) =>
        revisions.VehicleOf(complaints.Kind, complaintId) is { } vehicleId
            ? entries.Add(store, vehicleId, new FindingContent(input, complaintId), step => rules.Check(step, input, complaintId))
            : ProblemAnswers.NotFound(complaints.Noun, complaintId);

    public static Results<Current<Finding>, Refused> Replace(
        string entryId, NewFinding input, [FromHeader(Name = "If-Match")] string? ifMatch, FindingStore store, FindingRules rules, Entries entries) =>
        entries.Change(
            store, entryId, ifMatch, step => rules.Check(step, input, ComplaintOf(step, store)), step => new FindingContent(input, ComplaintOf(step, store)));

    private static string? ComplaintOf(Step step, FindingStore store) =>
        store.Versions(step.Session.Connection, step.Present!.EntryId)[0].ComplaintId;
}
