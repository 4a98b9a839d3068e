using System.Globalization;
using FuelHistory.Benchmarks.LeakDowns;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;
using MathNet.Numerics.Distributions;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>A car drawn from the fault model: its parts' true states and every hidden threshold. It answers questions and checks as the
/// model says a real one would; written from the definitions, apart from the inference.</summary>
internal sealed class SimulatedCar
{
    private readonly CarLot _lot;
    private readonly FaultModel _model;
    private readonly Random _random;
    private readonly Component? _template;
    private readonly Dictionary<string, Condition> _conditions;
    private readonly Dictionary<object, double> _thresholds = new(new ByArrow());
    private readonly Dictionary<string, SimulatedGauge> _gauges = [];
    private readonly Dictionary<(string Component, string Action), double> _helps = [];
    private SimulatedGauge? _inUse;

    public SimulatedCar(CarLot lot, Random random, IReadOnlyDictionary<string, string?> states)
    {
        (_lot, _model, _random) = (lot, lot.Model, random);
        States = new Dictionary<string, string?>(states);
        _template = _model.Components.FirstOrDefault(c => c.Instrument);
        _conditions = _model.Conditions.ToDictionary(c => c.Id);

        // all of them now and in the model's order: the same number is the same car whatever it is asked
        foreach (object arrow in _model.Conditions.SelectMany(c => c.Effects.Cast<object>().Prepend(c)).Concat(_model.Cells.SelectMany(Arrows)).Distinct(_thresholds.Comparer))
        {
            _thresholds[arrow] = random.NextDouble();
        }
    }

    /// <summary>Component to mode; null: ok.</summary>
    public Dictionary<string, string?> States { get; }

    /// <summary>Cells of one event share the threshold of each arrow, and of the background.</summary>
    public bool Shows(EventCell cell) =>
        Threshold(new OfEvent(Name(cell), "")) < cell.Background
        || cell.Causes.Any(c => Threshold(new OfEvent(Name(cell), c.Of)) < Probability(c.Of, c.P, c.At))
        || (States.GetValueOrDefault("elsewhere") is not null && Threshold(new OfEvent(Name(cell), "elsewhere")) < _model.Elsewhere.Cells.GetValueOrDefault(cell.Id, _model.Elsewhere.P));

    /// <summary>An arrow into an event; without a cause its background.</summary>
    private sealed record OfEvent(string Event, string Of);

    /// <summary>Arrows into an event are the same by their ends, those into a condition each its own.</summary>
    private sealed class ByArrow : IEqualityComparer<object>
    {
        bool IEqualityComparer<object>.Equals(object? x, object? y) => ReferenceEquals(x, y) || (x is OfEvent a && a.Equals(y));

        int IEqualityComparer<object>.GetHashCode(object obj) => obj is OfEvent arrow ? arrow.GetHashCode() : System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(obj);
    }

    private static string Name(EventCell cell) => cell.Event ?? cell.Id;

    private static IEnumerable<object> Arrows(EventCell cell) =>
        cell.Causes.Select(c => new OfEvent(Name(cell), c.Of)).Prepend(new OfEvent(Name(cell), "elsewhere")).Prepend(new OfEvent(Name(cell), ""));

    /// <summary>Makes a check; chance enters afresh each time.</summary>
    public Observation Make(Check check, Observation blank)
    {
        _inUse = GaugeFor(check);
        Observation done = blank with { Check = check.Id };
        return check.Kind switch
        {
            CheckKind.YesNo => done with { Outcome = _random.NextDouble() < 1 - check.Detects!.Aggregate(1 - check.FalseAlarm, (no, c) => no * (1 - Probability(c.Of, c.P, c.At))) ? "yes" : "no" },
            CheckKind.Outcomes => done with { Outcome = check.Outcomes![Worst(check)].Id },
            CheckKind.Measurement => Measure(check, done),
            _ => Watch(check, done),
        };
    }

    /// <summary>Work on a component (replace, clean, adjust) comes out as it may: a new part brings its own thresholds, and what comes along
    /// with it; one cleaned keeps them.</summary>
    public void PutRight(string component, string action)
    {
        Component done = _lot.Component(component);
        if (action == "replace")
        {
            foreach (Component fitted in done.Includes.Select(_lot.Component).Prepend(done))
            {
                States[fitted.Id] = _lot.NewPart(fitted, _random);
                DrawAnew(fitted);
                _helps.Remove((fitted.Id, "clean"));
                _helps.Remove((fitted.Id, "adjust"));
            }
        }
        else
        {
            // whether it helps is drawn once: done again it helps no more
            double u = _helps.TryGetValue((component, action), out double known) ? known : _helps[(component, action)] = _random.NextDouble();
            States[component] = States[component] is string mode && u >= done.Modes.Single(m => m.Id == mode).Cures(action) ? mode : null;
        }
    }

