namespace FuelHistory.Core.Assessment;

/// <summary>The steps of one sign into one condition, added up one cause after the other and saturating.</summary>
internal sealed class SumChain
{
    /// <summary>Number of the link that stands for the background.</summary>
    private const int Background = -1;

    private readonly Circuit _circuit;
    private readonly ConditionIndex _condition;
    private readonly int _sign;
    private readonly int _most;
    private readonly ChainLink[] _links;
    private readonly Arrow? _background;
    private readonly int[] _worlds;
    private readonly Func<int, EffectGroup, PartCopy> _partIn;
    private readonly Thresholds _thresholds;

    /// <summary>From a path by a link with a certain cause (and one mode of it, or all: -1) to the next path. A path's number is that of its sum's variable.</summary>
    private readonly Dictionary<(int Path, int Link, int Cause, int Mode), int> _sums = [];

    public SumChain(Circuit circuit, ConditionIndex condition, int sign, int most, ChainLink[] links, int[] worlds, Func<int, EffectGroup, PartCopy> partIn, Thresholds thresholds)
    {
        (_circuit, _condition, _sign, _most, _worlds, _partIn, _thresholds) = (circuit, condition, sign, most, worlds, partIn, thresholds);

        // causes that are the same everywhere come first: the chain forks as late as can be
        _links = most == 0 ? [] : [.. links.Where(l => l.Group.Has(sign))];
        Array.Sort(_links, (a, b) => a.Kinds != b.Kinds ? a.Kinds.CompareTo(b.Kinds) : a.Number.CompareTo(b.Number));
        _background = most > 0 && condition.BackgroundArrow.Has(sign) ? condition.BackgroundArrow : null;
    }

