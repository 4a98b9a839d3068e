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
        _links = most == 0 ? [] : Array.FindAll(links, l => l.Group.Has(sign));
        Array.Sort(_links, static (a, b) => a.Kinds != b.Kinds ? a.Kinds.CompareTo(b.Kinds) : a.Number.CompareTo(b.Number));
        _background = most > 0 && condition.BackgroundArrow.Has(sign) ? condition.BackgroundArrow : null;
    }

    /// <summary>Notes the thresholds that are met on more than one branch, and those of arrows that step both ways from one state.</summary>
    public void FindShared()
    {
        if (_background?.BothWays ?? false)
        {
            _thresholds.Share(Background, 0);
        }

        if (Array.TrueForAll(_links, static l => l.Kinds <= 1 && !l.Group.BothWays))
        {
            return;                                          // one path for all worlds
        }

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
    }

    /// <summary>The variable of the sum in a world; -1: nothing can add to it.</summary>
    public int SumIn(int w)
    {
        int sum = -1;
        if (_background is not null)
        {
            sum = Step(new StepSource(-1, Background, null, null, [_background], null, 0, -1, _sign), 1, sum);
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

    private static readonly int[] OneDraw = [0];

    private int[] Draws(ChainLink link, int world) => link.Group.IsPart ? _partIn(world, link.Group).Draws : OneDraw;

    private int AddCondition(ChainLink link, int w, int before)
    {
        Node cause = _circuit.Condition(_worlds[w], link.Group.Condition);
        int min = _circuit.Index.Conditions[link.Group.Condition].Min;
        return Step(new StepSource(cause.Variable, link.Number, link.Group, null, link.Group.Arrows, cause.Levels, min, -1, _sign), link.Causes[w], before);
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
            if (mode < 0 || (link.Group.Arrows[mode]?.Has(_sign) ?? false))
            {
                before = Step(new StepSource(variable, link.Number, link.Group, copy, link.Group.Arrows, null, 0, mode, _sign), link.Causes[w], before);
            }
        }

        return before;
    }

    private int Step(in StepSource cause, int key, int before)
    {
        if (_sums.TryGetValue((before, cause.Link, key, cause.Mode), out int known))
        {
            return known;
        }

        int sum = _sums[(before, cause.Link, key, cause.Mode)] = _circuit.Network.AddVariable(_most + 1);
        List<(int Arrow, int Draw)>? free = _thresholds.Any ? Free(cause) : null;
        int first = before >= 0 ? 1 : 0, second = cause.Variable >= 0 ? 1 : 0, at = 0;
        var scope = new int[first + second + (free?.Count ?? 0) + 1];
        if (first > 0)
        {
            scope[at++] = before;
        }

        if (second > 0)
        {
            scope[at++] = cause.Variable;
        }

        foreach ((int arrow, int draw) in free ?? [])
        {
            scope[at++] = _thresholds.Variable(cause.Link, arrow, draw, cause.Arrows[arrow]!);
        }

        scope[at] = sum;
        int pattern = first + (_sign > 0 ? 2 : 0) + (4 * ((free?.Count ?? 0) + (8 * (cause.Mode + 1))));
        var name = new TableCache.Key((object?)cause.Group ?? _condition, cause.States, cause.At(0).State, cause.At(cause.States - 1).State, pattern);
        _circuit.Network.AddKnown(scope, _circuit.Tables.Known(name, cause.Copy) ?? _circuit.Tables.Keep(name, cause.Copy, Table(scope, cause, first, free ?? [])));
        return sum;
    }

    /// <summary>Thresholds of this cause that are variables.</summary>
    private List<(int Arrow, int Draw)>? Free(in StepSource cause)
    {
        List<(int Arrow, int Draw)>? free = null;
        for (int s = 0; s < cause.States; s++)
        {
            (int arrow, _, int draw) = cause.At(s);
            if (arrow >= 0 && _thresholds.Shared(cause.Link, draw) && cause.Arrows[arrow]!.Cells.Length > 1 && !(free?.Contains((arrow, draw)) ?? false))
            {
                (free ??= []).Add((arrow, draw));
            }
        }

        return free;
    }

    private double[] Table(int[] scope, StepSource cause, int first, List<(int Arrow, int Draw)> free)
    {
        int[] outer = [.. scope.Take(scope.Length - 1).Select(v => _circuit.Network.States[v])];
        int second = cause.Variable < 0 ? 0 : 1;
        var table = new double[outer.Aggregate(1, (a, b) => a * b) * (_most + 1)];
        int row = 0;
        Tables.Fill(outer, at =>
        {
            Span<double> target = table.AsSpan(row++ * (_most + 1), _most + 1);
            int from = first == 0 ? 0 : at[0];
            (int index, int state, int draw) = cause.At(second == 0 ? 0 : at[first]);
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

/// <summary>A cause of steps of one sign: a part (<paramref name="Mode"/>: one of its modes, or all: -1), a condition (its levels and its lowest one),
/// or the background (variable -1).</summary>
internal readonly record struct StepSource(int Variable, int Link, EffectGroup? Group, PartCopy? Copy, Arrow?[] Arrows, int[]? Levels, int Min, int Mode, int Sign)
{
    public int States => Copy?.States ?? Levels?.Length ?? 1;

    /// <summary>In a state of the cause: the arrow that acts (-1: none), the arrow's own state and the draw.</summary>
    public (int Arrow, int State, int Draw) At(int state)
    {
        if (Copy is null)
        {
            return (0, Levels is null ? 0 : Levels[state] - Min, 0);
        }

        if (state == 0)
        {
            return (-1, 0, 0);
        }

        (int own, int draw) = Copy.Bad[state - 1];
        return (Mode < 0 || Mode == own) && (Arrows[own]?.Has(Sign) ?? false) ? (own, 0, draw) : (-1, 0, 0);
    }
}
