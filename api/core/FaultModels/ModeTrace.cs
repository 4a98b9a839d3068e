using FuelHistory.Core.Assessment;

namespace FuelHistory.Core.FaultModels;

/// <summary>What one mode, alone on a car, makes of every check: a distribution over outcomes each. Several causes of one condition
/// are taken as independent here, which is enough to tell like from unlike; assessments use the exact network.</summary>
internal sealed class ModeTrace
{
    private readonly ModelMap _map;
    private readonly string? _mode;
    private readonly Dictionary<string, Dictionary<int, double>> _levels = [];

    private ModeTrace(ModelMap map, string? mode)
    {
        (_map, _mode) = (map, mode);
    }

    /// <summary>Check id to outcome probabilities; trial id to those of "no change" and "ended".</summary>
    public IReadOnlyDictionary<string, double[]> Checks => _checks ??= _map.Model.Checks.Select(c => (c.Id, Row: Outcomes(c)))
        .Concat(_map.Model.Trials.Select(t => (t.Id, Row: Result(t)))).ToDictionary(c => c.Id, c => c.Row);

    private Dictionary<string, double[]>? _checks;

    /// <summary>Cell id to the probability that it shows.</summary>
    public IReadOnlyDictionary<string, double> Cells => _cells ??=
        _map.Model.Cells.ToDictionary(s => s.Id, s => Largest(ArrowTarget.Event, s.Id, ["no", "p"], new() { ["p"] = s.Background })[1]);

    private Dictionary<string, double>? _cells;

    /// <param name="mode">Null: a car with nothing wrong.</param>
    public static ModeTrace Of(ModelMap map, string? mode) => new(map, mode);

    /// <summary>What each cause that acts under the mode makes of a cell, alone.</summary>
    public IEnumerable<(string Of, double P)> Shares(string cell) =>
        Live(ArrowTarget.Event, cell).Select(a => (a.Of, Mixed(a, row => new Dictionary<string, double>(row), "no").GetValueOrDefault("p")));

    private double[] Outcomes(Check check) => check.Kind switch
    {
        CheckKind.Measurement => Spread(Levels(check.Measures!)),
        CheckKind.LeakDown => Both(Spread(Sum(check.Watches!.Select(Levels), 0, 3)), check.Store is null ? [1] : Spread(Levels(check.Store))),
        CheckKind.YesNo => Largest(ArrowTarget.Check, check.Id, ["no", "p"], new() { ["p"] = check.FalseAlarm }),
        _ => Largest(ArrowTarget.Check, check.Id, [.. check.Outcomes!.Select(o => o.Id)], new(check.Otherwise ?? new Dictionary<string, double>())),
    };

    /// <summary>The trial ends the trouble by so much as it puts right: the part, a contact that it moves, or a condition.</summary>
    private double[] Result(Trial trial)
    {
        (Component? part, Mode? mode) = _mode is not null && _map.Modes.TryGetValue(_mode, out var m) ? (m.Component, m.Mode) : (null, null);
        bool touch = trial.Kind == TrialKind.Touched, own = part is not null && trial.Component == part.Id;
        bool moved = mode is { Contact: true } && (trial.Moves.Contains(part!.Id) || (part.Id != trial.Component && MovedBy(trial.Component).Contains(part.Id)));
        double right = own && !touch ? 1 : 0;
        right = touch && mode is { Contact: true } && own ? TrialFigures.TouchedRight : right;
        right = moved ? Math.Max(right, touch ? TrialFigures.TouchedRight : TrialFigures.MovedRight) : right;
        right = trial.Right.Select(c => 1 - Levels(c).GetValueOrDefault(0)).Append(right).Max();
        (double byChance, _, double more) = TrialFigures.Of(TrialResult.Ended);
        double ended = byChance + (right * more);
        return [1 - ended, ended];
    }

    private IReadOnlyList<string> MovedBy(string? component) => _map.Model.Components.FirstOrDefault(c => c.Id == component)?.Moves ?? [];

    private static double[] Spread(Dictionary<int, double> levels) => [.. Enumerable.Range(-3, 7).Select(l => levels.GetValueOrDefault(l))];

