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

    protected static IEnumerable<(int, int)> Conditions(ModelIndex index, IEnumerable<GateGroup> groups, int world) =>
        groups.Where(g => !g.IsPart && !index.Conditions[g.Condition].OfInstrument).Select(g => (world, g.Condition));
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

/// <summary>A circuit with what findings share: whether the fault was acting in a session, and slips of a gauge.</summary>
internal sealed class EvidenceCircuit(Circuit circuit, bool intermittent)
{
    private readonly Dictionary<string, int> _acting = [];
    private readonly Dictionary<(string, string), int> _slips = [];

    public Circuit Circuit { get; } = circuit;

    /// <summary>Variable (0 not acting, 1 acting) of a session; -1 where it surely was.</summary>
    public int Acting(SessionFact session)
    {
        if (!intermittent || session.Showed == Showed.Yes)
        {
            return -1;
        }

        if (!_acting.TryGetValue(session.Name, out int variable))
        {
            double p = session.Showed == Showed.No ? 0.1 : 0.4;         // MODEL.md 4
            _acting[session.Name] = variable = Circuit.Network.AddVariable(2);
            Circuit.Network.AddFactor([variable], [1 - p, p]);
        }

        return variable;
    }

    /// <summary>Variable (0 sound, 1 slipped) of a session and gauge.</summary>
    public int Slip(string session, string instrument)
    {
        if (!_slips.TryGetValue((session, instrument), out int variable))
        {
            _slips[(session, instrument)] = variable = Circuit.Network.AddVariable(2);
            Circuit.Network.AddFactor([variable], [1 - Readings.ReadingError.Slip, Readings.ReadingError.Slip]);
        }

        return variable;
    }
}

/// <summary>A session, and whether an intermittent complaint showed in it (a symptom answered "present" shows it).</summary>
internal sealed record SessionFact(string Name, Showed Showed);

internal sealed record SymptomAnswer(string Id, int World, bool Present, bool Sure, SessionFact Session);

/// <summary>The answers to one symptom question: the last one of each stretch.</summary>
internal sealed record SymptomEvidence : Evidence
{
    public SymptomEvidence(SymptomIndex symptom, IReadOnlyList<SymptomAnswer> answers, bool? open = null)
        : base([.. answers.Select(a => a.Id)]) => (Symptom, Answers, Open) = (symptom, answers, open ?? answers[^1].Present);

    public SymptomIndex Symptom { get; }

    public IReadOnlyList<SymptomAnswer> Answers { get; }

    /// <summary>The last answer was "present": a cure must end it.</summary>
    public bool Open { get; }

    /// <summary>World in which the symptom is to be absent besides (the hypothetical stretch of a cure); null: none.</summary>
    public int? AbsentIn { get; init; }

    public override Evidence? AfterFirst()
    {
        var later = Answers.Where(a => a.World > 0).Select(a => a with { World = a.World - 1 }).ToList();
        return later.Count > 0 || Open ? new SymptomEvidence(Symptom, later, Open) : null;
    }

    public override IEnumerable<(int, int)> Asked(ModelIndex index) =>
        Answers.Select(a => a.World).Concat(AbsentIn is int w ? [w] : []).Distinct().SelectMany(w => Conditions(index, Symptom.Groups, w));

    /// <summary>The last answer only: it is the one that counts now.</summary>
    public override IEnumerable<Otherwise> Otherwise()
    {
        if (Answers.Count > 0)
        {
            SymptomAnswer last = Answers[^1];
            yield return new Otherwise(last.Id, last.Present ? 0 : 1, new SymptomEvidence(Symptom, [.. Answers.SkipLast(1), last with { Present = !last.Present }]));
        }
    }

    public override void Enter(EvidenceCircuit circuit, Omitted? without)
    {
        Answer[] answers = [
            .. Answers.Select(a => Answer.Of(a.World, a.Present, a.Sure, circuit.Acting(a.Session), !Omitted.Has(without, a.Id))),
            .. AbsentIn is int w ? [Answer.Of(w, false, true, -1)] : Array.Empty<Answer>()];
        NoisyOr.Enter(circuit.Circuit, Symptom.Groups, Symptom.Source.Background, answers);
    }
}

/// <summary>One outcome of a yes/no check or a check with named outcomes.</summary>
internal sealed record OutcomeEvidence(string Id, OutcomeGate Gate, int World, int Outcome, bool Sure, bool SeesPart, SessionFact Session, string? Instrument)
    : Evidence([Id])
{
    public override IEnumerable<(int, int)> Asked(ModelIndex index) =>
        Gate.Groups.Where(g => g.Part < 0 && !index.Conditions[g.Condition].OfInstrument).Select(g => (World, g.Condition));

    public override Evidence? AfterFirst() => World == 0 ? null : this with { World = World - 1 };

    public override IEnumerable<Otherwise> Otherwise() =>
        Enumerable.Range(0, Gate.Outcomes).Where(o => o != Outcome).Select(o => new Otherwise(Id, o, this with { Outcome = o }));

    public override void Enter(EvidenceCircuit circuit, Omitted? without) =>
        Gate.Enter(circuit.Circuit, World, Outcome, Sure, SeesPart ? -1 : circuit.Acting(Session), Instrument, !Omitted.Has(without, Id));
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
