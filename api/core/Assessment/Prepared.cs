using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>Record, complaint and day turned into what questions are asked of: stretches, life priors, evidence, and the network's situation.</summary>
internal sealed record Prepared(Investigation Investigation, LifePrior Life, EvidenceList Evidence, Situation Situation)
{
    /// <summary>Trials and own observations of a side that count by what they say of the parts alone.</summary>
    public IReadOnlyList<string> Turned { get; private init; } = [];

    /// <summary>Those of them that do not fit even alone.</summary>
    public IReadOnlyList<string> LeftOut { get; private init; } = [];

    /// <summary>Nothing was folded, left out or looked at by itself.</summary>
    public bool Exact(Ranking ranking, IReadOnlyList<string> dropped) => dropped.Count + Turned.Count + LeftOut.Count == 0 && !ranking.Approximate;

    public static Prepared Of(CompiledModel model, AssessmentInput input, CancellationToken stop = default) => Of(model, input, false, stop);

    /// <param name="whole">Trials and sides stay in the network, however large it is.</param>
    public static Prepared Of(CompiledModel model, AssessmentInput input, bool whole, CancellationToken stop = default)
    {
        Investigation investigation = Investigation.From(model.Index, input);
        LifePrior life = model.Lives.Of(investigation);
        Worlds worlds = Worlds.From(model.Index, investigation, life);
        var evidence = new EvidenceList(model.Index, investigation, model.Leaks, life, worlds);
        evidence.Asks.AddRange(investigation.Asks);
        evidence.Notes.AddRange(life.ByMiddleDays().Select(c => $"{c.Title}: more than three half-known dates; each counts by the middle of its span."));
        evidence.Notes.AddRange(FormerParts.Notes(model.Source, investigation));
        var everything = new Situation(model.Index, model.Networks, worlds, evidence.Items, evidence.Complaint, input.Complaint.Intermittent, stop);
        (Situation situation, IReadOnlyList<string> turned, IReadOnlyList<string> leftOut) = whole ? (everything, [], []) : Supposing.Within(everything);
        if (turned.Count > 0)
        {
            evidence.Notes.Add(Supposing.Note);
        }

        return new Prepared(investigation, life, evidence, situation) { Turned = turned, LeftOut = leftOut };
    }
}
