using System.Collections.Concurrent;
using FuelHistory.Core.Inference;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>What a leak-down says about the saturated sum of leaks of its section, per bias of the gauge, with the store sound or lost.</summary>
internal sealed class LeakTable(int biases, Func<int, int, bool, double> likelihood)
{
    private readonly double[] _values = Tables.Fill([biases, LeakLimit.Levels, 2], at => likelihood(at[0], at[1], at[2] == 1));

    public double At(int bias, int level, bool storeLost) => _values[(((bias * LeakLimit.Levels) + level) * 2) + (storeLost ? 1 : 0)];
}

/// <summary>The section of the circuit that a leak-down covers, and the gauge on it.</summary>
internal sealed record LeakSection(int[] Watches, int HookUp, int Store, double[] Biases)
{
    public IEnumerable<(int, int)> Asked(int world) => Watches.Concat(Store < 0 ? [] : [Store]).Select(c => (world, c));

    /// <summary>Adds the sum of the section's leaks and hands the likelihood's scope to <paramref name="value"/>: level, store lost, state of the gauge.</summary>
    /// <param name="extra">A variable of its own (the outcome foreseen), or -1.</param>
    public void Enter(Circuit circuit, int world, string? instrument, int acting, int extra, Func<int, bool, int, int, double> value)
    {
        Network network = circuit.Network;
        Node sum = Sum(circuit, [.. Watches.Select(c => circuit.Condition(world, c))]);
        Node hookUp = instrument is not null && HookUp >= 0 && circuit.Instruments.ContainsKey(instrument) ? circuit.OfInstrument(HookUp, instrument) : Node.Zero;
        Node store = Store < 0 ? Node.Zero : circuit.Condition(world, Store);
        int gauge = instrument is not null && circuit.Instruments.TryGetValue(instrument, out PartCopy? copy) ? circuit.Variable(copy) : -1;

        int[] variables = [acting, sum.Variable, hookUp.Variable, store.Variable, gauge, extra];
        int[] scope = [.. variables.Where(v => v >= 0)];
        int[] place = [.. variables.Select(v => v < 0 ? -1 : Array.IndexOf(scope, v))];
        network.Add(scope, at =>
        {
            int State(int i) => place[i] < 0 ? 0 : at[place[i]];
            bool acts = acting < 0 || State(0) == 1;
            int level = Math.Min(3, (acts ? sum.Levels[State(1)] : 0) + hookUp.Levels[State(2)]);
            return value(level, acts && store.Levels[State(3)] < 0, State(4), State(5));
        });
    }

    private static Node Sum(Circuit circuit, Node[] parts)
    {
        Node sum = Node.Zero;
        foreach (Node part in parts.Where(p => !p.Constant))
        {
            if (sum.Constant)
            {
                sum = part;
                continue;
            }

            Node before = sum;
            sum = new Node(circuit.Network.AddVariable(4), [0, 1, 2, 3]);
            circuit.Network.Add([before.Variable, part.Variable, sum.Variable], at => Math.Min(3, before.Levels[at[0]] + part.Levels[at[1]]) == at[2] ? 1 : 0);
        }

        return sum;
    }
}

/// <summary>Leak-downs of one section with one gauge in one stretch: they share the leak.</summary>
internal sealed record LeakEvidence(
    LeakSection Section,
    LeakLimit Limit,
    int World,
    string Instrument,
    SessionFact Session,
    IReadOnlyList<(string Id, WatchedPressure Run)> Runs,
    LeakTables Known) : Evidence([.. Runs.Select(r => r.Id)])
{
    public override IEnumerable<(int, int)> Asked(ModelIndex index) => Section.Asked(World);

    public override Evidence? AfterFirst() => World == 0 ? null : this with { World = World - 1 };

    /// <summary>One run alone, of which only another outcome is known.</summary>
    public override IEnumerable<Otherwise> Otherwise() => Runs.Count > 1 ? [] : Enumerable.Range(0, LeakOutcomes.Names.Length)
        .Where(o => o != LeakOutcomeEvidence.OutcomeOf(Runs[0].Run.Bar[^1], Limit))
        .Select(o => new Otherwise(Runs[0].Id, o, new LeakOutcomeEvidence(Runs[0].Id, Section, Limit, World, Instrument, Session, Runs[0].Run.Error, o, true, Known)));

    public override void Enter(EvidenceCircuit circuit, Omitted? without)
    {
        int counted = 0;
        for (int i = 0; i < Runs.Count; i++)
        {
            counted |= Omitted.Has(without, Runs[i].Id) ? 0 : 1 << (i & 31);
        }

        LeakTable table = Runs.Count > 31 ? Table(without) : _tables.GetOrAdd(counted, _ => Table(without));
        Section.Enter(circuit.Circuit, World, Instrument, circuit.Acting(Session), -1, (level, lost, gauge, _) => table.At(gauge, level, lost));
    }

    /// <summary>By which runs count: the same ones are entered with every question.</summary>
    private readonly ConcurrentDictionary<int, LeakTable> _tables = new(1, 3);

    private LeakTable Table(Omitted? without) =>
        Known.For([.. Runs.Where(r => !Omitted.Has(without, r.Id)).Select(r => r.Run)], Limit, [.. Section.Biases.Select(b => b * Runs[0].Run.Error.BiasUnit)]);
}

/// <summary>A leak-down of which only the outcome was noted: hold, slow, fast or steep-then-flat.</summary>
internal sealed record LeakOutcomeEvidence(
    string Id,
    LeakSection Section,
    LeakLimit Limit,
    int World,
    string Instrument,
    SessionFact Session,
    ReadingError Error,
    int Outcome,
    bool Sure,
    LeakTables Known) : Evidence([Id])
{
    /// <summary>What the last pressure of a run would be called.</summary>
    public static int OutcomeOf(double bar, LeakLimit limit) => bar >= limit.Low ? 0 : bar > LeakOutcomes.FastBelow ? 1 : 2;

    private LeakTable? _table;

    public override IEnumerable<(int, int)> Asked(ModelIndex index) => Section.Asked(World);

    public override Evidence? AfterFirst() => World == 0 ? null : this with { World = World - 1 };

    public override IEnumerable<Otherwise> Otherwise() =>
        Enumerable.Range(0, LeakOutcomes.Names.Length).Where(o => o != Outcome)
            .Select(o => new Otherwise(Id, o, new LeakOutcomeEvidence(Id, Section, Limit, World, Instrument, Session, Error, o, Sure, Known)));

    public override void Enter(EvidenceCircuit circuit, Omitted? without)
    {
        _table ??= new LeakTable(Section.Biases.Length, (bias, level, lost) =>
        {
            double p = Known.Outcomes(Error, Section.Biases[bias] * Error.BiasUnit, Limit)[lost ? 1 : 0][level][Outcome];
            return Sure ? p : (p / 2) + (0.5 / LeakOutcomes.Names.Length);
        });
        bool counts = !Omitted.Has(without, Id);
        Section.Enter(circuit.Circuit, World, Instrument, circuit.Acting(Session), -1, (level, lost, gauge, _) => counts ? _table.At(gauge, level, lost) : 1);
    }
}
