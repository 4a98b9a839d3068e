using FuelHistory.Core.Inference;

namespace FuelHistory.Core.Assessment;

/// <summary>The parts and conditions of one or more worlds (stretches, and perhaps a hypothetical one) as one network. Variables are
/// made when something asks for them, so that what bears on nothing costs nothing.</summary>
internal sealed class Circuit
{
    private readonly Dictionary<PartCopy, int> _variables = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<(int Condition, string Instrument), Node> _ofInstruments = [];
    private readonly ConditionChain?[] _chains;
    private readonly CopyKeys _keys;
    private readonly bool[][] _needed;

    /// <param name="worlds">World, then part; null: ok for certain.</param>
    /// <param name="asked">Conditions that findings or questions bear on, per world.</param>
    /// <param name="forced">Conditions that are right for certain in a world, whatever is bad there.</param>
    public Circuit(
        ModelIndex index,
        PartCopy?[][] worlds,
        IReadOnlyDictionary<string, PartCopy> instruments,
        TableCache tables,
        IEnumerable<(int World, int Condition)> asked,
        IReadOnlySet<(int World, int Condition)> forced)
    {
        (Index, Worlds, Instruments, Tables) = (index, worlds, instruments, tables);
        Network.AddVariable(1);                              // so that there is a clique even for a question without causes
        _keys = new CopyKeys(index, worlds, forced);
        _chains = new ConditionChain?[index.Conditions.Length];
        _needed = [.. worlds.Select(_ => new bool[index.Conditions.Length])];
        foreach ((int world, int condition) in asked)
        {
            Need(world, condition);
        }
    }

    public Network Network { get; } = new();

    public TableCache Tables { get; }

    public ModelIndex Index { get; }

    public PartCopy?[][] Worlds { get; }

    public IReadOnlyDictionary<string, PartCopy> Instruments { get; }

    /// <summary>The variable of a part's copy, made with its prior (or its dependence on the copy before) when first asked for.</summary>
    public int Variable(PartCopy copy)
    {
        if (_variables.TryGetValue(copy, out int known))
        {
            return known;
        }

        int before = copy.Before is null ? -1 : Variable(copy.Before);
        int variable = _variables[copy] = Network.AddVariable(copy.States);
        if (copy.Prior is not null)
        {
            Network.AddFactor([variable], copy.Prior);
        }
        else
        {
            Network.AddFactor([before, variable], [.. copy.Transition!.SelectMany(row => row)]);
        }

        return variable;
    }

    /// <summary>The variable of a part's copy if anything made it; otherwise null, and the copy still has its prior.</summary>
    public int? Made(PartCopy copy) => _variables.TryGetValue(copy, out int variable) ? variable : null;

    /// <summary>Distribution over the states of a part's copy, whether or not anything made it.</summary>
    public double[] Distribution(Propagation run, PartCopy copy)
    {
        if (Made(copy) is int variable)
        {
            return run.Marginal(variable);
        }

        if (copy.Prior is not null)
        {
            return copy.Prior;
        }

        // nothing bears on this copy, but something may on the one it comes from
        double[] before = Distribution(run, copy.Before!);
        return [.. Enumerable.Range(0, copy.States).Select(s => before.Select((p, b) => p * copy.Transition![b][s]).Sum())];
    }

    /// <summary>Makes the copies that come from one that something bears on: their states are not independent of the findings.</summary>
    public void MakeDependent(IEnumerable<PartCopy> copies)
    {
        foreach (PartCopy copy in copies)
        {
            PartCopy? before = copy.Before;
            while (before is not null && !_variables.ContainsKey(before))
            {
                before = before.Before;
            }

            if (before is not null)
            {
                Variable(copy);
            }
        }
    }

    /// <summary>The part's copy in a world (the gauge in use, where the part is the gauges' template); null: ok for certain.</summary>
    public PartCopy? Part(int world, int part, string? instrument) => Index.Parts[part].Source.Instrument
        ? instrument is null ? null : Instruments.GetValueOrDefault(instrument)
        : Worlds[world][part];

    /// <summary>A condition in one world; worlds with the same causes share the node.</summary>
    public Node Condition(int world, int condition)
    {
        if (_keys.Condition(world, condition) == 0)
        {
            return Node.Zero;
        }

        return Chain(condition).NodeOf(_keys.Condition(world, condition));
    }

    /// <summary>The condition in one world if anything made it; otherwise null. Makes nothing, so that it can be asked when the network is
    /// compiled already. What gauges bring along is right.</summary>
    public Node? Made(int world, int condition) =>
        Index.Conditions[condition].OfInstrument || _keys.Condition(world, condition) == 0 ? Node.Zero : _chains[condition]?.Made(_keys.Condition(world, condition));

    /// <summary>A condition that a gauge brings with it (its hook-up's leak).</summary>
    public Node OfInstrument(int condition, string instrument)
    {
        if (_ofInstruments.TryGetValue((condition, instrument), out Node? known))
        {
            return known;
        }

        PartCopy copy = Instruments[instrument];
        var world = new PartCopy?[Index.Parts.Length];
        world[copy.Part] = copy;
        ConditionIndex source = Index.Conditions[condition];
        var alone = new ConditionChain(this, source, [.. source.Groups.Select((g, i) => new ChainLink(i, g, [copy.Part == g.Part ? 1 : 0]))], [0], [1], (_, _) => copy);
        return _ofInstruments[(condition, instrument)] = alone.NodeOf(1);
    }

    private ConditionChain Chain(int condition)
    {
        if (_chains[condition] is ConditionChain chain)
        {
            return chain;
        }

        ConditionIndex source = Index.Conditions[condition];
        (int[] worlds, int[] keys) = Different(condition);
        var links = new ChainLink[source.Groups.Length];
        for (int g = 0; g < links.Length; g++)
        {
            var causes = new int[worlds.Length];
            for (int w = 0; w < worlds.Length; w++)
            {
                causes[w] = _keys.Cause(worlds[w], source.Groups[g]);
            }

            links[g] = new ChainLink(g, source.Groups[g], causes);
        }

        return _chains[condition] = new ConditionChain(this, source, links, worlds, keys, _partIn ??= PartIn);
    }

    /// <summary>Worlds that need the condition and in which it is another variable than in those before, with its keys.</summary>
    private (int[] Worlds, int[] Keys) Different(int condition)
    {
        var worlds = new List<int>(Worlds.Length);
        var keys = new List<int>(Worlds.Length);
        for (int w = 0; w < Worlds.Length; w++)
        {
            int key = _keys.Condition(w, condition);
            if (key > 0 && _needed[w][condition] && !keys.Contains(key))
            {
                worlds.Add(w);
                keys.Add(key);
            }
        }

        return ([.. worlds], [.. keys]);
    }

    private Func<int, EffectGroup, PartCopy>? _partIn;

    private PartCopy PartIn(int world, EffectGroup group) => Worlds[world][group.Part]!;

    private void Need(int world, int condition)
    {
        ConditionIndex source = Index.Conditions[condition];
        if (_needed[world][condition] || source.OfInstrument)
        {
            return;
        }

        _needed[world][condition] = true;
        foreach (EffectGroup group in source.Groups)
        {
            if (!group.IsPart)
            {
                Need(world, group.Condition);
            }
        }
    }
}
