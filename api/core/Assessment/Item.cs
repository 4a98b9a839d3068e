namespace FuelHistory.Core.Assessment;

/// <summary>What kind of thing an item of a complaint is.</summary>
public enum ItemKind { Event, Check, Part }

/// <summary>What a complaint consists of (MODEL.md 8): an event reported as present, or a check that failed, and not since put right. It is
/// relieved where it was wrong in the stretch of its last bad finding and is right in the stretch to come.</summary>
/// <param name="Name">Id of the event, check or component.</param>
/// <param name="World">Stretch of the last bad finding; -1: one that was folded, so that it is taken to have been wrong.</param>
/// <param name="Weight">Share of the complaint; those of all items sum to 1.</param>
internal abstract record Item(ItemKind Kind, string Name, string Title, IReadOnlyList<string> Findings, int World, double Weight)
{
    /// <summary>Parts that it hangs on, directly or through conditions.</summary>
    public required bool[] Reach { get; init; }

    /// <summary>Conditions that must be in the network.</summary>
    public abstract IEnumerable<(int World, int Condition)> Asked(ModelIndex index, int next);

    /// <summary>Enters "wrong then, right in the stretch to come".</summary>
    public abstract void Relieve(EvidenceCircuit circuit, int next);

    public Item AfterFirst() => this with { World = Math.Max(-1, World - 1) };
}

/// <summary>An event that the driver reported.</summary>
internal sealed record EventItem(string Name, string Title, IReadOnlyList<string> Findings, int World, double Weight, EventIndex Source, ulong Cells, bool Surely)
    : Item(ItemKind.Event, Name, Title, Findings, World, Weight)
{
    public override IEnumerable<(int, int)> Asked(ModelIndex index, int next) =>
        new[] { World, next }.Where(w => w >= 0).SelectMany(w => Evidence.Conditions(index, Source, Cells, w));

    public override void Relieve(EvidenceCircuit circuit, int next)
    {
        circuit.Ask(Source.Index, Answer.Of(next, Cells, false, true, -1));
        if (!Surely && World >= 0)
        {
            circuit.Ask(Source.Index, Answer.Of(World, Cells, true, true, -1));
        }
    }
}

/// <summary>A reading outside its limits, or a pressure that did not hold: right if the conditions are at level 0 and the store is kept.</summary>
internal sealed record LevelItem(string Name, string Title, IReadOnlyList<string> Findings, int World, double Weight, int[] Conditions, int Store)
    : Item(ItemKind.Check, Name, Title, Findings, World, Weight)
{
    private IEnumerable<int> All => Store < 0 ? Conditions : Conditions.Append(Store);

    public override IEnumerable<(int, int)> Asked(ModelIndex index, int next) => new[] { World, next }.Where(w => w >= 0).SelectMany(w => All.Select(c => (w, c)));

    public override void Relieve(EvidenceCircuit circuit, int next)
    {
        foreach (int condition in All)
        {
            Enter(circuit.Circuit, next, condition, -1);
        }

        if (World >= 0)
        {
            // wrong then: anything, less all right
            int choice = circuit.Circuit.Network.AddVariable(2);
            circuit.Circuit.Network.AddFactor([choice], [1, -1]);
            foreach (int condition in All)
            {
                Enter(circuit.Circuit, World, condition, choice);
            }
        }
    }

    /// <param name="choice">Variable in whose state 1 it is right; -1: it is right.</param>
    private void Enter(Circuit circuit, int world, int condition, int choice)
    {
        Node node = circuit.Condition(world, condition);
        if (!node.Constant)
        {
            double[] right = [.. node.Levels.Select(l => (condition == Store ? l >= 0 : l == 0) ? 1.0 : 0.0)];
            circuit.Network.AddFactor(
                choice < 0 ? [node.Variable] : [choice, node.Variable],
                choice < 0 ? right : [.. right.Select(_ => 1.0), .. right]);
        }
    }
}

/// <summary>An outcome that means that something is wrong.</summary>
internal sealed record OutcomeItem(string Name, string Title, IReadOnlyList<string> Findings, int World, double Weight, OutcomeGate Gate)
    : Item(ItemKind.Check, Name, Title, Findings, World, Weight)
{
    public override IEnumerable<(int, int)> Asked(ModelIndex index, int next) => Gate.Conditions(index, next);

    public override void Relieve(EvidenceCircuit circuit, int next)
    {
        if (World >= 0)
        {
            circuit.MakeRight(Findings[^1], next);
        }
        else
        {
            Gate.Enter(circuit.Circuit, next, 0, true, -1, null, true, -1);
        }
    }
}

/// <summary>A part that was seen, or tested, to be bad.</summary>
internal sealed record PartItem(string Name, string Title, IReadOnlyList<string> Findings, int World, double Weight, int Part)
    : Item(ItemKind.Part, Name, Title, Findings, World, Weight)
{
    public override IEnumerable<(int, int)> Asked(ModelIndex index, int next) => [];

    public override void Relieve(EvidenceCircuit circuit, int next)
    {
        Enter(circuit.Circuit, Math.Max(0, World), ok: false);
        Enter(circuit.Circuit, next, ok: true);
    }

    private void Enter(Circuit circuit, int world, bool ok)
    {
        if (circuit.Worlds[world][Part] is PartCopy copy)
        {
            circuit.Network.AddFactor([circuit.Variable(copy)], [.. Enumerable.Range(0, copy.States).Select(s => s == 0 == ok ? 1.0 : 0.0)]);
        }
    }
}
