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

/// <summary>An answer as it goes over the wire, with its tag.</summary>
public sealed record PresentAnswer(byte[] Body, string Tag);

/// <summary>What is asked of a complaint: the leaders with their main reasons, the whole ranking with all reasons, or what to do next.</summary>
public enum Asked { Leaders, Everything, Advice }

/// <summary>Answers by what is recorded, each computed once for as long as nothing it depends on changes.</summary>
public sealed class PresentAnswers(
    AssessmentInputs inputs, AnswerCache cache, ComputingGate gate, Revisions revisions, FaultModelFolder models, IOptions<JsonOptions> json)
{
    /// <returns>A refusal, or the answer.</returns>
    /// <exception cref="OperationCanceledException">Who asked has gone.</exception>
    public async Task<(Refused? Refusal, PresentAnswer? Answer)> Find(Asked asked, string complaintId, DateOnly day, DateTimeOffset? knownAt, CancellationToken stop)
    {
        if (revisions.VehicleOf("complaint", complaintId) is not { } vehicleId)
        {
            return (ProblemAnswers.NotFound("complaint", complaintId), null);
        }

        // The revision is read before the record: an entry that comes in between makes the next answer new, never this one stale.
        var revision = revisions.Of(vehicleId);
        var tag = string.Create(CultureInfo.InvariantCulture, $"\"{revision.Vehicle}-{revision.Everything}-{day:yyyyMMdd}-{asked}-{Tags.Build}{models.Fingerprint}\"");
        var of = $"{asked} {complaintId} {knownAt:O}";
        if (cache.Find(of, tag) is { } kept)
        {
            return (null, new PresentAnswer(kept, tag));
        }

        // the leaders are cut from the whole, which is computed once for both
        if (asked == Asked.Leaders)
        {
            var (refused, whole) = await Find(Asked.Everything, complaintId, day, knownAt, stop);
            return refused is not null ? (refused, null) : (null, Keep(of, tag, Leading.Of(Read<Assessment>(whole!), Written)));
        }

        // who asks for the same meanwhile waits for it, and finds it kept
        using var turn = await gate.Enter(of, stop);
        if (cache.Find(of, tag) is { } meanwhile)
        {
            return (null, new PresentAnswer(meanwhile, tag));
        }

        if (inputs.Gather(complaintId, day, knownAt, out var gathered) is { } refusal)
        {
            return (refusal, null);
        }

        return (null, Keep(of, tag, await Task.Run(() => Body(asked, gathered!, day, knownAt, stop), stop)));
    }

    private PresentAnswer Keep(string of, string tag, byte[] body)
    {
        cache.Keep(of, tag, body);
        return new PresentAnswer(body, tag);
    }

    /// <summary>The same read back, for answers that are made of it.</summary>
    public async Task<(Refused? Refusal, T? Answer)> Read<T>(Asked asked, string complaintId, DateOnly day, CancellationToken stop)
        where T : class
    {
        var (refusal, answer) = await Find(asked, complaintId, day, null, stop);
        return (refusal, answer is null ? null : Read<T>(answer));
    }

    private T Read<T>(PresentAnswer answer) => JsonSerializer.Deserialize<T>(answer.Body, json.Value.SerializerOptions)!;

    private byte[] Written<T>(T answer) => JsonSerializer.SerializeToUtf8Bytes(answer, json.Value.SerializerOptions);

    private byte[] Body(Asked asked, Gathered gathered, DateOnly day, DateTimeOffset? knownAt, CancellationToken stop)
    {
        if (asked == Asked.Advice)
        {
            var advised = Assess.Advise(gathered.InUse.Model, gathered.Input, stop);
            return Written(AdviceAnswer.Of(advised, gathered, day, knownAt));
        }

        return Written(AssessmentAnswer.Of(Assess.Run(gathered.InUse.Model, gathered.Input, stop), gathered, day, knownAt));
    }
}
