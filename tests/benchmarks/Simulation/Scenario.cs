using System.Globalization;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>Draws cars with a complaint from the model and lets several rules search for the fault.</summary>
internal sealed class Scenario
{
    public static readonly DateOnly FirstUse = new(1981, 6, 1), Since = new(2025, 5, 1);
    private const string Advice = "the advice", ByAge = "likeliest by age first", ByPrice = "cheapest part first", AdviceHot = "pressure lost: advice", Chart = "pressure lost: flow chart";

    /// <summary>Parts that the simple rules try before they hand the car over.</summary>
    private const int MostParts = 3;

    private const int AskedBesides = 6;
    private readonly CompiledModel _model;
    private readonly Dictionary<string, double[]> _priors;

    public Scenario(CompiledModel model)
    {
        _model = model;
        var life = new LifePrior(model.Source, new CarRecord { FirstUse = FirstUse }, new DateOnly(2025, 6, 1), Since.AddDays(-30));
        _priors = model.Source.Components.Where(c => !c.Instrument).ToDictionary(c => c.Id, c => life.Of(c));
        _priors["elsewhere"] = [1 - model.Source.Elsewhere.Prior, model.Source.Elsewhere.Prior];
    }

    /// <summary>Cars as they come.</summary>
    public void Run(int cars) => Print(Run(Enumerable.Range(0, int.MaxValue).Select(seed => (Func<SimulatedCar?>)(() => Draw(seed, []))), cars));

    /// <summary>Every way of being bad in turn, <paramref name="each"/> times, whatever else is wrong by its life; then as many pairs of them.</summary>
    public void RunModes(int each)
    {
        (string, string)[] modes = [.. _model.Source.Components.Where(c => !c.Instrument).SelectMany(c => c.Modes.Select(m => (c.Id, m.Id)))];
        Console.WriteLine($"one fault given, {modes.Length} ways of being bad");
        Print(Run(modes.SelectMany((mode, i) => Enumerable.Range(0, each).Select(k => Showing((i * 1000) + k, [mode]))), int.MaxValue));
        var random = new Random(1);
        Console.WriteLine("two faults given");
        Print(Run(Enumerable.Range(0, modes.Length * each / 2).Select(k => Showing(1_000_000 + (k * 1000), [modes[random.Next(modes.Length)], modes[random.Next(modes.Length)]])), int.MaxValue));
    }

    /// <summary>The first of twenty such cars that has something to complain of; null: none has.</summary>
    private Func<SimulatedCar?> Showing(int seed, (string Component, string Mode)[] given)
    {
        int found = Enumerable.Range(seed, 20).FirstOrDefault(s => Asked(Draw(s, given)) is not null, -1);
        return () => found < 0 ? null : Draw(found, given);
    }

    private (Dictionary<string, List<Outcome>> Results, List<(double, bool)> Bad, List<(double, bool)> Cured) Run(IEnumerable<Func<SimulatedCar?>> draws, int cars)
    {
        var results = new[] { Advice, ByAge, ByPrice, AdviceHot, Chart }.ToDictionary(rule => rule, _ => new List<Outcome>());
        var bad = new List<(double, bool)>();
        var cured = new List<(double, bool)>();
        int done = 0;
        foreach (Func<SimulatedCar?> draw in draws)
        {
            if (done == cars)
            {
                break;
            }

            if (draw() is not SimulatedCar car || Asked(car) is not string[] asked)
            {
                continue;
            }

            done++;
            var search = new Search(_model, () => draw()!, asked);
            Outcome advised = search.ByAdvice();
            results[Advice].Add(advised);
            bad.AddRange(search.Bad);
            cured.AddRange(search.Cured);
            (string, double, double)[] parts = [.. Suspects(car, asked)];
            results[ByAge].Add(new Search(_model, () => draw()!, asked).ByOrder(parts.OrderByDescending(p => 1 - _priors[p.Item1][0]).Take(MostParts)));
            results[ByPrice].Add(new Search(_model, () => draw()!, asked).ByOrder(parts.OrderBy(p => p.Item2).Take(MostParts)));
            if (FlowChart.Covers(asked.Where(a => car.Shows(_model.Source.Symptoms.Single(s => s.Id == a)))))
            {
                results[AdviceHot].Add(advised);
                results[Chart].Add(new Search(_model, () => draw()!, asked).ByFlowChart(Price));
            }
        }

        return (results, bad, cured);
    }

