using FuelHistory.Contracts;
using FuelHistory.Host.Features.Assessments;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.LeakDowns;

public static class LeakDownEndpoints
{
    public static void MapLeakDowns(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Leak-downs");
        api.Read(Routes.LeakDowns, List).Says("listLeakDowns", "Leak-downs of a complaint, running and finished, in the order of their stops, without void ones").Refuses(404);
        api.MapPost(Routes.LeakDowns, Add).Says("beginLeakDown", "Begin to watch a pressure after the stop; it counts once it is finished").Refuses(404, 409, 422);
        api.Read(Routes.LeakDown, Get).Says("getLeakDown", "A leak-down with its readings, and what they say so far").Refuses(404);
        api.MapPut(Routes.LeakDown, Replace).Says("replaceLeakDown", "Correct a running leak-down: a new version").Refuses(404, 409, 412, 422);
        api.Read(Routes.LeakDownVersions, EntryRoutes.Versions<LeakDownStore, LeakDownContent, LeakDown>).Says("listLeakDownVersions", "Every version of the entry, newest first").Refuses(404);
        api.MapPost(Routes.LeakDownVoid, Void).Says("voidLeakDown", "Say that the leak-down, and the finding that it became, no longer count, and why").Refuses(404, 409, 412, 422);
        api.MapPost(Routes.LeakDownReadings, AddReadings).Says("addLeakDownReadings", "One or more readings in any order, each taken once however often it is sent").Refuses(404, 409, 422);
        api.MapPost(Routes.LeakDownTakeBack, TakeBack).Says("takeBackLeakDownReading", "Undo a reading: it stays readable and no longer counts").Refuses(404, 409);
        api.MapPost(Routes.LeakDownFinish, Finish).Says("finishLeakDown", "Make one finding of the readings that stand").Refuses(404, 409, 412, 422);
        api.Read(Routes.LeakDownAssessment, Assess).Says("tryLeakDown", "The complaint's assessment and advice as the readings so far would make it; nothing is stored").Refuses(404, 409, 422);
    }

    public static Results<Ok<IReadOnlyList<LeakDown>>, Refused> List(string complaintId, LeakDownStore store, ComplaintStore complaints, SqliteFile file)
    {
        using var connection = file.Open();
        return complaints.Versions(connection, complaintId).Count > 0
            ? TypedResults.Ok(store.OfComplaint(connection, complaintId))
            : ProblemAnswers.NotFound(complaints.Noun, complaintId);
    }

    public static Results<Added<LeakDown>, Refused> Add(
        string complaintId, NewLeakDown input, LeakDownStore store, LeakDownRules rules, ComplaintStore complaints, Entries entries, Revisions revisions) =>
        revisions.VehicleOf(complaints.Kind, complaintId) is { } vehicleId
            ? entries.Add(store, vehicleId, new LeakDownContent(input, complaintId), step => rules.Check(step, input, complaintId))
            : ProblemAnswers.NotFound(complaints.Noun, complaintId);

    public static Results<Kept<LeakDownView>, Refused> Get(string entryId, LeakDownViews views) => views.Answer(entryId);

    public static Results<Current<LeakDown>, Refused> Replace(
        string entryId, NewLeakDown input, [FromHeader(Name = "If-Match")] string? ifMatch, LeakDownStore store, LeakDownRules rules, Entries entries) =>
        entries.Change(store, entryId, ifMatch, step => rules.CheckChange(step, input), step =>
            new LeakDownContent(input, store.Versions(step.Session.Connection, entryId)[0].ComplaintId));

    public static Results<Current<LeakDown>, Refused> Void(
        string entryId, VoidRequest request, [FromHeader(Name = "If-Match")] string? ifMatch, LeakDownStore store, LeakFindings findings, Entries entries) =>
        entries.Void(store, entryId, request, ifMatch, step => findings.Void(step, request.Reason));

    public static Results<Kept<LeakDownView>, Refused> AddReadings(string entryId, NewLeakReadings input, LeakReadings readings, LeakDownViews views) =>
        readings.Add(entryId, input) is { } refusal ? refusal : views.Answer(entryId);

    public static Results<Kept<LeakDownView>, Refused> TakeBack(string entryId, string readingId, LeakReadings readings, LeakDownViews views) =>
        readings.TakeBack(entryId, readingId) is { } refusal ? refusal : views.Answer(entryId);

    public static Results<Current<LeakDown>, Refused> Finish(
        string entryId, [FromHeader(Name = "If-Match")] string? ifMatch, LeakDownStore store, LeakFindings findings, Entries entries, SqliteFile file)
    {
        // who did not hear the answer asks again
        using var connection = file.Open();
        return store.Versions(connection, entryId) is [{ Finding: not null, Entry.VoidReason: null } done, ..]
            ? new Current<LeakDown>(done, store.Tag(done))
            : entries.Change(store, entryId, ifMatch, findings.CheckFinish, findings.Finish);
    }

    public static async Task<Results<Ok<WhatIfAnswer>, Refused>> Assess(
        string entryId, LeakDownStore store, LeakFindings findings, WhatIfAnswers answers, SqliteFile file, TimeProvider clock, CancellationToken cancel)
    {
        using var connection = file.Open();
        if (store.Versions(connection, entryId) is not [var leakDown, ..])
        {
            return ProblemAnswers.NotFound(store.Noun, entryId);
        }

        // finished, its finding counts already
        var tried = leakDown is { Finding: null, Entry.VoidReason: null } ? findings.Of(connection, leakDown, clock.GetUtcNow()) : null;
        return await answers.Of(leakDown.ComplaintId, new WhatIf(tried is null ? [] : [tried]), cancel);
    }
}
