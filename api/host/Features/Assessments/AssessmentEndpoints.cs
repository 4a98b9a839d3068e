using FuelHistory.Contracts;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Assessments;

public static class AssessmentEndpoints
{
    public static void MapAssessments(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Assessment");
        api.Read(Routes.Assessment, Get)
            .Says("getAssessment", "What is most likely wrong as of a day (asOf), by what was recorded until an instant (knownAt), and what to do next")
            .Refuses(404, 409, 422);
        api.MapPost(Routes.WhatIf, WhatIfAnswers.Post)
            .Says("tryWhatIf", "The assessment as findings or work that do not exist would make it, or without some that do; nothing is stored")
            .Refuses(404, 409, 422);
    }

    public static Results<Kept<Assessment>, Refused> Get(string complaintId, string? asOf, string? knownAt, PresentAnswers answers, ComplaintStore complaints, SqliteFile file, TimeProvider clock)
    {
        Faults faults = new();
        var (day, instant) = When(faults, asOf, knownAt, clock);
        if (asOf is not null && faults.None)
        {
            using var connection = file.Open();
            if (complaints.Versions(connection, complaintId) is [var complaint, ..])
            {
                AssessedDay.Fits(faults, "asOf", day, complaint, Days.Any(clock.GetUtcNow(), DateOnly.FromDateTime(clock.GetLocalNow().Date)));
            }
        }

        return !faults.None ? ProblemAnswers.Invalid(faults)
            : answers.Find(complaintId, day, instant, out var answer) is { } refusal ? refusal
            : new Kept<Assessment>(answer!.Body, answer.Tag);
    }

    private static (DateOnly Day, DateTimeOffset? Instant) When(Faults faults, string? asOf, string? knownAt, TimeProvider clock)
    {
        var day = AssessedDay.Read(faults, "asOf", asOf) ?? DateOnly.FromDateTime(clock.GetLocalNow().Date);
        if (knownAt is null)
        {
            return (day, null);
        }

        // a plus sign that was not escaped arrives as a space
        if (!Instants.TryRead(knownAt.Replace(' ', '+'), out var instant))
        {
            faults.Add("knownAt", Problems.ImpossibleDate, $"knownAt \"{knownAt}\" is not an instant; {Instants.Hint}.");
            return (day, null);
        }

        return (day, instant);
    }
}
