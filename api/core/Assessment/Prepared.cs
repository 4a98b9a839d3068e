using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>Record, complaint and day turned into what questions are asked of: stretches, life priors, evidence, and the network's situation.</summary>
internal sealed record Prepared(Investigation Investigation, LifePrior Life, EvidenceList Evidence, Situation Situation)
{
    public static Prepared Of(CompiledModel model, AssessmentInput input, CancellationToken cancel)
    {
        Investigation investigation = Investigation.From(model.Index, input);
        LifePrior life = model.Lives.Of(investigation);
        var evidence = new EvidenceList(model.Index, investigation, model.Leaks, life);
        Worlds worlds = Worlds.From(model.Index, investigation, life);
        var situation = new Situation(model.Index, model.Networks, worlds, evidence.Items, evidence.Complaint, input.Complaint.Intermittent, cancel);
        return new Prepared(investigation, life, evidence, situation);
    }
}
