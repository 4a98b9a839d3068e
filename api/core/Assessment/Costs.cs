using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>A piece of work on a part that may put it right.</summary>
/// <param name="Success">Probability that it does if the part is bad, 0..1.</param>
/// <param name="Cost">Parts, minutes and the test repeated afterwards, in the fault model's currency.</param>
internal sealed record RepairOption(int Part, string Action, double Minutes, double Parts, double Cost, double Success)
{
    /// <summary>Work on other parts in the same labour; minutes, parts and cost above are of all of it.</summary>
    public IReadOnlyList<RepairOption> With { get; init; } = [];

    /// <summary>Itself and what goes with it.</summary>
    public IEnumerable<RepairOption> Pieces => With.Prepend(this);
}

/// <summary>What repairs, checks and the specialist cost (MODEL.md 8), in the fault model's currency.</summary>
/// <param name="forbidden">Tags of work that a stop note forbids now.</param>
internal sealed class Costs(FaultModel model, double? ratePerMinute, IReadOnlySet<string>? forbidden = null)
{
    public double RatePerMinute { get; } = ratePerMinute ?? model.Advice.RatePerMinute;

    public double Specialist { get; } = model.Advice.NoneCost;

    /// <summary>What can be done to a part; where there is no work for it, it is handed over.</summary>
    /// <param name="modes">P(mode) now: what the work has to deal with.</param>
    /// <param name="copy">The part as it is on the car: what was tried on it already.</param>
    public RepairOption[] Of(PartIndex part, ReadOnlySpan<double> modes, PartCopy copy)
    {
        var options = new List<RepairOption>();
        foreach (WorkFigures work in part.Source.Work.Where(w => forbidden is null || !w.Involves.Any(forbidden.Contains)))
        {
            double success = Success(part.Source, work.Action, modes, copy);
            if (success > 0)
            {
                options.Add(new RepairOption(part.Index, work.Action, work.Minutes, work.Parts, work.Parts + ((work.Minutes + RetestMinutes) * RatePerMinute), success));
            }
        }

        return options.Count > 0 ? [.. options] : [new RepairOption(part.Index, "hand over", 0, 0, Specialist, 1)];
    }

    /// <summary>Parts that go bad together, put right in one labour: the longest of the works, all the parts, one test afterwards (MODEL.md 8).</summary>
    /// <param name="works">Of each part what can be done, the leading part first.</param>
    public RepairOption Together(IReadOnlyList<RepairOption[]> works)
    {
        RepairOption[] chosen = [.. works.Select(w => w.MinBy(o => o.Cost / o.Success)!)];
        double minutes = chosen.Max(o => o.Minutes), parts = chosen.Sum(o => o.Parts);
        return chosen[0] with { Minutes = minutes, Parts = parts, Cost = parts + ((minutes + RetestMinutes) * RatePerMinute), With = chosen[1..] };
    }

    /// <summary>The test that a repair's price holds already is not paid twice.</summary>
    public double RetestMinutes => model.Advice.RetestMinutes;

    private static double Success(Component component, string action, ReadOnlySpan<double> modes, PartCopy copy)
    {
        double bad = 0, cured = 0;
        for (int m = 0; m < component.Modes.Count; m++)
        {
            bad += modes[m];
            cured += modes[m] * copy.Success(component, action, m);
        }

        return bad > 0 ? cured / bad : action == "replace" ? 1 : 0;
    }
}
