namespace FuelHistory.Core.Assessment;

/// <summary>The steps of one sign into one condition, added up one cause after the other and saturating.</summary>
internal sealed class SumChain
{
    /// <summary>Number of the link that stands for the background.</summary>
    private const int Background = -1;

    private readonly Circuit _circuit;
    private readonly int _sign;
    private readonly int _most;
    private readonly ChainLink[] _links;
    private readonly Arrow? _background;
    private readonly int[] _worlds;
    private readonly Func<int, EffectGroup, PartCopy> _partIn;
    private readonly Thresholds _thresholds;
    private readonly Dictionary<string, int> _sums = [];

    public SumChain(Circuit circuit, ConditionIndex condition, int sign, int most, ChainLink[] links, int[] worlds, Func<int, EffectGroup, PartCopy> partIn, Thresholds thresholds)
    {
        (_circuit, _sign, _most, _worlds, _partIn, _thresholds) = (circuit, sign, most, worlds, partIn, thresholds);

        // causes that are the same everywhere come first: the chain forks as late as can be
        _links = most == 0 ? [] : [.. links.Where(l => l.Group.Arrows.Any(a => a?.Has(sign) ?? false)).OrderBy(l => l.Kinds).ThenBy(l => l.Number)];
        Arrow background = new([condition.Background]);
        _background = most > 0 && background.Has(sign) ? background : null;
    }

    /// <summary>Notes the thresholds that are met on more than one branch, and those of arrows that step both ways from one state.</summary>
    public void FindShared()
    {
        var met = new Dictionary<(int Link, int Draw), HashSet<string>>();
        for (int w = 0; w < _worlds.Length; w++)
        {
            string path = "";
            foreach (ChainLink link in _links.Where(l => l.Causes[w] > 0))
            {
                path = $"{path}/{link.Number}:{link.Causes[w]}";
                bool both = link.Group.Arrows.Any(a => a?.BothWays ?? false);
                foreach (int draw in Draws(link, _worlds[w]))
                {
                    HashSet<string> paths = met.TryGetValue((link.Number, draw), out HashSet<string>? known) ? known : met[(link.Number, draw)] = [];
                    paths.Add(path);
                    if (both || paths.Count > 1)
                    {
                        _thresholds.Share(link.Number, draw);
                    }
                }
            }
        }

        if (_background?.BothWays ?? false)
        {
            _thresholds.Share(Background, 0);
        }
    }

    /// <summary>The variable of the sum in a world (-1: nothing can add to it) and the path that identifies it.</summary>
    public (int Variable, string Path) SumIn(int w)
    {
        string path = "";
        int sum = -1;
        if (_background is not null)
        {
            sum = Step(new CauseStates(-1, Background, [_background], [(0, 0, 0)]), 1, sum, ref path);
        }

        foreach (ChainLink link in _links.Where(l => l.Causes[w] > 0))
        {
            sum = Add(link, w, sum, ref path);
        }

        return (sum, path);
    }

    private IEnumerable<int> Draws(ChainLink link, int world) => link.Group.IsPart ? _partIn(world, link.Group).Bad.Select(b => b.Draw).Distinct() : [0];

    private int Add(ChainLink link, int w, int before, ref string path)
    {
        int world = _worlds[w];
        if (!link.Group.IsPart)
        {
            Node cause = _circuit.Condition(world, link.Group.Condition);
            int min = _circuit.Index.Conditions[link.Group.Condition].Min;
            return Step(new CauseStates(cause.Variable, link.Number, link.Group.Arrows, [.. cause.Levels.Select(level => (0, level - min, 0))]), link.Causes[w], before, ref path);
        }

        // several modes of one part go in together, unless thresholds are shared: then arrow by arrow
        PartCopy copy = _partIn(world, link.Group);
        int variable = _circuit.Variable(copy);
        int[] modes = [.. Enumerable.Range(0, link.Group.Arrows.Length).Where(m => link.Group.Arrows[m]?.Has(_sign) ?? false)];
        bool shared = copy.Bad.Any(b => _thresholds.Shared(link.Number, b.Draw));
        foreach (int[] together in shared ? modes.Select(m => new[] { m }) : [modes])
        {
            (int, int, int)[] states = [.. Enumerable.Range(0, copy.States).Select(s =>
                together.Contains(copy.Mode(s)) ? (copy.Mode(s), 0, copy.Bad[s - 1].Draw) : (-1, 0, 0))];
            before = Step(new CauseStates(variable, link.Number, link.Group.Arrows, states), link.Causes[w], before, ref path);
        }

        return before;
    }

    /// <summary>A cause's variable (-1: the background) and, per state, the arrow that acts (-1: none), the arrow's own state and the draw.</summary>
    private sealed record CauseStates(int Variable, int Link, Arrow?[] Arrows, (int Arrow, int State, int Draw)[] States)
    {
        public string Mark(int cause) => $"/{Link}:{cause}:{string.Join(',', States.Select(s => s.Arrow))}";
    }

    private int Step(CauseStates cause, int key, int before, ref string path)
    {
        path += cause.Mark(key);
        if (_sums.TryGetValue(path, out int known))
        {
            return known;
        }

        int sum = _sums[path] = _circuit.Network.AddVariable(_most + 1);
        (int Arrow, int Draw)[] free = [.. cause.States
            .Where(s => s.Arrow >= 0 && _thresholds.Shared(cause.Link, s.Draw) && cause.Arrows[s.Arrow]!.Cells.Length > 1)
            .Select(s => (s.Arrow, s.Draw)).Distinct()];
        int[] first = before < 0 ? [] : [before], second = cause.Variable < 0 ? [] : [cause.Variable];
        int[] scope = [.. first, .. second, .. free.Select(t => _thresholds.Variable(cause.Link, t.Arrow, t.Draw, cause.Arrows[t.Arrow]!)), sum];
        _circuit.Network.AddFactor(scope, Table(scope, cause, first.Length, second.Length, free));
        return sum;
    }

    private double[] Table(int[] scope, CauseStates cause, int first, int second, (int Arrow, int Draw)[] free)
    {
        int[] outer = [.. scope.Take(scope.Length - 1).Select(v => _circuit.Network.States[v])];
        var table = new double[outer.Aggregate(1, (a, b) => a * b) * (_most + 1)];
        int row = 0;
        Tables.Fill(outer, at =>
        {
            Span<double> target = table.AsSpan(row++ * (_most + 1), _most + 1);
            int from = first == 0 ? 0 : at[0];
            (int index, int state, int draw) = cause.States[second == 0 ? 0 : at[first]];
            int threshold = index < 0 ? -1 : Array.IndexOf(free, (index, draw));
            if (index < 0)
            {
                target[from] = 1;
            }
            else if (threshold >= 0)
            {
                target[Sum(from, cause.Arrows[index]!.StepIn(at[first + second + threshold], state))] = 1;
            }
            else
            {
                foreach ((int step, double p) in cause.Arrows[index]!.For(state).Steps)
                {
                    target[Sum(from, step)] += p;
                }
            }

            return 0;
        });
        return table;
    }

    private int Sum(int from, int step) => Math.Min(_most, from + Math.Max(0, step * _sign));
}
