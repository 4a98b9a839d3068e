using System.Globalization;
using System.Text.Json;
using FuelHistory.Core.Assessment;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.Extensions.Options;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>An assessment as it goes over the wire, with its tag.</summary>
public sealed record PresentAnswer(byte[] Body, string Tag);

/// <summary>Answers by what is recorded, each computed once for as long as nothing it depends on changes.</summary>
public sealed class PresentAnswers(
    AssessmentInputs inputs, AnswerCache cache, Revisions revisions, FaultModelFolder models, IOptions<JsonOptions> json)
{
    public Refused? Find(string complaintId, DateOnly day, DateTimeOffset? knownAt, out PresentAnswer? answer)
    {
        answer = null;
        if (revisions.VehicleOf("complaint", complaintId) is not { } vehicleId)
        {
            return ProblemAnswers.NotFound("complaint", complaintId);
        }

        // The revision is read before the record: an entry that comes in between makes the next answer new, never this one stale.
        var revision = revisions.Of(vehicleId);
        var tag = string.Create(CultureInfo.InvariantCulture, $"\"{revision.Vehicle}-{revision.Everything}-{day:yyyyMMdd}-{Tags.Build}{models.Fingerprint}\"");
        var of = $"{complaintId} {knownAt:O}";
        if (cache.Find(of, tag) is { } kept)
        {
            answer = new PresentAnswer(kept, tag);
            return null;
        }

        lock (cache.Gate(of, tag))
        {
            if (cache.Find(of, tag) is { } meanwhile)
            {
                answer = new PresentAnswer(meanwhile, tag);
                return null;
            }

            if (inputs.Gather(complaintId, day, knownAt, out var gathered) is { } refusal)
            {
                return refusal;
            }

            var result = Assess.Run(gathered!.InUse.Model, gathered.Input);
            var body = JsonSerializer.SerializeToUtf8Bytes(AssessmentAnswer.Of(result, gathered, day, knownAt), json.Value.SerializerOptions);
            cache.Keep(of, tag, body);
            answer = new PresentAnswer(body, tag);
            return null;
        }
    }
}