    /// <summary>Asks what would be with a component ok and all else as it is.</summary>
    public T With<T>(string component, Func<T> ask)
    {
        string? was = States.GetValueOrDefault(component);
        States[component] = null;
        T answer = ask();
        States[component] = was;
        return answer;
    }

    private void DrawAnew(Component component)
    {
        foreach (Effect effect in _model.Conditions.SelectMany(c => c.Effects).Where(e => OfPart(e.Of, component.Id)))
        {
            _thresholds[effect] = _random.NextDouble();
        }

        foreach (OfEvent arrow in _model.Cells.SelectMany(Arrows).Cast<OfEvent>().Where(a => OfPart(a.Of, component.Id)).Distinct().ToList())
        {
            _thresholds[arrow] = _random.NextDouble();
        }
    }

    private static bool OfPart(string fault, string component) => fault.StartsWith(component + ".", StringComparison.Ordinal);

    /// <summary>One gauge per quantity.</summary>
    private SimulatedGauge GaugeFor(Check check)
    {
        string quantity = check.Quantity ?? "";
        if (!_gauges.TryGetValue(quantity, out SimulatedGauge? gauge))
        {
            _gauges[quantity] = gauge = new SimulatedGauge(_template, _random);
        }

        return gauge;
    }

    private double Threshold(object arrow) => _thresholds[arrow];

    private double Probability(string of, double? p, IReadOnlyDictionary<string, double>? at) =>
        p is double own ? (Is(of) ? own : 0) : at!.GetValueOrDefault(Level(of).ToString(CultureInfo.InvariantCulture));

    private bool Is(string fault) => fault.Split('.') is [string part, string mode] && (part == _template?.Id ? _inUse?.Mode : States.GetValueOrDefault(part)) == mode;

    private int Level(string id)
    {
        Condition condition = _conditions[id];
        int up = 0, down = 0;
        Add(StepDistribution.Of(condition.Background).At(Threshold(condition)));
        foreach (Effect effect in condition.Effects)
        {
            IReadOnlyDictionary<string, double>? row = effect.Adds is null
                ? effect.At!.GetValueOrDefault(Level(effect.Of).ToString(CultureInfo.InvariantCulture))
                : Is(effect.Of) ? effect.Adds : null;
            Add(row is null ? 0 : StepDistribution.Of(row).At(Threshold(effect)));
        }

        return Math.Min(condition.Max, up) - Math.Min(-condition.Min, down);

        void Add(int step)
        {
            up += Math.Max(0, step);
            down += Math.Max(0, -step);
        }
    }

    private int Worst(Check check)
    {
        if (check.ByLevel is OutcomeByLevel byLevel)
        {
            return Draw(check, byLevel.At.GetValueOrDefault(Level(byLevel.Of).ToString(CultureInfo.InvariantCulture)));
        }

        int worst = Draw(check, check.Otherwise);
        foreach (OutcomeRow row in check.Table!)
        {
            IReadOnlyDictionary<string, double>? own = row.P is not null ? (Is(row.Of) ? row.P : null) : row.At!.GetValueOrDefault(Level(row.Of).ToString(CultureInfo.InvariantCulture));
            worst = own is null ? worst : Math.Max(worst, Draw(check, own));
        }

        return worst;
    }

    private int Draw(Check check, IReadOnlyDictionary<string, double>? row)
    {
        double u = _random.NextDouble(), sum = 0;
        for (int i = check.Outcomes!.Count - 1; i > 0; i--)
        {
            sum += row?.GetValueOrDefault(check.Outcomes[i].Id) ?? 0;
            if (u < sum)
            {
                return i;
            }
        }

        return 0;
    }

    private Observation Measure(Check check, Observation done)
    {
        Condition condition = _conditions[check.Measures!];
        var covariates = new Dictionary<string, double>();
        if (check.Covariate is Covariate c)
        {
            covariates[c.Id] = check.Limits!.Points[check.Limits.Points.Count / 2].At ?? 0;
        }

        BandEdges bands = BandEdges.For(check, condition, null, covariates.Values.Cast<double?>().FirstOrDefault())!;
        int level = Level(condition.Id) - condition.Min;
        double value = bands.Values(level).At(_random.NextDouble(), _random.NextDouble());
        double makers = Normal.Sample(_random, 0, 1) * bands.Spread;
        return done with { Value = _inUse!.Read(value + makers, check.Repeat, bands.Top), Covariates = covariates };
    }

    private Observation Watch(Check check, Observation done)
    {
        LeakLimit limit = LeakLimit.For(check.Limits!, null)!;
        bool lost = check.Store is not null && Level(check.Store) < 0;
        var run = new LeakTruth(limit, Math.Min(3, check.Watches!.Sum(Level)), lost, LeakTruth.LawFor(lost, _random), _random);
        double makers = Normal.Sample(_random, 0, 1) * check.Limits!.Spread;
        return done with { Points = [new LeakPoint(limit.Minutes, _inUse!.Read(run.At(limit.Minutes) + makers, check.Repeat, limit.From * 2))] };
    }
}
