using System.Globalization;
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
    private readonly FaultModel _model;
    private readonly Random _random;
    private readonly Dictionary<string, Condition> _conditions;
    private readonly Dictionary<object, double> _thresholds = new(ReferenceEqualityComparer.Instance);

    public SimulatedCar(FaultModel model, Random random, IReadOnlyDictionary<string, string?> states)
    {
        (_model, _random) = (model, random);
        States = new Dictionary<string, string?>(states);
        _conditions = model.Conditions.ToDictionary(c => c.Id);

        // all of them now and in the model's order: the same seed is the same car whatever it is asked
        foreach (object arrow in model.Conditions.SelectMany(c => c.Effects.Cast<object>().Prepend(c)).Concat(model.Symptoms.SelectMany(s => s.Causes.Cast<object>().Prepend(s.Causes).Prepend(s))))
        {
            _thresholds[arrow] = random.NextDouble();
        }
    }

    /// <summary>Component to mode; null: ok.</summary>
    public Dictionary<string, string?> States { get; }

    public bool Shows(Symptom symptom) =>
        Threshold(symptom) < symptom.Background
        || symptom.Causes.Any(c => Threshold(c) < Probability(c.Of, c.P, c.At))
        || (States.GetValueOrDefault("elsewhere") is not null && Threshold(symptom.Causes) < _model.Elsewhere.Symptoms.GetValueOrDefault(symptom.Id, _model.Elsewhere.P));

    /// <summary>Puts a component right.</summary>
    public void Repair(string component) => States[component] = null;

    /// <summary>Makes a check; chance enters afresh each time.</summary>
    public Observation Make(Check check, Observation blank)
    {
        Observation done = blank with { Check = check.Id };
        return check.Kind switch
        {
            CheckKind.YesNo => done with { Outcome = _random.NextDouble() < 1 - check.Detects!.Aggregate(1 - check.FalseAlarm, (no, c) => no * (1 - Probability(c.Of, c.P, c.At))) ? "yes" : "no" },
            CheckKind.Outcomes => done with { Outcome = check.Outcomes![Worst(check)].Id },
            CheckKind.Measurement => Measure(check, done),
            _ => Watch(check, done),
        };
    }

    private double Threshold(object arrow) => _thresholds[arrow];

    private double Probability(string of, double? p, IReadOnlyDictionary<string, double>? at) =>
        p is double own ? (Is(of) ? own : 0) : at!.GetValueOrDefault(Level(of).ToString(CultureInfo.InvariantCulture));

    private bool Is(string fault) => fault.Split('.') is [string part, string mode] && States.GetValueOrDefault(part) == mode;

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
        double value = bands.Edges[level] + (_random.NextDouble() * (bands.Edges[level + 1] - bands.Edges[level]));
        ReadingError error = ReadingError.Of(null, value, check.Repeat, bands.Top, done.Day);
        double noise = Math.Sqrt(error.SharedVariance + error.OwnVariance + (bands.Spread * bands.Spread));
        return done with { Value = Math.Max(0, Normal.Sample(_random, value, noise)), Covariates = covariates };
    }

    private Observation Watch(Check check, Observation done)
    {
        LeakLimit limit = LeakLimit.For(check.Limits!.From ?? 0, check.Limits.Points.Select(p => (p.Minutes!.Value, p.Low!.Value)))!;
        int sum = Math.Min(3, check.Watches!.Where(w => _conditions[w].Effects.All(e => !e.Of.StartsWith("gauge", StringComparison.Ordinal))).Sum(Level));
        (double shortest, double longest) = limit.TauRange(sum, check.Store is not null && Level(check.Store) < 0);
        double tau = Math.Exp(Math.Log(shortest) + (_random.NextDouble() * Math.Log(longest / shortest)));
        double hold = Math.Max(0.1, Normal.Sample(_random, limit.From, Math.Sqrt(limit.HoldVariance)));
        ReadingError error = ReadingError.Of(null, limit.Low, check.Repeat, limit.From * 2, done.Day);
        double read = Math.Max(0, (hold * Math.Exp(-limit.Minutes / tau)) + Normal.Sample(_random, 0, Math.Sqrt(error.SharedVariance + error.OwnVariance)));
        return done with { Points = [new LeakPoint(limit.Minutes, read)] };
    }
}
