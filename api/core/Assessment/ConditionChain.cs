namespace FuelHistory.Core.Assessment;

/// <summary>One group of arrows into a condition, with the key of its cause in each world (0: adds nothing there).</summary>
internal sealed record ChainLink(int Number, EffectGroup Group, int[] Causes)
{
    public int Kinds => Causes.Distinct().Count();
}

/// <summary>A condition in all worlds that need it: contributions are added one after the other; worlds share the chain as long as
/// their causes are the same copies, and an arrow met on several branches brings its hidden threshold along as a variable.</summary>
internal sealed class ConditionChain
{
    private readonly Circuit _circuit;
    private readonly ConditionIndex _condition;
    private readonly Accumulator _sum;
    private readonly ChainLink[] _links;
    private readonly int[] _worlds;
    private readonly Func<int, EffectGroup, PartCopy> _partIn;
    private readonly Dictionary<string, int> _sums = [];
    private readonly Dictionary<string, Node> _nodes = [];
    private readonly Dictionary<(int Link, int Mode, int Draw), int> _thresholds = [];
    private readonly HashSet<(int Link, int Draw)> _shared;

    /// <param name="partIn">The part copy behind a group of arrows in a world.</param>
    public ConditionChain(Circuit circuit, ConditionIndex condition, ChainLink[] links, int[] worlds, Func<int, EffectGroup, PartCopy> partIn)
    {
        (_circuit, _condition, _worlds, _partIn) = (circuit, condition, worlds, partIn);
        _sum = new Accumulator(condition.Min, condition.Max);

        // causes that are the same everywhere come first: the chain forks as late as can be
        _links = [.. links.OrderBy(l => l.Kinds).ThenBy(l => l.Number)];
        _shared = FindShared();
    }

    public Node NodeIn(int world)
    {
        int w = Array.IndexOf(_worlds, world);
        string path = "";
        int sum = -1;
        if (!_condition.Background.Idle)
        {
            sum = Background(ref path);
        }

        foreach (ChainLink link in _links.Where(l => l.Causes[w] > 0))
        {
            sum = Add(link, w, sum, ref path);
        }

        return sum < 0 ? Node.Zero : _nodes.TryGetValue(path, out Node? node) ? node : _nodes[path] = Finish(sum);
    }

    /// <summary>(link, draw) pairs whose threshold is met on more than one branch.</summary>
    private HashSet<(int, int)> FindShared()
    {
        var met = new Dictionary<(int Link, int Draw), HashSet<string>>();
        for (int w = 0; w < _worlds.Length; w++)
        {
            string path = "";
            foreach (ChainLink link in _links.Where(l => l.Causes[w] > 0))
            {
                path = $"{path}/{link.Number}:{link.Causes[w]}";
                foreach (int draw in Draws(link, _worlds[w]))
                {
                    (met.TryGetValue((link.Number, draw), out HashSet<string>? paths) ? paths : met[(link.Number, draw)] = []).Add(path);
                }
            }
        }

        return [.. met.Where(m => m.Value.Count > 1).Select(m => m.Key)];
    }

    private IEnumerable<int> Draws(ChainLink link, int world) => link.Group.IsPart ? _partIn(world, link.Group).Bad.Select(b => b.Draw).Distinct() : [0];

    private int Background(ref string path)
    {
        path = "background";
        if (!_sums.TryGetValue(path, out int sum))
        {
            _sums[path] = sum = _circuit.Network.AddVariable(_sum.States);
            var table = new double[_sum.States];
            foreach ((int step, double p) in _condition.Background.Steps)
            {
                table[_sum.Add(0, step)] += p;
            }

            _circuit.Network.AddFactor([sum], table);
        }

        return sum;
    }

