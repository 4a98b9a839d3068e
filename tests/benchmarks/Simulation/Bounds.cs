using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>What no search can do better than, car by car: with all faults known beforehand, and the best of many orders chosen afterwards.</summary>
internal static class Bounds
{
    private const int Orders = 20;

    /// <summary>More faults than this that the complaint hangs on are not tried in all sets.</summary>
    private const int MostFaults = 10;

    /// <summary>The cheapest set of works on faults, the specialist paid for what they leave; work that may fail at its price per success.</summary>
    public static Outcome Known(FaultModel model, SimulatedCar car, Told told)
    {
        (string Component, double Cost, double Minutes)[] faults = [.. model.Components.Where(c => !c.Instrument && car.States[c.Id] is not null && c.Work.Count > 0)
            .Select(c => Cheapest(model, c, car.States[c.Id]!)).OrderBy(f => f.Cost).Take(MostFaults)];
        return Outcome.Least([.. Enumerable.Range(0, 1 << faults.Length)
            .Select(set => With(model, car, told, [.. faults.Where((_, i) => (set >> i & 1) == 1)]))]);
    }

    /// <summary>Each order puts one suspect after the other right until the complaint is gone; the cheapest moment to hand over, at once
    /// included. The orders of a car are the same in every run.</summary>
    public static Outcome Hindsight(Func<Search> anew, (string Component, RepairOption Work)[] suspects, int number)
    {
        var random = new Random(number);
        var all = new List<Outcome> { anew().End() };
        for (int i = 0; i < Orders; i++)
        {
            (string, RepairOption)[] order = [.. suspects];
            random.Shuffle(order);
            all.AddRange(anew().ByOrder(order));
        }

        return Outcome.Least(all);
    }

    private static Outcome With(FaultModel model, SimulatedCar car, Told told, (string Component, double Cost, double Minutes)[] chosen)
    {
        double left = Left(car, told, [.. chosen.Select(f => f.Component)]), cost = chosen.Sum(f => f.Cost), day = model.Advice.NoneCost;
        return new Outcome(cost + (day * left), cost + (left > 0 ? day : 0), chosen.Sum(f => f.Minutes), 0, 0, left > 0);
    }

    private static (string Component, double Cost, double Minutes) Cheapest(FaultModel model, Component part, string mode) => part.Work
        .Select(w => (w.Minutes, Cost: w.Parts + ((w.Minutes + model.Advice.RetestMinutes) * model.Advice.RatePerMinute), Success: part.Modes.Single(m => m.Id == mode).Cures(w.Action)))
        .Where(w => w.Success > 0).Select(w => (part.Id, w.Cost / w.Success, w.Minutes / w.Success)).DefaultIfEmpty((part.Id, double.PositiveInfinity, 0)).MinBy(w => w.Item2);

    private static double Left(SimulatedCar car, Told told, string[] right) =>
        right.Length == 0 ? told.Left(car) : car.With(right[0], () => Left(car, told, right[1..]));
}
