using System.Globalization;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>Lets several rules search for the fault of the same cars, drawn from the model, and compares what it costs.</summary>
internal sealed class Scenario(CompiledModel model)
{
    private const string Advice = "the advice", Known = "all faults known", Hindsight = "best of twenty orders", ByAge = "likeliest by age first", ByPrice = "cheapest part first", AdviceHot = "pressure lost: advice", Chart = "pressure lost: flow chart";

    /// <summary>Parts that the simple rules try before they hand the car over.</summary>
    private const int MostParts = 3;

    /// <summary>A given fault does not always show: cars drawn until one does.</summary>
    private const int Tries = 40;

    private readonly CarLot _lot = new(model.Source);
    private readonly Dictionary<string, List<Outcome>> _results = new[] { Advice, Known, Hindsight, ByAge, ByPrice, AdviceHot, Chart }.ToDictionary(rule => rule, _ => new List<Outcome>());

    /// <summary>Cars as they come.</summary>
    public void Run(int cars)
    {
        int kept = 0;
        for (int number = 0; kept < cars; number++)
        {
            kept += Follow(number) ? 1 : 0;
        }

        Print();
    }

    /// <summary>The same cars by the advice alone, in each order of what to propose next, and as it was without looks beforehand and bundles.</summary>
    public void CompareOrders(int cars)
    {
        (string Name, AdviceRules Rules)[] ways = [
            ("per minute, nothing more", new(NextOrder.PerMinute, false, false)),
            .. Enum.GetValues<NextOrder>().Select(o => ($"{o}", AdviceRules.Usual with { Order = o }))];
        foreach ((string name, _) in ways)
        {
            _results[name] = [];
        }

        int kept = 0;
        for (int number = 0; kept < cars; number++)
        {
            if (_lot.Complaint(number, _lot.Draw(number)) is Told told)
            {
                kept++;
                foreach ((string name, AdviceRules rules) in ways)
                {
                    _results[name].Add(new Search(model, _lot.Draw(number), told).ByAdvice(model, rules));
                }

                if (kept % 20 == 0)
                {
                    PrintPairs(ways[0].Name);
                }
            }
        }

        Print();
    }

    /// <summary>Of each way the mean difference in cost from the first one, car by car.</summary>
    private void PrintPairs(string first)
    {
        foreach ((string rule, List<Outcome> outcomes) in _results.Where(r => r.Value.Count > 1 && r.Key != first))
        {
            Outcome[] differences = [.. outcomes.Zip(_results[first], (o, f) => o with { Cost = o.Cost - f.Cost })];
            Console.WriteLine($"{outcomes.Count} cars: {rule,-12} less {first}: {Mean([.. differences], o => o.Cost)}");
        }
    }

    /// <summary>Every way of being bad in turn, <paramref name="each"/> times, whatever else is wrong by its life; then as many pairs of them.</summary>
    public void RunModes(int each)
    {
        (string, string)[] modes = [.. model.Source.Components.Where(c => !c.Instrument).SelectMany(c => c.Modes.Select(m => (c.Id, m.Id)))];
        Console.WriteLine($"one fault given, {modes.Length} ways of being bad");
        for (int i = 0; i < modes.Length * each; i++)
        {
            FollowGiven(i, modes[i / each]);
        }

        Print();
        var random = new Random(1);
        Console.WriteLine("two faults given");
        for (int i = 0; i < modes.Length * each / 2; i++)
        {
            FollowGiven((modes.Length * each) + i, modes[random.Next(modes.Length)], modes[random.Next(modes.Length)]);
        }

        Print();
    }

    private void FollowGiven(int place, params (string, string)[] given)
    {
        for (int number = place * Tries; number < (place + 1) * Tries && !Follow(number, given); number++)
        {
        }
    }

    /// <summary>One car by every rule; false: it has nothing to complain of.</summary>
    private bool Follow(int number, params (string, string)[] given)
    {
        if (_lot.Complaint(number, _lot.Draw(number, given)) is not Told told)
        {
            return false;
        }

        Search Anew() => new(model, _lot.Draw(number, given), told);
        Outcome advised = Anew().ByAdvice(model, AdviceRules.Usual);
        _results[Advice].Add(advised);
        (string Component, RepairOption Work)[] parts = [.. Suspects(told)];
        _results[Known].Add(Bounds.Known(model.Source, _lot.Draw(number, given), told));
        _results[Hindsight].Add(Bounds.Hindsight(Anew, parts, number));
        _results[ByAge].Add(Anew().ByOrder(parts.OrderByDescending(p => 1 - _lot.Priors[p.Component][0]).Take(MostParts)).LastOrDefault() ?? Anew().End());
        _results[ByPrice].Add(Anew().ByOrder(parts.OrderBy(p => p.Work.Cost).Take(MostParts)).LastOrDefault() ?? Anew().End());
        if (FlowChart.Covers(model.Source, told.Present.Select(s => s.Id)))
        {
            _results[AdviceHot].Add(advised);
            _results[Chart].Add(Anew().ByFlowChart(model.Source, Price));
        }

        return true;
    }

    /// <summary>Parts that what shows can come from.</summary>
    private IEnumerable<(string, RepairOption)> Suspects(Told told)
    {
        var parts = new bool[model.Index.Parts.Length];
        foreach (EventIndex shown in model.Index.Events)
        {
            ulong cells = shown.Cells.Select((c, i) => told.Present.Contains(c) ? 1UL << i : 0).Aggregate(0UL, (all, c) => all | c);
            foreach (int part in cells == 0 ? [] : Enumerable.Range(0, parts.Length).Where(p => Ancestors.Of(model.Index, shown, cells)[p]))
            {
                parts[part] = true;
            }
        }

        return model.Index.Parts.Where(p => parts[p.Index] && !p.Source.Instrument && p.Id != ModelIndex.Elsewhere).Select(p => (p.Id, Price(p.Id)));
    }

    /// <summary>The work with the least cost per chance of success.</summary>
    private RepairOption Price(string component)
    {
        PartIndex part = model.Index.Parts[model.Index.Part(component)];
        double[] prior = _lot.Priors[component];
        return new Costs(model.Source, null).Of(part, prior.AsSpan(1), PartCopy.Alone(part.Index, prior, 0)).MinBy(o => o.Cost / o.Success)!;
    }

    private void Print()
    {
        foreach ((string rule, List<Outcome> outcomes) in _results.Where(r => r.Value.Count > 1))
        {
            Console.WriteLine($"{rule,-26} cars {outcomes.Count}  cost {Mean(outcomes, o => o.Cost)}  whole day {Mean(outcomes, o => o.WholeDay)}  minutes {Mean(outcomes, o => o.Minutes)}  checks {Mean(outcomes, o => o.Checks)}  wrong parts {Mean(outcomes, o => o.Wrong)}  specialist {outcomes.Count(o => o.Specialist)}");
            outcomes.Clear();
        }
    }

    private static string Mean(List<Outcome> outcomes, Func<Outcome, double> value)
    {
        double mean = outcomes.Average(value), sd = Math.Sqrt(outcomes.Sum(o => Math.Pow(value(o) - mean, 2)) / Math.Max(1, outcomes.Count - 1));
        return string.Create(CultureInfo.InvariantCulture, $"{mean:0.0} ± {1.96 * sd / Math.Sqrt(outcomes.Count):0.0}");
    }
}
