using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>Findings that enter a network together: the answers to one question, the readings of one value, one leak-down.</summary>
internal abstract record Evidence(IReadOnlyList<string> Findings)
{
    /// <summary>Conditions that must be in the network for this, per world.</summary>
    public abstract IEnumerable<(int World, int Condition)> Asked(ModelIndex index);

    /// <param name="without">Findings that are left out: the network keeps its shape, the numbers say nothing of them.</param>
    public abstract void Enter(EvidenceCircuit circuit, Omitted? without);

    /// <summary>The same with the first stretch taken away; null where it belongs to that wholly.</summary>
    public abstract Evidence? AfterFirst();

    /// <summary>What one of its findings says apart from those it is entered with; answers to one question stay together.</summary>
    public virtual Evidence Alone(string finding) => this;

    /// <summary>The same with one of its findings having come out otherwise.</summary>
    public abstract IEnumerable<Otherwise> Otherwise();

    /// <summary>Conditions that one of these cells hangs on, in one world.</summary>
    public static IEnumerable<(int, int)> Conditions(ModelIndex index, EventIndex source, ulong cells, int world) =>
        source.Groups.Where(g => g.Part < 0 && !index.Conditions[g.Condition].OfInstrument && g.For(cells) is not null).Select(g => (world, g.Condition));
}

/// <summary>Findings that shall say nothing.</summary>
internal sealed class Omitted(params IEnumerable<string> findings)
{
    private readonly HashSet<string> _findings = [.. findings];

    public static bool Has(Omitted? omitted, string finding) => omitted is not null && omitted._findings.Contains(finding);
}

/// <summary>A finding that came out otherwise.</summary>
/// <param name="Outcome">Number of the outcome: of the check, or 0 for no, absent, good and 1 for yes, present, bad.</param>
/// <param name="Width">What turns the evidence's weight into a probability: 1, or the width of the band for a density.</param>
internal sealed record Otherwise(string Finding, int Outcome, Evidence Instead, double Width = 1);

/// <summary>A session, and whether an intermittent complaint showed in it (an event reported as present shows it).</summary>
internal sealed record SessionFact(string Name, Showed Showed);

/// <summary>One outcome of a yes/no check or a check with named outcomes.</summary>
internal sealed record OutcomeEvidence(string Id, OutcomeGate Gate, int World, int Outcome, bool Sure, bool SeesPart, SessionFact Session, string? Instrument)
    : Evidence([Id])
{
    public override IEnumerable<(int, int)> Asked(ModelIndex index) =>
        Gate.Conditions(index, World);

    public override Evidence? AfterFirst() => World == 0 ? null : this with { World = World - 1 };

    public override IEnumerable<Otherwise> Otherwise() =>
        Enumerable.Range(0, Gate.Outcomes).Where(o => o != Outcome).Select(o => new Otherwise(Id, o, this with { Outcome = o }));

    public override void Enter(EvidenceCircuit circuit, Omitted? without) =>
        Gate.Enter(circuit.Circuit, World, Outcome, Sure, SeesPart ? -1 : circuit.Acting(Session), Instrument, !Omitted.Has(without, Id), circuit.RightIn(Id));
}

/// <summary>A part opened and looked at: it shows whether or not the fault is acting.</summary>
/// <param name="Likelihood">Of what was seen: under ok, then under each mode.</param>
/// <param name="Opposite">The same, had it been the other way round.</param>
internal sealed record SeenEvidence(string Id, int World, int Part, bool Bad, double[] Likelihood, double[] Opposite) : Evidence([Id])
{
    public static SeenEvidence Of(string id, int world, PartIndex part, LookResult look, ReadOnlySpan<double> prior) => new(
        id, world, part.Index, look.Bad,
        PartLikelihood.Seen(part.Source, look, prior),
        PartLikelihood.Seen(part.Source, look with { Bad = !look.Bad, Mode = null }, prior));

    /// <summary>The part is ok for certain, entered as one finding more.</summary>
    public static SeenEvidence Ok(int world, PartIndex part) => new(
        "", world, part.Index, false, [1, .. part.Source.Modes.Select(_ => 0.0)], [0, .. part.Source.Modes.Select(_ => 1.0)]);

    public override IEnumerable<Otherwise> Otherwise() => [new Otherwise(Id, Bad ? 0 : 1, this with { Bad = !Bad, Likelihood = Opposite, Opposite = Likelihood })];

    public override IEnumerable<(int, int)> Asked(ModelIndex index) => [];

    public override Evidence? AfterFirst() => World == 0 ? null : this with { World = World - 1 };

    public override void Enter(EvidenceCircuit circuit, Omitted? without)
    {
        if (circuit.Circuit.Part(World, Part, null) is PartCopy copy)
        {
            double[] states = [Likelihood[0], .. copy.Bad.Select(b => Likelihood[b.Mode + 1])];
            circuit.Circuit.Network.AddFactor([circuit.Circuit.Variable(copy)], Omitted.Has(without, Id) ? [.. states.Select(_ => 1.0)] : states);
        }
    }
}

/// <summary>A judgement of one's own about a part, as virtual evidence (Pearl 1988): never an item.</summary>
/// <param name="Likelihood">Under ok (1), then under each mode.</param>
internal sealed record OwnEvidence(string Id, int World, int Part, double[] Likelihood) : Evidence([Id])
{
    public override IEnumerable<Otherwise> Otherwise() => [];

    public override IEnumerable<(int, int)> Asked(ModelIndex index) => [];

    public override Evidence? AfterFirst() => World == 0 ? null : this with { World = World - 1 };

    public override void Enter(EvidenceCircuit circuit, Omitted? without)
    {
        if (circuit.Circuit.Part(World, Part, null) is PartCopy copy)
        {
            bool counts = !Omitted.Has(without, Id);
            circuit.Circuit.Network.AddFactor([circuit.Circuit.Variable(copy)], [1, .. copy.Bad.Select(b => counts ? Likelihood[b.Mode + 1] : 1)]);
        }
    }
}

/// <summary>How the trouble came about, as it bears on each part.</summary>
internal sealed record OnsetEvidence(IReadOnlyList<OwnEvidence> Parts) : Evidence([Name])
{
    /// <summary>It has no finding of its own; reasons name it by this.</summary>
    public const string Name = "onset";

    public override IEnumerable<Otherwise> Otherwise() => [];

    public override IEnumerable<(int, int)> Asked(ModelIndex index) => [];

    public override Evidence? AfterFirst() => null;

    public override void Enter(EvidenceCircuit circuit, Omitted? without)
    {
        foreach (OwnEvidence part in Parts)
        {
            part.Enter(circuit, without);
        }
    }
}
