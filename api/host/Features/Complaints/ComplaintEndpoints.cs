using FuelHistory.Contracts;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Http;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.Complaints;

public static class ComplaintEndpoints
{
    public static void MapComplaints(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Complaints");
        api.Read(Routes.Complaints, List).Says("listComplaints", "Complaints about a vehicle, open and closed, without void ones").Refuses(404);
        api.MapPost(Routes.Complaints, Add).Says("addComplaint", "Open a complaint; the events become its first findings").Refuses(404, 409, 422);
        api.Read(Routes.Complaint, Get).Says("getComplaint", "The newest version of a complaint, void or not").Refuses(404);
        api.MapPut(Routes.Complaint, Replace).Says("replaceComplaint", "Correct an open complaint: a new version").Refuses(404, 409, 412, 422);
        api.Read(Routes.ComplaintVersions, Versions).Says("listComplaintVersions", "Every version of the complaint, newest first").Refuses(404);
        api.MapPost(Routes.ComplaintVoid, Void).Says("voidComplaint", "Say that the complaint no longer counts, and why").Refuses(404, 409, 412, 422);
        api.MapPost(Routes.ComplaintClose, Close).Says("closeComplaint", "Close a complaint with what was the cause and what proved it").Refuses(404, 409, 412, 422);
    }

    public static Results<Ok<IReadOnlyList<Complaint>>, Refused> List(string vehicleId, ComplaintStore store, Entries entries) =>
        entries.List<Complaint>(vehicleId, (connection, _) => [.. store.OfVehicle(connection, vehicleId).Where(c => c.Entry.VoidReason is null)]);

    public static Results<Added<Complaint>, Refused> Add(
        string vehicleId, NewComplaint input, ComplaintStore store, ComplaintRules rules, FindingStore findings, Entries entries, TimeProvider clock)
    {
        var at = input.At ?? clock.GetLocalNow();
        ComplaintContent content = new(input.Title, input.Since, input.Course, input.Always, at, input.Note, null, null, input.Main, input.Onset);
        return entries.Add(store, vehicleId, content, step => rules.Check(step, input), (session, complaintId) =>
        {
            foreach (var answer in input.Events)
            {
                NewFinding finding = new(at, Event: answer.Event, Outcome: answer.Answer, Sure: answer.Sure, When: answer.When, Then: answer.Then);
                findings.Begin(session, vehicleId, new FindingContent(finding, complaintId));
            }
        });
    }

    public static Results<Current<Complaint>, Refused> Get(string complaintId, ComplaintStore store, Entries entries) =>
        entries.Get(store, complaintId);

    public static Results<Ok<IReadOnlyList<Complaint>>, Refused> Versions(string complaintId, ComplaintStore store, Entries entries) =>
        entries.Versions(store, complaintId);

    public static Results<Current<Complaint>, Refused> Replace(
        string complaintId, ComplaintChange input, [FromHeader(Name = "If-Match")] string? ifMatch, ComplaintStore store, ComplaintRules rules, Entries entries) =>
        entries.Change(store, complaintId, ifMatch, step => rules.Check(step, input), step =>
            new ComplaintContent(input.Title, input.Since, input.Course, input.Always, Present(step, store).OpenedAt, input.Note, null, null, input.Main, input.Onset));

    public static Results<Current<Complaint>, Refused> Void(
        string complaintId, VoidRequest request, [FromHeader(Name = "If-Match")] string? ifMatch, ComplaintStore store, Entries entries) =>
        entries.Void(store, complaintId, request, ifMatch);

    public static Results<Current<Complaint>, Refused> Close(
        string complaintId, Closing input, [FromHeader(Name = "If-Match")] string? ifMatch, ComplaintStore store, ComplaintRules rules, Entries entries) =>
        entries.Change(store, complaintId, ifMatch, step => rules.Check(step, input), step =>
        {
            var c = Present(step, store);
            return new ComplaintContent(c.Title, c.Since, c.Course, c.Always, c.OpenedAt, c.Note, input, new UsedFaultModel(step.Car!.Model.Id, step.Car.Model.Revision), c.Main, c.Onset);
        });

    private static Complaint Present(Step step, ComplaintStore store) => store.Versions(step.Session.Connection, step.Present!.EntryId)[0];
}
