using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Inference;

namespace FuelHistory.Core.Assessment;

/// <summary>Only which side of the limits a reading lay: below, within or above, as sure as a class 4 instrument (MODEL.md 5).</summary>
/// <param name="Words">P(word | level), lowest level first.</param>
internal sealed record LimitWordEvidence(string Id, int Condition, double[][] Words, int World, int Outcome, bool Sure, SessionFact Session) : Evidence([Id])
{
    public static readonly string[] Names = CommonWords.Ids(CommonWords.LimitWords);

    public override IEnumerable<(int, int)> Asked(ModelIndex index) => [(World, Condition)];

    public override Evidence? AfterFirst() => World == 0 ? null : this with { World = World - 1 };

    public override IEnumerable<Otherwise> Otherwise() =>
        Enumerable.Range(0, Names.Length).Where(o => o != Outcome).Select(o => new Otherwise(Id, o, this with { Outcome = o }));

    public override void Enter(EvidenceCircuit circuit, Omitted? without)
    {
        Node node = circuit.Circuit.Condition(World, Condition);
        int acting = circuit.Acting(Session), min = circuit.Circuit.Index.Conditions[Condition].Min;
        bool counts = !Omitted.Has(without, Id);
        int[] scope = [.. acting < 0 ? Array.Empty<int>() : [acting], .. node.Constant ? Array.Empty<int>() : [node.Variable]];
        circuit.Circuit.Network.Add(scope, at => !counts ? 1 : P(acting >= 0 && at[0] == 0 || node.Constant ? -min : node.Levels[at[^1]] - min));
    }

    private double P(int level) => Sure ? Words[level][Outcome] : (Words[level][Outcome] / 2) + (0.5 / Names.Length);
}