    private static double[] Both(double[] leak, double[] store) => [.. leak.SelectMany(_ => store, (l, s) => l * s)];

    private Dictionary<int, double> Levels(string condition)
    {
        if (!_levels.TryGetValue(condition, out Dictionary<int, double>? levels))
        {
            Condition c = _map.Conditions[condition];
            IEnumerable<Dictionary<int, double>> steps = Live(ArrowTarget.Condition, condition).Select(Step);
            _levels[condition] = levels = Sum(steps, c.Min, c.Max);
        }

        return levels;
    }

    /// <summary>Arrows that say anything while this mode is the only one: its own, and those of conditions that it moves.</summary>
    private IEnumerable<Arrow> Live(ArrowTarget kind, string target) =>
        _map.Into(kind, target).Where(a => a.ByLevel is null ? a.Of == _mode : a.List == "byLevel" || Levels(a.Of).Keys.Any(l => l != 0));

    private Dictionary<int, double> Step(Arrow arrow) => Mixed(arrow, row => row.ToDictionary(e => int.Parse(e.Key, System.Globalization.CultureInfo.InvariantCulture), e => e.Value), 0);

    /// <summary>The arrow's row under this mode, averaged over its cause's levels; what a row leaves goes to <paramref name="rest"/>.</summary>
    private Dictionary<T, double> Mixed<T>(Arrow arrow, Func<IReadOnlyDictionary<string, double>, Dictionary<T, double>> read, T rest)
        where T : notnull
    {
        Dictionary<T, double> mixed = [];
        foreach ((IReadOnlyDictionary<string, double>? row, double weight) in Weighted(arrow))
        {
            double left = weight;
            foreach ((T key, double p) in row is null ? [] : read(row))
            {
                mixed[key] = mixed.GetValueOrDefault(key) + (weight * p);
                left -= weight * p;
            }

            mixed[rest] = mixed.GetValueOrDefault(rest) + left;
        }

        return mixed;
    }

    private IEnumerable<(IReadOnlyDictionary<string, double>? Row, double Weight)> Weighted(Arrow arrow) =>
        arrow.ByMode is { } row
            ? [(row, 1.0)]
            : Levels(arrow.Of).Select(l => (arrow.ByLevel!.GetValueOrDefault(l.Key.ToString(System.Globalization.CultureInfo.InvariantCulture)), l.Value));

    /// <summary>Independent steps, ups and downs saturated apart.</summary>
    private static Dictionary<int, double> Sum(IEnumerable<Dictionary<int, double>> steps, int min, int max)
    {
        Dictionary<(int Up, int Down), double> joint = new() { [(0, 0)] = 1 };
        foreach (Dictionary<int, double> step in steps)
        {
            joint = joint.SelectMany(j => step.Select(s => (Key: (Math.Min(max, j.Key.Up + Math.Max(s.Key, 0)), Math.Max(min, j.Key.Down + Math.Min(s.Key, 0))), P: j.Value * s.Value)))
                .GroupBy(x => x.Key).ToDictionary(g => g.Key, g => g.Sum(x => x.P));
        }

        return joint.GroupBy(j => j.Key.Up + j.Key.Down).ToDictionary(g => g.Key, g => g.Sum(x => x.Value));
    }

    /// <summary>Noisy-MAX over the arrows in the order of the outcomes; noisy-OR where there are two.</summary>
    private double[] Largest(ArrowTarget kind, string target, string[] order, Dictionary<string, double> background)
    {
        double[] upTo = [.. order.Select(_ => 1.0)];
        IEnumerable<Dictionary<string, double>> rows = Live(kind, target).Select(a => Mixed(a, r => new Dictionary<string, double>(r), order[0]));
        foreach (Dictionary<string, double> row in rows.Append(background))
        {
            double above = 0;
            for (int k = order.Length - 1; k >= 0; k--)
            {
                upTo[k] *= 1 - above;
                above += k > 0 ? row.GetValueOrDefault(order[k]) : 0;
            }
        }

        return [.. upTo.Select((p, k) => k == 0 ? p : p - upTo[k - 1])];
    }
}
