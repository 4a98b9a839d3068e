using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>What no search can do better than, car by car: with all faults known beforehand, and the best of many orders chosen afterwards.</summary>
internal static class Bounds
{
    private const int Orders = 20;

    /// <summary>More faults than this that the complaint hangs on are not tried in all sets.</summary>
    private const int MostFaults = 10;

    /// <summary>The cheapest set of works on faults that ends the complaint; work that may fail at its price per success. Without one, or where
    /// that is cheaper, the specialist.</summary>
    public static Outcome Known(FaultModel model, SimulatedCar car, Told told)
    {
        (string Component, double Cost, double Minutes)[] faults = [.. model.Components.Where(c => !c.Instrument && car.States[c.Id] is not null && c.Work.Count > 0)
            .Select(c => Cheapest(model, c, car.States[c.Id]!)).OrderBy(f => f.Cost).Take(MostFaults)];
        var best = new Outcome(model.Advice.NoneCost, 0, 0, 0, true);
        for (int set = 1; set < 1 << faults.Length; set++)
        {
            (string Component, double Cost, double Minutes)[] chosen = [.. faults.Where((_, i) => (set >> i & 1) == 1)];
            double cost = chosen.Sum(f => f.Cost);
            if (cost < best.Cost && Ends(car, told, [.. chosen.Select(f => f.Component)]))
            {
                best = new Outcome(cost, chosen.Sum(f => f.Minutes), 0, 0, false);
            }
        }

        return best;
    }

    /// <summary>Each order puts one suspect after the other right until the complaint is gone; what would have been cheapest, handing over at once
    /// included. The orders of a car are the same in every run.</summary>
    public static Outcome Hindsight(Func<Search> anew, (string Component, RepairOption Work)[] suspects, int number, double specialist)
    {
        var random = new Random(number);
        var best = new Outcome(specialist, 0, 0, 0, true);
        for (int i = 0; i < Orders; i++)
        {
            (string, RepairOption)[] order = [.. suspects];
            random.Shuffle(order);
            Outcome outcome = anew().ByOrder(order, best.Cost);
            best = outcome.Cost < best.Cost ? outcome : best;
        }

        return best;
    }

    private static (string Component, double Cost, double Minutes) Cheapest(FaultModel model, Component part, string mode) => part.Work
        .Select(w => (w.Minutes, Cost: w.Parts + ((w.Minutes + model.Advice.RetestMinutes) * model.Advice.RatePerMinute), Success: part.Modes.Single(m => m.Id == mode).Cures(w.Action)))
        .Where(w => w.Success > 0).Select(w => (part.Id, w.Cost / w.Success, w.Minutes / w.Success)).DefaultIfEmpty((part.Id, double.PositiveInfinity, 0)).MinBy(w => w.Item2);

    private static bool Ends(SimulatedCar car, Told told, string[] right) =>
        right.Length == 0 ? !told.Present.Any(car.Shows) : car.With(right[0], () => Ends(car, told, right[1..]));
}
