using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>Ways to search: by the advice, by a fixed order of parts, by a fixed chart of checks.</summary>
internal static class Rules
{
    private const int MostSteps = 25;

    /// <summary>Follows the advice: the check that pays, else the first repair of the plan, else the specialist.</summary>
    public static Outcome ByAdvice(this Search search, CompiledModel model, AdviceRules rules)
    {
        search.AskEvents();
        for (int step = 0; step < MostSteps && Assess.Advise(model, search.Input, rules) is AdviceAnswered answer; step++)
        {
            // what a trial of conditions would do cannot be drawn here
            if (answer.NextChecks.FirstOrDefault(c => c.Pays && (!c.Trial || model.Source.Trials.Single(t => t.Id == c.Check).Component is not null)) is CheckAdvice check)
            {
                if (check.Trial)
                {
                    search.Try(model.Source.Trials.Single(t => t.Id == check.Check), check.Cost, check.Minutes);
                    continue;
                }

                search.Make(model.Source.Checks.Single(c => c.Id == check.Check), check.Cost, check.Minutes);
            }
            else if (answer.Plan.Steps is [PlannedRepair repair, ..] && repair.Component != ModelIndex.Elsewhere)
            {
                search.PutRight(repair.Component, repair.Action, repair.Cost, repair.Minutes);
                foreach (PlannedWork with in repair.With)
                {
                    search.PutRight(with.Component, with.Action);
                }

                if (search.Gone)
                {
                    return search.End();
                }

                search.AskEvents();
            }
            else
            {
                break;
            }
        }

        return search.End();
    }

    /// <summary>Puts one part after the other right, in a fixed order, until the complaint is gone: what it comes to if handed over after
    /// each.</summary>
    public static IEnumerable<Outcome> ByOrder(this Search search, IEnumerable<(string Component, RepairOption Work)> order)
    {
        foreach ((string component, RepairOption work) in order)
        {
            search.PutRight(component, work.Action, work.Cost, work.Minutes);
            yield return search.End();
            if (search.Gone)
            {
                yield break;
            }
        }
    }

    /// <summary>The fixed chart: each abnormal outcome's part is put right at once; at its end the specialist.</summary>
    public static Outcome ByFlowChart(this Search search, FaultModel model, Func<string, RepairOption> price)
    {
        var setups = new HashSet<string>();
        foreach ((Check check, Func<string, string?> points) in FlowChart.Of(model))
        {
            double minutes = check.Minutes + (check.Setup is not null && setups.Add(check.Setup) ? check.SetupMinutes : 0);
            Observation seen = search.Make(check, minutes * model.Advice.RatePerMinute, minutes);
            if (points(FlowChart.Word(check, seen)) is string component)
            {
                RepairOption work = price(component);
                search.PutRight(component, work.Action, work.Cost, work.Minutes);
                if (search.Gone)
                {
                    return search.End();
                }
            }
        }

        return search.End();
    }
}
