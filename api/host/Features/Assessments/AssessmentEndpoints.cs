using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Assessments;

public static class AssessmentEndpoints
{
    public static void MapAssessments(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Assessment");
        api.Read(Routes.Assessment, Get)
            .Says("getAssessment", "What is most likely wrong as of a day (asOf), by what was recorded until an instant (knownAt), and why; reasons=all for the whole ranking with all reasons")
            .Refuses(404, 409, 422);
        api.Read(Routes.Advice, Next)
            .Says("getAdvice", "Which check or trial pays next, and the repairs in the order that costs least, as of a day")
            .Refuses(404, 409, 422);
        api.MapPost(Routes.WhatIf, WhatIfAnswers.Post)
            .Says("tryWhatIf", "The assessment as findings or work that do not exist would make it, or without some that do; nothing is stored")
            .Refuses(404, 409, 422);
    }

    public static Task<Results<Kept<Assessment>, Refused>> Get(
        string complaintId, string? asOf, string? knownAt, string? reasons, PresentAnswers answers, AssessedDays days, CancellationToken stop)
    {
        Faults faults = new();
        if (reasons is not null)
        {
            faults.OneOf("reasons", reasons, "leading", "all");
        }

        return Answer<Assessment>(reasons == "all" ? Asked.Everything : Asked.Leaders, complaintId, asOf, knownAt, faults, answers, days, stop);
    }

    public static Task<Results<Kept<Advice>, Refused>> Next(
        string complaintId, string? asOf, string? knownAt, PresentAnswers answers, AssessedDays days, CancellationToken stop) =>
        Answer<Advice>(Asked.Advice, complaintId, asOf, knownAt, new Faults(), answers, days, stop);

    private static async Task<Results<Kept<T>, Refused>> Answer<T>(
        Asked asked, string complaintId, string? asOf, string? knownAt, Faults faults, PresentAnswers answers, AssessedDays days, CancellationToken stop)
    {
        var (day, instant) = days.When(faults, complaintId, asOf, knownAt);
        if (!faults.None)
        {
            return ProblemAnswers.Invalid(faults);
        }

        var (refusal, answer) = await answers.Find(asked, complaintId, day, instant, stop);
        return refusal is not null ? refusal : new Kept<T>(answer!.Body, answer.Tag);
    }
}
