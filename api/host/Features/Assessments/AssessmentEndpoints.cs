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
            .Says("getAssessment", "What is most likely wrong as of a day (asOf), by what was recorded until an instant (knownAt); with reasons=all every component and every reason")
            .Refuses(404, 409, 422);
        api.Read(Routes.Advice, GetAdvice)
            .Says("getAdvice", "Which check or trial pays next, and which repairs in which order, as of a day (asOf), by what was recorded until an instant (knownAt)")
            .Refuses(404, 409, 422);
        api.MapPost(Routes.WhatIf, WhatIfAnswers.Post)
            .Says("tryWhatIf", "Assessment and advice as findings or work that do not exist would make them, or without some that do; nothing is stored")
            .Refuses(404, 409, 422);
    }

    public static async Task<Results<Kept<Assessment>, Refused>> Get(
        string complaintId, string? asOf, string? knownAt, string? reasons, PresentAnswers answers, TimeProvider clock, CancellationToken cancel)
    {
        Faults faults = new();
        var (day, instant) = When(faults, asOf, knownAt, clock);
        if (reasons is not null)
        {
            faults.OneOf("reasons", reasons, "all", "leading");
        }

        if (!faults.None)
        {
            return ProblemAnswers.Invalid(faults);
        }

        var (refusal, answer) = await answers.Find(reasons == "all" ? AnswerKind.WholeAssessment : AnswerKind.Assessment, complaintId, day, instant, cancel);
        return refusal is not null ? refusal : new Kept<Assessment>(answer!.Body, answer.Tag);
    }

    public static async Task<Results<Kept<Advice>, Refused>> GetAdvice(
        string complaintId, string? asOf, string? knownAt, PresentAnswers answers, TimeProvider clock, CancellationToken cancel)
    {
        Faults faults = new();
        var (day, instant) = When(faults, asOf, knownAt, clock);
        if (!faults.None)
        {
            return ProblemAnswers.Invalid(faults);
        }

        var (refusal, answer) = await answers.Find(AnswerKind.Advice, complaintId, day, instant, cancel);
        return refusal is not null ? refusal : new Kept<Advice>(answer!.Body, answer.Tag);
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