    private int Add(ChainLink link, int w, int before, ref string path)
    {
        int world = _worlds[w];
        if (!link.Group.IsPart)
        {
            Node cause = _circuit.Condition(world, link.Group.Condition);
            return Step(new CauseStates(cause.Variable, link, [.. cause.Levels.Select(level =>
                (Arrow: 0, State: level - _circuit.Index.Conditions[link.Group.Condition].Min, Draw: 0))]), link.Causes[w], before, ref path);
        }

        // several modes of one part go in together, unless thresholds are shared: then arrow by arrow
        PartCopy copy = _partIn(world, link.Group);
        int variable = _circuit.Variable(copy);
        int[] modes = [.. Enumerable.Range(0, link.Group.Arrows.Length).Where(m => link.Group.Arrows[m] is not null)];
        bool shared = copy.Bad.Any(b => _shared.Contains((link.Number, b.Draw)));
        foreach (int[] together in shared ? modes.Select(m => new[] { m }) : [modes])
        {
            (int, int, int)[] states = [.. Enumerable.Range(0, copy.States).Select(s =>
                together.Contains(copy.Mode(s)) ? (copy.Mode(s), 0, copy.Bad[s - 1].Draw) : (-1, 0, 0))];
            before = Step(new CauseStates(variable, link, states), link.Causes[w], before, ref path);
        }

        return before;
    }

    /// <summary>A cause's variable and, per state, the arrow that acts (-1: none), the arrow's own state and the draw.</summary>
    private sealed record CauseStates(int Variable, ChainLink Link, (int Arrow, int State, int Draw)[] States)
    {
        public string Mark(int cause) => $"/{Link.Number}:{cause}:{string.Join(',', States.Select(s => s.Arrow))}";
    }

    private int Step(CauseStates cause, int key, int before, ref string path)
    {
        path += cause.Mark(key);
        if (_sums.TryGetValue(path, out int known))
        {
            return known;
        }

        int sum = _sums[path] = _circuit.Network.AddVariable(_sum.States);
        (int Arrow, int Draw)[] thresholds = [.. cause.States
            .Where(s => s.Arrow >= 0 && _shared.Contains((cause.Link.Number, s.Draw)) && cause.Link.Group.Arrows[s.Arrow]!.Cells.Length > 1)
            .Select(s => (s.Arrow, s.Draw)).Distinct()];
        int[] scope = [.. before < 0 ? Array.Empty<int>() : [before], cause.Variable, .. thresholds.Select(t => Threshold(cause.Link, t.Arrow, t.Draw)), sum];
        _circuit.Network.AddFactor(scope, Table(scope, cause, before >= 0, thresholds));
        return sum;
    }

    private double[] Table(int[] scope, CauseStates cause, bool chained, (int Arrow, int Draw)[] thresholds)
    {
        int[] outer = [.. scope.Take(scope.Length - 1).Select(v => _circuit.Network.States[v])];
        int size = outer.Aggregate(1, (a, b) => a * b), first = chained ? 1 : 0;
        var table = new double[size * _sum.States];
        int row = 0;
        Tables.Fill(outer, at =>
        {
            Span<double> target = table.AsSpan(row++ * _sum.States, _sum.States);
            int from = chained ? at[0] : 0;
            (int arrow, int state, int draw) = cause.States[at[first]];
            int t = arrow < 0 ? -1 : Array.IndexOf(thresholds, (arrow, draw));
            if (arrow < 0)
            {
                target[from] = 1;
            }
            else if (t >= 0)
            {
                target[_sum.Add(from, cause.Link.Group.Arrows[arrow]!.StepIn(at[first + 1 + t], state))] = 1;
            }
            else
            {
                foreach ((int step, double p) in cause.Link.Group.Arrows[arrow]!.For(state).Steps)
                {
                    target[_sum.Add(from, step)] += p;
                }
            }

            return 0;
        });
        return table;
    }

    private int Threshold(ChainLink link, int arrow, int draw)
    {
        if (!_thresholds.TryGetValue((link.Number, arrow, draw), out int variable))
        {
            double[] cells = link.Group.Arrows[arrow]!.Cells;
            _thresholds[(link.Number, arrow, draw)] = variable = _circuit.Network.AddVariable(cells.Length);
            _circuit.Network.AddFactor([variable], cells);
        }

        return variable;
    }

    private Node Finish(int sum)
    {
        if (_sum.OneWay)
        {
            return new Node(sum, _sum.Levels());
        }

        // both directions: the pairs (up, down) fold into their difference
        int level = _circuit.Network.AddVariable(_condition.Levels);
        _circuit.Network.Add([sum, level], at => _sum.Level(at[0]) - _condition.Min == at[1] ? 1 : 0);
        return new Node(level, [.. Enumerable.Range(_condition.Min, _condition.Levels)]);
    }
}
