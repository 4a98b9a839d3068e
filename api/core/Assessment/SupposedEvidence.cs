namespace FuelHistory.Core.Assessment;

/// <summary>A trial, or an own observation of a side, whose world of its own would make the network too large: it counts by what it says of the
/// parts that are otherwise in that world (MODEL.md 7, "too large").</summary>
/// <param name="Parts">Factors per part, found so that with them the network gives the parts' probabilities of the whole one.</param>
/// <param name="Tried">The part tried; -1: none.</param>
/// <param name="Relieves">P(the events right with the tried part right | it is bad, all findings).</param>
internal sealed record SupposedEvidence(
    string Id,
    int World,
    IReadOnlyList<OwnEvidence> Parts,
    IReadOnlyList<(int Event, EventGroup Arrow)> Arrows,
    IReadOnlySet<int> Events,
    int Tried,
    double Relieves) : Evidence([Id])
{
    public override IEnumerable<Otherwise> Otherwise() => [];

    public override IEnumerable<(int, int)> Asked(ModelIndex index) => [];

    public override Evidence? AfterFirst() => World == 0 ? null
        : this with { World = World - 1, Parts = [.. Parts.Select(p => p with { World = World - 1 })] };

    public override void Enter(EvidenceCircuit circuit, Omitted? without)
    {
        foreach ((int source, EventGroup arrow) in Arrows)
        {
            circuit.Hide(source, arrow);
        }

        foreach (OwnEvidence part in Parts)
        {
            part.Enter(circuit, without);
        }
    }
}