    /// <summary>Notes the thresholds that are met on more than one branch, and those of arrows that step both ways from one state.</summary>
    public void FindShared()
    {
        var paths = new Dictionary<(int Path, int Link, int Cause), int>();
        var met = new Dictionary<(int Link, int Draw), int>();
        for (int w = 0; w < _worlds.Length; w++)
        {
            int path = 0;
            foreach (ChainLink link in _links)
            {
                if (link.Causes[w] == 0)
                {
                    continue;
                }

                bool known = paths.TryGetValue((path, link.Number, link.Causes[w]), out int next);
                path = known ? next : paths[(path, link.Number, link.Causes[w])] = paths.Count + 1;
                if (known && !link.Group.BothWays)
                {
                    continue;
                }

                foreach (int draw in Draws(link, _worlds[w]))
                {
                    int branches = met[(link.Number, draw)] = met.GetValueOrDefault((link.Number, draw)) + (known ? 0 : 1);
                    if (link.Group.BothWays || branches > 1)
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

    /// <summary>The variable of the sum in a world; -1: nothing can add to it.</summary>
    public int SumIn(int w)
    {
        int sum = -1;
        if (_background is not null)
        {
            sum = Step(new Source(-1, Background, null, null, [_background], [(0, 0, 0)]), 1, -1, sum);
        }

        foreach (ChainLink link in _links)
        {
            if (link.Causes[w] > 0)
            {
                sum = link.Group.IsPart ? AddPart(link, w, sum) : AddCondition(link, w, sum);
            }
        }

        return sum;
    }

    private int[] Draws(ChainLink link, int world) => link.Group.IsPart ? _partIn(world, link.Group).Draws : [0];

    private int AddCondition(ChainLink link, int w, int before)
    {
        Node cause = _circuit.Condition(_worlds[w], link.Group.Condition);
        int min = _circuit.Index.Conditions[link.Group.Condition].Min;
        var states = new (int, int, int)[cause.Levels.Length];
        for (int s = 0; s < states.Length; s++)
        {
            states[s] = (0, cause.Levels[s] - min, 0);
        }

        return Step(new Source(cause.Variable, link.Number, link.Group, null, link.Group.Arrows, states), link.Causes[w], -1, before);
    }

    /// <summary>Several modes of one part go in together, unless thresholds are shared: then arrow by arrow.</summary>
    private int AddPart(ChainLink link, int w, int before)
    {
        PartCopy copy = _partIn(_worlds[w], link.Group);
        int variable = _circuit.Variable(copy);
        bool shared = false;
        foreach (int draw in copy.Draws)
        {
            shared |= _thresholds.Shared(link.Number, draw);
        }

        for (int mode = shared ? 0 : -1; mode < (shared ? link.Group.Arrows.Length : 0); mode++)
        {
            if (mode >= 0 && !(link.Group.Arrows[mode]?.Has(_sign) ?? false))
            {
                continue;
            }

            before = Step(new Source(variable, link.Number, link.Group, copy, link.Group.Arrows, States(link, copy, mode)), link.Causes[w], mode, before);
        }

        return before;
    }

    private (int, int, int)[] States(ChainLink link, PartCopy copy, int mode)
    {
        var states = new (int, int, int)[copy.States];
        states[0] = (-1, 0, 0);
        for (int s = 1; s < states.Length; s++)
        {
            (int own, int draw) = copy.Bad[s - 1];
            states[s] = (mode < 0 || mode == own) && (link.Group.Arrows[own]?.Has(_sign) ?? false) ? (own, 0, draw) : (-1, 0, 0);
        }

        return states;
    }

    /// <summary>A cause's variable (-1: the background) and, per state, the arrow that acts (-1: none), the arrow's own state and the draw.</summary>
    private sealed record Source(int Variable, int Link, EffectGroup? Group, PartCopy? Copy, Arrow?[] Arrows, (int Arrow, int State, int Draw)[] States);

    private int Step(Source cause, int key, int mode, int before)
    {
        if (_sums.TryGetValue((before, cause.Link, key, mode), out int known))
        {
            return known;
        }

        int sum = _sums[(before, cause.Link, key, mode)] = _circuit.Network.AddVariable(_most + 1);
        var free = new List<(int Arrow, int Draw)>(1);
        foreach ((int arrow, _, int draw) in cause.States)
        {
            if (arrow >= 0 && _thresholds.Shared(cause.Link, draw) && cause.Arrows[arrow]!.Cells.Length > 1 && !free.Contains((arrow, draw)))
            {
                free.Add((arrow, draw));
            }
        }

        var scope = new List<int>(4);
        if (before >= 0)
        {
            scope.Add(before);
        }

        if (cause.Variable >= 0)
        {
            scope.Add(cause.Variable);
        }

        scope.AddRange(free.Select(t => _thresholds.Variable(cause.Link, t.Arrow, t.Draw, cause.Arrows[t.Arrow]!)));
        scope.Add(sum);
        int pattern = (before >= 0 ? 1 : 0) + (_sign > 0 ? 2 : 0) + (4 * (free.Count + (8 * (mode + 1))));
        double[] table = _circuit.Tables.For(
            new TableCache.Key((object?)cause.Group ?? _condition, cause.States.Length, cause.States[0].State, cause.States[^1].State, pattern),
            cause.Copy,
            () => Table(scope, cause, before >= 0 ? 1 : 0, free));
        _circuit.Network.AddFactor(scope, table);
        return sum;
    }

    private double[] Table(List<int> scope, Source cause, int first, List<(int Arrow, int Draw)> free)
    {
        int[] outer = [.. scope.Take(scope.Count - 1).Select(v => _circuit.Network.States[v])];
        int second = cause.Variable < 0 ? 0 : 1;
        var table = new double[outer.Aggregate(1, (a, b) => a * b) * (_most + 1)];
        int row = 0;
        Tables.Fill(outer, at =>
        {
            Span<double> target = table.AsSpan(row++ * (_most + 1), _most + 1);
            int from = first == 0 ? 0 : at[0];
            (int index, int state, int draw) = cause.States[second == 0 ? 0 : at[first]];
            int threshold = index < 0 ? -1 : free.IndexOf((index, draw));
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
