namespace FuelHistory.Core.Assessment;

/// <summary>One group of arrows into a condition, with the key of its cause in each world (0: adds nothing there).</summary>
internal sealed record ChainLink(int Number, EffectGroup Group, int[] Causes)
{
    /// <summary>How many different causes there are over the worlds.</summary>
    public int Kinds { get; } = Different(Causes);

    private static int Different(int[] causes)
    {
        int kinds = 0;
        for (int i = 0; i < causes.Length; i++)
        {
            kinds += Array.IndexOf(causes, causes[i], 0, i) < 0 ? 1 : 0;
        }

        return kinds;
    }
}

/// <summary>A condition in all worlds that need it. Steps up and steps down are added up apart, each by a chain that saturates, and the
/// level is their difference (MODEL.md 3). Worlds share a chain as long as their causes are the same copies; an arrow met on
/// several branches brings its hidden threshold along as a variable (MODEL.md 7).</summary>
internal sealed class ConditionChain
{
    private readonly Circuit _circuit;
    private readonly ConditionIndex _condition;
    private readonly int[] _keys;
    private readonly SumChain _up;
    private readonly SumChain _down;
    private readonly Dictionary<(int Up, int Down), Node> _nodes = [];
    private readonly Node?[] _inWorld;

    /// <param name="worlds">One world for each variable that the condition is.</param>
    /// <param name="keys">Of the condition in these worlds.</param>
    /// <param name="partIn">The part copy behind a group of arrows in a world.</param>
    public ConditionChain(Circuit circuit, ConditionIndex condition, ChainLink[] links, int[] worlds, int[] keys, Func<int, EffectGroup, PartCopy> partIn)
    {
        (_circuit, _condition, _keys, _inWorld) = (circuit, condition, keys, new Node?[worlds.Length]);
        var thresholds = new Thresholds(circuit.Network);
        _up = new SumChain(circuit, condition, 1, condition.Max, links, worlds, partIn, thresholds);
        _down = new SumChain(circuit, condition, -1, -condition.Min, links, worlds, partIn, thresholds);
        _up.FindShared();
        _down.FindShared();
    }

    public Node NodeOf(int key)
    {
        int w = Array.IndexOf(_keys, key);
        return _inWorld[w] ??= Make(w);
    }

    /// <summary>Null where nothing has asked for it yet.</summary>
    public Node? Made(int key) => Array.IndexOf(_keys, key) is >= 0 and int w ? _inWorld[w] : null;

    private Node Make(int w)
    {
        (int Up, int Down) sums = (_up.SumIn(w), _down.SumIn(w));
        return _nodes.TryGetValue(sums, out Node? node) ? node : _nodes[sums] = Difference(sums.Up, sums.Down);
    }

    private Node Difference(int up, int down)
    {
        if (up < 0 || down < 0)
        {
            return up >= 0 ? new Node(up, _condition.Ups) : down >= 0 ? new Node(down, _condition.Downs) : Node.Zero;
        }

        int level = _circuit.Network.AddVariable(_condition.Levels);
        _circuit.Network.AddFactor([up, down, level], _condition.DifferenceTable);
        return new Node(level, _condition.All);
    }
}

/// <summary>Hidden thresholds of the arrows into one condition: which are met more than once, and their variables.</summary>
internal sealed class Thresholds(Inference.Network network)
{
    private readonly HashSet<(int Link, int Draw)> _shared = [];
    private readonly Dictionary<(int Link, int Arrow, int Draw), int> _variables = [];

    public bool Any => _shared.Count > 0;

    public void Share(int link, int draw) => _shared.Add((link, draw));

    public bool Shared(int link, int draw) => Any && _shared.Contains((link, draw));

    /// <summary>The variable of an arrow's threshold; its states are the spans of u in which no step changes.</summary>
    public int Variable(int link, int index, int draw, Arrow arrow)
    {
        if (!_variables.TryGetValue((link, index, draw), out int variable))
        {
            _variables[(link, index, draw)] = variable = network.AddVariable(arrow.Cells.Length);
            network.AddFactor([variable], arrow.Cells);
        }

        return variable;
    }
}
