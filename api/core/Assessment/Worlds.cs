using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>Which copy of each part is on the car in each stretch, with its prior; and the gauges that made findings.</summary>
internal sealed class Worlds
{
    private Worlds(PartCopy[][] stretches, IReadOnlyDictionary<string, PartCopy> instruments, double[][] priors) =>
        (Stretches, Instruments, Priors) = (stretches, instruments, priors);

    /// <summary>Stretch, then part.</summary>
    public PartCopy[][] Stretches { get; }

    /// <summary>By instrument id; findings without one share an unnamed one per quantity.</summary>
    public IReadOnlyDictionary<string, PartCopy> Instruments { get; }

    /// <summary>Per part: P(ok), P(mode) at the beginning of the investigation.</summary>
    public double[][] Priors { get; }

    public PartCopy[] Now => Stretches[^1];

    /// <summary>P(ok), P(mode) of the part then on the car, by the record and the work alone.</summary>
    public double[] Prior(int stretch, int part)
    {
        PartCopy copy = Stretches[stretch][part];
        var modes = new double[Priors[part].Length];
        double[] states = copy.Alone();
        for (int s = 0; s < states.Length; s++)
        {
            modes[copy.Mode(s) + 1] += states[s];
        }

        return modes;
    }

    /// <summary>The same with some parts ok for certain in all stretches.</summary>
    public Worlds Sound(IReadOnlySet<int> parts) =>
        new([.. Stretches.Select(s => s.Select((copy, part) => parts.Contains(part) ? null! : copy).ToArray())], Instruments, Priors);

    /// <summary>The first stretch alone.</summary>
    public Worlds First() => new([Stretches[0]], Instruments, Priors);

    /// <summary>The stretches after the first, with what is believed at its end.</summary>
    /// <param name="states">Per part: distribution over the states of its copy in the first stretch.</param>
    public Worlds WithoutFirst(double[][] states)
    {
        var stand = new Dictionary<PartCopy, PartCopy>(ReferenceEqualityComparer.Instance);
        for (int p = 0; p < Stretches[0].Length; p++)
        {
            stand[Stretches[0][p]] = Stretches[0][p].Believed(states[p]);
        }

        PartCopy Standing(PartCopy copy)
        {
            if (!stand.TryGetValue(copy, out PartCopy? known))
            {
                stand[copy] = known = copy.Before is null ? copy : copy.Upon(Standing(copy.Before));
            }

            return known;
        }

        return new Worlds([.. Stretches.Skip(1).Select(s => s.Select(Standing).ToArray())], Instruments, Priors);
    }

    public static string InstrumentKey(ModelIndex index, Observation finding) =>
        finding.Instrument ?? $"unnamed {(finding.Check is null ? "" : index.Check(finding.Check).Source.Quantity)}";

    /// <summary>With the priors of the record as it is.</summary>
    public static Worlds From(ModelIndex index, Investigation investigation, LifePrior life)
    {
        Component[] aged = [.. index.Parts.Where(p => !p.Source.Instrument && p.Id != ModelIndex.Elsewhere).Select(p => p.Source)];
        Dictionary<string, double[]> beliefs = aged.Zip(life.Of(aged)).ToDictionary(b => b.First.Id, b => b.Second);
        return From(index, investigation, life, p => p.Source.Instrument ? [1, .. p.Source.Modes.Select(_ => 0.0)] : beliefs[p.Id]);
    }

    /// <param name="priorOf">Prior of a part; lets one record entry be left out.</param>
    public static Worlds From(ModelIndex index, Investigation investigation, LifePrior life, Func<PartIndex, double[]> priorOf)
    {
        int draws = index.Parts.Length;
        double[][] priors = [.. index.Parts.Select(p => p.Id == ModelIndex.Elsewhere
            ? [1 - index.Model.Elsewhere.Prior, index.Model.Elsewhere.Prior]
            : priorOf(p))];
        var stretches = new List<PartCopy[]> { priors.Select((p, i) => PartCopy.Alone(i, p, i)).ToArray() };
        foreach (WorkFact[] repairs in investigation.Repairs)
        {
            PartCopy[] next = [.. stretches[^1]];
            foreach (WorkFact work in repairs)
            {
                foreach (PartIndex part in index.Parts.Where(p => RecordEntry.Covers(index.Model, work, p.Source)))
                {
                    next[part.Index] = next[part.Index].After(work, part.Source, life, RecordEntry.Sureness(index.Model, work), draws++);
                }
            }

            stretches.Add(next);
        }

        return new Worlds([.. stretches], InstrumentCopies(index, investigation, ref draws), priors);
    }

    private static Dictionary<string, PartCopy> InstrumentCopies(ModelIndex index, Investigation investigation, ref int draws)
    {
        var copies = new Dictionary<string, PartCopy>();
        PartIndex? template = index.Parts.FirstOrDefault(p => p.Source.Instrument);
        if (template is null)
        {
            return copies;
        }

        var known = investigation.Input.Car.Instruments.ToDictionary(i => i.Id);
        foreach (string key in investigation.Findings.Where(f => f.Check is not null).Select(f => InstrumentKey(index, f)).Distinct())
        {
            double[] prior = LifePrior.Instrument(template.Source, known.GetValueOrDefault(key)?.LastChecked, investigation.FirstDay);
            copies.Add(key, PartCopy.Alone(template.Index, prior, draws++));
        }

        return copies;
    }
}
