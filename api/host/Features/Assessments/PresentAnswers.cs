using System.Globalization;
using System.Text.Json;
using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.Extensions.Options;

namespace FuelHistory.Host.Features.Assessments;

using Assessment = FuelHistory.Contracts.Assessment;

public enum AnswerKind
{
    /// <summary>The leading components with their strongest reasons.</summary>
    Assessment,
    /// <summary>All components with all reasons.</summary>
    WholeAssessment,
    Advice,
}

/// <summary>An answer as it goes over the wire, with its tag.</summary>
public sealed record PresentAnswer(byte[] Body, string Tag);

/// <summary>Answers by what is recorded, each computed once for as long as nothing it depends on changes.</summary>
public sealed class PresentAnswers(
    AssessmentInputs inputs, AnswerCache cache, AssessmentGate gate, Revisions revisions, FaultModelFolder models, IOptions<JsonOptions> json)
{
    private JsonSerializerOptions Form => json.Value.SerializerOptions;

    /// <param name="cancel">The sender has given up: nobody waits for the answer.</param>
    public async Task<(Refused? Refusal, PresentAnswer? Answer)> Find(
        AnswerKind kind, string complaintId, DateOnly day, DateTimeOffset? knownAt, CancellationToken cancel)
    {
        if (revisions.VehicleOf("complaint", complaintId) is not { } vehicleId)
        {
            return (ProblemAnswers.NotFound("complaint", complaintId), null);
        }

        // The revision is read before the record: an entry that comes in between makes the next answer new, never this one stale.
        var revision = revisions.Of(vehicleId);
        var tag = string.Create(CultureInfo.InvariantCulture, $"\"{revision.Vehicle}-{revision.Everything}-{day:yyyyMMdd}-{Tags.Build}{models.Fingerprint}\"");
        if (cache.Find(Key(kind, complaintId, knownAt), tag) is { } kept)
        {
            return (null, new PresentAnswer(kept, tag));
        }

        var gateOfAnswer = cache.Gate($"{complaintId} {kind == AnswerKind.Advice}", tag);
        await gateOfAnswer.WaitAsync(cancel);
        try
        {
            return cache.Find(Key(kind, complaintId, knownAt), tag) is { } meanwhile
                ? (null, new PresentAnswer(meanwhile, tag))
                : await gate.Run(() => Computed(kind, complaintId, day, knownAt, tag, cancel), cancel);
        }
        finally
        {
            gateOfAnswer.Release();
        }
    }

    /// <summary>The whole assessment and the advice as they are on a day.</summary>
    public async Task<(Refused? Refusal, BothAnswers? Answers)> FindBoth(string complaintId, DateOnly day, CancellationToken cancel)
    {
        var (refusal, assessment) = await Find(AnswerKind.WholeAssessment, complaintId, day, null, cancel);
        if (refusal is not null)
        {
            return (refusal, null);
        }

        var (second, advice) = await Find(AnswerKind.Advice, complaintId, day, null, cancel);
        return second is not null ? (second, null) : (null, new BothAnswers(Read<Assessment>(assessment!), Read<Advice>(advice!)));
    }

    private (Refused? Refusal, PresentAnswer? Answer) Computed(
        AnswerKind kind, string complaintId, DateOnly day, DateTimeOffset? knownAt, string tag, CancellationToken cancel)
    {
        if (inputs.Gather(complaintId, day, knownAt, out var gathered) is { } refusal)
        {
            return (refusal, null);
        }

        if (kind == AnswerKind.Advice)
        {
            var advice = AdviceAnswer.Of(Assess.Advise(gathered!.InUse.Model, gathered.Input, cancel), gathered, day, knownAt);
            return (null, new PresentAnswer(Kept(kind, complaintId, knownAt, tag, advice), tag));
        }

        // both forms of the assessment are kept: it is one computation
        var whole = AssessmentAnswer.Of(Assess.Run(gathered!.InUse.Model, gathered.Input, cancel), gathered, day, knownAt);
        var all = Kept(AnswerKind.WholeAssessment, complaintId, knownAt, tag, whole);
        var leading = Kept(AnswerKind.Assessment, complaintId, knownAt, tag, AssessmentAnswer.Short(whole));
        return (null, new PresentAnswer(kind == AnswerKind.Assessment ? leading : all, tag));
    }

    private byte[] Kept<T>(AnswerKind kind, string complaintId, DateTimeOffset? knownAt, string tag, T answer)
    {
        var body = JsonSerializer.SerializeToUtf8Bytes(answer, Form);
        cache.Keep(Key(kind, complaintId, knownAt), tag, body);
        return body;
    }

    private T Read<T>(PresentAnswer answer) => JsonSerializer.Deserialize<T>(answer.Body, Form)!;

    private static string Key(AnswerKind kind, string complaintId, DateTimeOffset? knownAt) => $"{kind} {complaintId} {knownAt:O}";
}