    private static void Print((Dictionary<string, List<Outcome>> Results, List<(double, bool)> Bad, List<(double, bool)> Cured) run)
    {
        foreach ((string rule, List<Outcome> outcomes) in run.Results.Where(r => r.Value.Count > 1))
        {
            Console.WriteLine($"{rule,-26} cars {outcomes.Count}  cost {Mean(outcomes, o => o.Cost)}  minutes {Mean(outcomes, o => o.Minutes)}  checks {Mean(outcomes, o => o.Checks)}  wrong parts {Mean(outcomes, o => o.Wrong)}  specialist {outcomes.Count(o => o.Specialist)}");
        }

        Reliability("P(bad)", run.Bad);
        Reliability("cure", run.Cured);
    }

    private (double Cost, double Minutes) Price(string component)
    {
        RepairCost cost = new Costs(_model.Source, null).Of(_model.Source.Components.Single(c => c.Id == component), _priors[component].AsSpan(1));
        return (cost.Cost, cost.Minutes);
    }

    /// <summary>The car of a seed, the same for every rule.</summary>
    /// <param name="given">Faults that it has for certain.</param>
    private SimulatedCar Draw(int seed, (string Component, string Mode)[] given)
    {
        var random = new Random(seed);
        var states = new Dictionary<string, string?>();
        foreach ((string id, double[] prior) in _priors)
        {
            double u = random.NextDouble();
            int state = 0;
            while (state < prior.Length - 1 && u >= prior[state])
            {
                u -= prior[state++];
            }

            states[id] = state == 0 ? null : id == "elsewhere" ? "present" : _model.Source.Components.Single(c => c.Id == id).Modes[state - 1].Id;
        }

        foreach ((string component, string mode) in given)
        {
            states[component] = mode;
        }

        return new SimulatedCar(_model.Source, random, states);
    }

    /// <summary>What shows, and a few questions besides; null: nothing to complain of, or more than a driver would call one complaint.</summary>
    private string[]? Asked(SimulatedCar car)
    {
        string[] present = [.. _model.Source.Symptoms.Where(car.Shows).Select(s => s.Id)];
        string[] others = [.. _model.Source.Symptoms.Select(s => s.Id).Except(present).Take(AskedBesides)];
        return present.Length is > 0 and < 5 ? [.. present, .. others] : null;
    }

    private IEnumerable<(string, double, double)> Suspects(SimulatedCar car, string[] asked)
    {
        SymptomIndex[] present = [.. _model.Index.Symptoms.Where(s => asked.Contains(s.Source.Id) && car.Shows(s.Source))];
        bool[] parts = Ancestors.Of(_model.Index, present);
        var costs = new Costs(_model.Source, null);
        foreach (PartIndex part in _model.Index.Parts.Where(p => parts[p.Index] && !p.Source.Instrument && p.Id != "elsewhere"))
        {
            RepairCost cost = costs.Of(part.Source, _priors[part.Id].AsSpan(1));
            yield return (part.Id, cost.Cost, cost.Minutes);
        }
    }

    private static string Mean(List<Outcome> outcomes, Func<Outcome, double> value)
    {
        double mean = outcomes.Average(value), sd = Math.Sqrt(outcomes.Sum(o => Math.Pow(value(o) - mean, 2)) / Math.Max(1, outcomes.Count - 1));
        return string.Create(CultureInfo.InvariantCulture, $"{mean:0.0} ± {1.96 * sd / Math.Sqrt(outcomes.Count):0.0}");
    }

    private static void Reliability(string what, List<(double Forecast, bool Happened)> pairs)
    {
        Console.WriteLine($"{what}: forecast, seen, count");
        foreach (var bin in pairs.GroupBy(p => Math.Min(9, (int)(p.Forecast * 10))).OrderBy(b => b.Key))
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {bin.Average(p => p.Forecast):0.00}  {bin.Average(p => p.Happened ? 1 : 0):0.00}  {bin.Count()}"));
        }
    }
}
