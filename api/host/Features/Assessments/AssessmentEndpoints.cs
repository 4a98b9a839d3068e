using System.Globalization;
using System.Text.Json;
using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.Life;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.Extensions.Options;

namespace FuelHistory.Host.Features.Assessments;

using Assessment = FuelHistory.Contracts.Assessment;

public static class AssessmentEndpoints
{
    // a new build may compute differently, so its answers carry other tags
    private static readonly string Build = typeof(AssessmentEndpoints).Module.ModuleVersionId.ToString("N")[..8];

    public static void MapAssessments(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Assessment");
        api.Read(Routes.Assessment, Get)
            .Says("getAssessment", "What is most likely wrong as of a day (asOf), by what was recorded until an instant (knownAt), and what to do next")
            .Refuses(404, 409, 422);
    }

    public static Results<Kept<Assessment>, Refused> Get(
        string complaintId, string? asOf, string? knownAt, AssessmentInputs inputs, AnswerCache cache, Revisions revisions,
        FaultModelFolder models, IOptions<JsonOptions> json, TimeProvider clock)
    {
        Faults faults = new();
        var (day, instant) = When(faults, asOf, knownAt, clock);
        if (!faults.None)
        {
            return ProblemAnswers.Invalid(faults);
        }

        if (revisions.VehicleOf("complaint", complaintId) is not { } vehicleId)
        {
            return ProblemAnswers.NotFound("complaint", complaintId);
        }

        // The revision is read before the record: an entry that comes in between makes the next answer new, never this one stale.
        var revision = revisions.Of(vehicleId);
        var tag = string.Create(CultureInfo.InvariantCulture, $"\"{revision.Vehicle}-{revision.Everything}-{day:yyyyMMdd}-{Build}{models.Fingerprint}\"");
        var of = $"{complaintId} {knownAt}";
        if (cache.Find(of, tag) is { } known)
        {
            return new Kept<Assessment>(known, tag);
        }

        lock (cache.Gate(of, tag))
        {
            if (cache.Find(of, tag) is { } meanwhile)
            {
                return new Kept<Assessment>(meanwhile, tag);
            }

            if (inputs.Gather(complaintId, day, instant, out var gathered) is { } refusal)
            {
                return refusal;
            }

            var result = Assess.Run(models.Compiled(gathered!.Car.Vehicle.System)!, gathered.Input);
            var body = JsonSerializer.SerializeToUtf8Bytes(AssessmentAnswer.Of(result, gathered, day, instant), json.Value.SerializerOptions);
            cache.Keep(of, tag, body);
            return new Kept<Assessment>(body, tag);
        }
    }

    private static (DateOnly Day, DateTimeOffset? Instant) When(Faults faults, string? asOf, string? knownAt, TimeProvider clock)
    {
        var day = DateOnly.FromDateTime(clock.GetLocalNow().Date);
        if (asOf is not null)
        {
            if (!RoughDate.TryParse(asOf, out var date, out var why))
            {
                faults.Add("asOf", Problems.ImpossibleDate, why);
            }
            else if (!date.IsDay)
            {
                faults.Add("asOf", Problems.ImpossibleDate, $"asOf \"{asOf}\" is not a day; write it in full (2026-05-01).");
            }
            else
            {
                day = date.Earliest;
            }
        }

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
