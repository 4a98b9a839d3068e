using FuelHistory.Core.Inference;

namespace FuelHistory.Core.Assessment;

/// <summary>One investigation ready for questions: parts and their priors per stretch, and the evidence. Every question builds a
/// network for just what it needs and propagates once; nothing here changes.</summary>
internal sealed class Situation(
    ModelIndex index,
    NetworkCaches caches,
    Worlds worlds,
    IReadOnlyList<Evidence> evidence,
    IReadOnlyList<Item> items,
    bool intermittent,
    CancellationToken stop = default)
{
    public ModelIndex Index { get; } = index;

    public Worlds Worlds { get; } = worlds;

    public IReadOnlyList<Evidence> Evidence { get; } = evidence;

    /// <summary>What the complaint consists of.</summary>
    public IReadOnlyList<Item> Items { get; } = items;

    /// <summary>The same with other priors (a record entry left out) or less evidence.</summary>
    public Situation With(Worlds? other = null, IReadOnlyList<Evidence>? evidence = null, IReadOnlyList<Item>? items = null) =>
        new(Index, caches, other ?? Worlds, evidence ?? Evidence, items ?? Items, intermittent, stop);

    /// <summary>Natural logarithm of P(findings), or with <paramref name="relief"/> of P(findings, and its items wrong then and right in a stretch
    /// to come in which its parts are ok and all else is as it is now).</summary>
    /// <exception cref="TooLargeException">The network is beyond the bound.</exception>
    public double LogWeight(Relief? relief = null, Omitted? without = null)
    {
        Network network = Build(relief, without, []).Circuit.Network;
        return Tree(network).LogWeight(network.Factors);
    }

    /// <summary>The same; null where the network has more table entries than that.</summary>
    public double? LogWeightWithin(long entries, Relief relief)
    {
        Network network = Build(relief, null, []).Circuit.Network;
        return caches.Trees.For(network) is JunctionTree tree && tree.Entries <= entries ? tree.LogWeight(network.Factors) : null;
    }

    /// <summary>P(ok), P(mode) of every part now; null where the findings are impossible together.</summary>
    public double[][]? States(Omitted? without = null) => States(out _, without);

    public double[][]? States(out double logWeight, Omitted? without = null)
    {
        Circuit circuit = Build(null, without, []).Circuit;
        using Propagation run = Tree(circuit.Network).Propagate(circuit.Network.Factors);
        logWeight = run.LogWeight;
        return run.Impossible ? null : [.. Worlds.Now.Select(copy => OfModes(copy, circuit.Distribution(run, copy)))];
    }

    /// <summary>P(ok), P(mode) of every part in each of some stretches, by the findings that are not left out; null where those are impossible.</summary>
    public double[][][]? StatesIn(IReadOnlyList<int> stretches, Omitted without)
    {
        Circuit circuit = Build(null, without, []).Circuit;
        using Propagation run = Tree(circuit.Network).Propagate(circuit.Network.Factors);
        return run.Impossible ? null : [.. stretches.Select(s => Worlds.Stretches[s].Select(copy => OfModes(copy, circuit.Distribution(run, copy))).ToArray())];
    }

    /// <summary>Distribution over the states of every part's copy now; null where the findings are impossible together.</summary>
    public double[][]? CopyStates()
    {
        Circuit circuit = Build(null, null, []).Circuit;
        using Propagation run = Tree(circuit.Network).Propagate(circuit.Network.Factors);
        return run.Impossible ? null : [.. Worlds.Now.Select(copy => circuit.Distribution(run, copy))];
    }

    /// <summary>What checks not yet made would show, with the relief entered.</summary>
    /// <param name="also">Conditions that are wanted besides those that the findings bear on.</param>
    /// <param name="together">Conditions whose joint distribution is wanted, if they are all there.</param>
    public Foresight Foresee(Relief? relief, IEnumerable<int> also, IReadOnlyList<int> together)
    {
        int now = Worlds.Stretches.Length - 1;
        Circuit circuit = Build(relief, null, also.Select(c => (now, c))).Circuit;
        foreach (int condition in also)
        {
            circuit.Condition(now, condition);
        }

        circuit.MakeDependent(Worlds.Now);
        int[] joint = together.All(c => circuit.Made(now, c) is not null) ? [.. together.Select(c => circuit.Condition(now, c).Variable).Where(v => v >= 0)] : [];
        JunctionTree tree = caches.Trees.For(circuit.Network, joint) ?? throw new TooLargeException();
        return new Foresight(circuit, tree.Propagate(circuit.Network.Factors), now, joint.Length > 0 ? together : []);
    }

    /// <summary>What a finding about a world that was not says: distributions of the parts in its stretch with and without its numbers; null where the findings are impossible together.</summary>
    public (double[][] With, double[][] Without)? Suppose(Hypothetical finding)
    {
        Circuit circuit = Build(null, null, []).Circuit;
        using Propagation run = Tree(circuit.Network).Propagate(circuit.Network.Factors);
        if (run.Impossible || StatesIn([finding.World], new Omitted(finding.Id)) is not double[][][] without)
        {
            return null;
        }

        double[][] with = [.. Worlds.Stretches[finding.World].Select(copy => OfModes(copy, circuit.Distribution(run, copy)))];
        return (with, without[0]);
    }

    /// <summary>P(all its events right in the world of a finding that was not | all findings).</summary>
    public double AllRight(Hypothetical finding)
    {
        if (finding.AllRight is not (Hypothetical right, double weight))
        {
            return 0;
        }

        Situation certain = With(evidence: [.. Evidence.Select(e => ReferenceEquals(e, finding) ? right : e)]);
        return weight * Math.Exp(certain.LogWeight() - LogWeight());
    }

    /// <summary>Table entries of the network that the findings need: what one propagation costs.</summary>
    public long Entries(Relief? relief = null) => Tree(Build(relief, null, []).Circuit.Network).Entries;

    /// <summary>That network has no more table entries than these.</summary>
    public bool Fits(long entries, Relief? relief = null)
    {
        try
        {
            return Entries(relief) <= entries;
        }
        catch (TooLargeException)
        {
            return false;
        }
    }

    private EvidenceCircuit Build(Relief? relief, Omitted? without, IEnumerable<(int World, int Condition)> also)
    {
        stop.ThrowIfCancellationRequested();                 // who asked has gone

        // 1. the stretches, the worlds of trials, the stretch to come
        Hypothetical[] supposed = [.. Evidence.OfType<Hypothetical>()];
        int first = Worlds.Stretches.Length, next = first + supposed.Length;
        PartCopy?[][] all = [
            .. Worlds.Stretches,
            .. supposed.Select(h => h.Parts(Worlds)),
            .. relief is null ? [] : new[] { Worlds.Now.Select((copy, part) => relief.Repair.Covers(part) ? null : copy).ToArray() }];

        // 2. conditions that anything bears on
        HashSet<(int, int)> forced = [.. supposed.SelectMany((h, i) => h.Forced.Select(c => (first + i, c)))];
        IEnumerable<(int, int)> asked = [
            .. Evidence.SelectMany(e => e.Asked(Index)),
            .. supposed.SelectMany((h, i) => h.AskedIn(Index, first + i)),
            .. relief?.Items.SelectMany(item => item.Asked(Index, next)) ?? [],
            .. also];
        var entered = new EvidenceCircuit(new Circuit(Index, all, Worlds.Instruments, caches.Tables, asked, forced), intermittent);

        // 3. what is supposed of events and outcomes, then the findings
        for (int h = 0; h < supposed.Length; h++)
        {
            supposed[h].Suppose(entered, first + h, without);
        }

        foreach (Item item in relief?.Items ?? [])
        {
            item.Relieve(entered, next);
        }

        foreach (Evidence evidence in Evidence)
        {
            evidence.Enter(entered, without);
        }

        return entered;
    }

    private JunctionTree Tree(Network network) => caches.Trees.For(network) ?? throw new TooLargeException();

    private double[] OfModes(PartCopy copy, double[] states)
    {
        var modes = new double[Index.Parts[copy.Part].Source.Modes.Count + 1];
        for (int s = 0; s < states.Length; s++)
        {
            modes[copy.Mode(s) + 1] += states[s];
        }

        return modes;
    }
}

/// <summary>Parts that are put right in the stretch to come.</summary>
internal sealed record Repair(bool Everything, params int[] Parts)
{
    public static readonly Repair Nothing = new(false), All = new(true);

    /// <summary>The same set of parts has the same key.</summary>
    public string Key { get; } = Everything ? "all" : Parts.Length switch
    {
        0 => "",
        1 => $"{Parts[0]}",
        2 => Parts[0] < Parts[1] ? $"{Parts[0]},{Parts[1]}" : $"{Parts[1]},{Parts[0]}",
        _ => string.Join(',', Parts.Order()),
    };

    public bool Covers(int part) => Everything || Array.IndexOf(Parts, part) >= 0;
}

/// <summary>Parts put right, and the items that this is to relieve.</summary>
internal sealed record Relief(Repair Repair, IReadOnlyList<Item> Items);

/// <summary>The network that a question needs is beyond the bound.</summary>
internal sealed class TooLargeException : Exception;
