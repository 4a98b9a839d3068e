using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>The work that puts a component right for the least money per chance of success.</summary>
internal sealed record RepairCost(string Action, double Minutes, double Parts, double Cost);

/// <summary>What repairs, checks and the specialist cost (MODEL.md 8), in the fault model's currency.</summary>
internal sealed class Costs(FaultModel model, double? ratePerMinute)
{
    public double RatePerMinute { get; } = ratePerMinute ?? model.Advice.RatePerMinute;

    public double Specialist { get; } = model.Advice.NoneCost;

    /// <param name="modes">P(mode) of the component now: what the action has to deal with.</param>
    public RepairCost Of(Component component, ReadOnlySpan<double> modes)
    {
        RepairCost? best = null;
        double least = double.PositiveInfinity;
        foreach (WorkFigures work in component.Work)
        {
            double success = Success(component, work.Action, modes);
            double cost = work.Parts + ((work.Minutes + model.Advice.RetestMinutes) * RatePerMinute);
            if (success > 0 && cost / success < least)
            {
                least = cost / success;
                best = new RepairCost(work.Action, work.Minutes, work.Parts, cost);
            }
        }

        return best ?? new RepairCost("hand over", 0, 0, Specialist);
    }

    private static double Success(Component component, string action, ReadOnlySpan<double> modes)
    {
        double bad = 0, cured = 0;
        for (int m = 0; m < component.Modes.Count; m++)
        {
            bad += modes[m];
            cured += modes[m] * component.Modes[m].CuredBy.GetValueOrDefault(action, action == "replace" ? 1 : 0);
        }

        return bad > 0 ? cured / bad : action == "replace" ? 1 : 0;
    }
}
