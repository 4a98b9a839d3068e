using System.Collections.Concurrent;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Inference;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>One reading as it enters: where it was made, with which gauge, what it read.</summary>
internal sealed record MeasuredValue(string Id, int World, double Value, string Instrument, ReadingError Error, SessionFact Session);

/// <summary>Readings of one true value by one check: the same condition in stretches that share it, the same limits.</summary>
internal sealed record MeasuredEvidence(int Condition, BandEdges Bands, double[] Biases, IReadOnlyList<MeasuredValue> Values)
    : Evidence([.. Values.Select(v => v.Id)])
{
    public override IEnumerable<(int, int)> Asked(ModelIndex index) => Values.Select(v => (v.World, Condition)).Distinct();

    public override Evidence? AfterFirst()
    {
        MeasuredValue[] later = [.. Values.Where(v => v.World > 0).Select(v => v with { World = v.World - 1 })];
        return later.Length == 0 ? null : new MeasuredEvidence(Condition, Bands, Biases, later);
    }

    public override Evidence Alone(string finding) => new MeasuredEvidence(Condition, Bands, Biases, [.. Values.Where(v => v.Id == finding)]);

    /// <summary>Each reading at what stands for every other band.</summary>
    public override IEnumerable<Otherwise> Otherwise()
    {
        foreach (MeasuredValue value in Values)
        {
            for (int band = 0; band < Bands.Edges.Length - 1; band++)
            {
                double instead = Bands.Typical(band);
                if (band != Bands.BandOf(value.Value))
                {
                    MeasuredValue[] others = [.. Values.Select(v => ReferenceEquals(v, value) ? v with { Value = instead } : v)];
                    yield return new Otherwise(value.Id, band, new MeasuredEvidence(Condition, Bands, Biases, others), Bands.WidthAt(instead));
                }
            }
        }
    }

    public override void Enter(EvidenceCircuit circuit, Omitted? without)
    {
        // stretches whose condition is one variable share the true value; others have their own
        foreach (var same in Values.GroupBy(v => (circuit.Circuit.Condition(v.World, Condition).Variable, circuit.Acting(v.Session))))
        {
            Enter(circuit, [.. same], same.Key.Item2, without);
        }
    }

    private void Enter(EvidenceCircuit circuit, MeasuredValue[] values, int acting, Omitted? without)
    {
        Network network = circuit.Circuit.Network;
        Node node = circuit.Circuit.Condition(values[0].World, Condition);
        string[] gauges = [.. values.Select(v => v.Instrument).Distinct()];
        (string, string)[] groups = [.. values.Select(v => (v.Session.Name, v.Instrument)).Distinct()];
        int[] gaugeVariables = [.. gauges.Where(circuit.Circuit.Instruments.ContainsKey).Select(g => circuit.Circuit.Variable(circuit.Circuit.Instruments[g]))];
        int[] slips = [.. groups.Select(g => circuit.Slip(g.Item1, g.Item2))];
        int[] scope = [.. slips, .. gaugeVariables, .. acting < 0 ? Array.Empty<int>() : [acting], .. node.Constant ? Array.Empty<int>() : [node.Variable]];
        int[] levels = [.. node.Levels.Select(l => l - circuit.Circuit.Index.Conditions[Condition].Min)];
        int zero = -circuit.Circuit.Index.Conditions[Condition].Min, states = node.Constant ? 1 : levels.Length;
        bool[] counts = [.. values.Select(v => !Omitted.Has(without, v.Id))];

        // the same readings are entered with every question; what their table hangs on is which of them, and over which states
        var key = (Mask(values, counts), string.Join(',', levels), node.Constant, acting >= 0, gaugeVariables.Length);
        double[] table = _tables.GetOrAdd(key, _ => Tables.Fill([.. scope.Select(v => network.States[v])], at =>
        {
            bool acts = acting < 0 || at[slips.Length + gaugeVariables.Length] == 1;
            int level = node.Constant || !acts ? zero : levels[at[^1]];
            return Density(values, counts, groups, gauges, at.AsSpan(0, slips.Length), at.AsSpan(slips.Length, gaugeVariables.Length), level);
        }));
        network.AddFactor(scope, table);
    }

    private readonly ConcurrentDictionary<(string Which, string Levels, bool Constant, bool Acting, int Gauges), double[]> _tables = new(1, 3);

    /// <summary>Per reading: not here, here and counted, here and left out.</summary>
    private string Mask(MeasuredValue[] values, bool[] counts) => string.Create(Values.Count, (Values, values, counts), static (mask, all) =>
    {
        for (int i = 0; i < mask.Length; i++)
        {
            int here = Array.IndexOf(all.values, all.Values[i]);
            mask[i] = here < 0 ? '-' : all.counts[here] ? '1' : '0';
        }
    });

    private double Density(MeasuredValue[] values, bool[] counts, (string, string)[] groups, string[] gauges, ReadOnlySpan<int> slipped, ReadOnlySpan<int> gaugeStates, int level)
    {
        var sound = new List<JointReadings.Reading>(values.Length);
        double anywhere = 1;
        for (int i = 0; i < values.Length; i++)
        {
            if (!counts[i])
            {
                continue;
            }

            MeasuredValue v = values[i];
            int group = Array.IndexOf(groups, (v.Session.Name, v.Instrument)), gauge = Array.IndexOf(gauges, v.Instrument);
            if (slipped[group] == 1)
            {
                anywhere /= v.Error.Range;
                continue;
            }

            double bias = gaugeStates.Length == 0 ? 0 : Biases[gaugeStates[gauge]] * v.Error.BiasUnit;
            sound.Add(new JointReadings.Reading(group, Bands.Within(v.Value - bias), v.Error.SharedVariance, v.Error.OwnVariance));
        }

        return anywhere * JointReadings.Density(sound, Bands.Values(level), Bands.Spread);
    }
}
