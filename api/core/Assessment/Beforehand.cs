using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>What comes before something else, whatever it saves (MODEL.md 8): the check that failed is repeated after a repair, a part is
/// looked at before it is worked on, and a look or a measurement comes before a trial that takes no less.</summary>
internal sealed class Beforehand(
    Situation situation, Ranking ranking, Investigation investigation, Costs costs, IReadOnlyList<CheckAdvice> priced)
{
    /// <summary>A part as bad as this needs no look before work on it; a part that is to be bought needs one until it is as good as proved: what
    /// the file does not know may still be the cause.</summary>
    private const double Proved = 0.9, ProvedToBuy = 0.98;

    /// <summary>A look of so many minutes is always asked for; a longer one if it takes at most this share of a part's exchange or, up to half an
    /// hour, of what that costs, or no longer than adjusting.</summary>
    private const double FewMinutes = 10, OfExchange = 1.0 / 3, OfCost = 1.0 / 5, Longest = 30;

    /// <summary>The few minutes of a look and of a trial are the same if it saves at least half as much in each.</summary>
    private const double Alike = 0.5;

    /// <summary>Checks made and components looked at in this round.</summary>
    private readonly HashSet<string> _made = [.. investigation.ThisRound.Select(f => f.Check ?? f.Component).OfType<string>()];

    /// <summary>The step with the look that comes before it.</summary>
    public PlannedRepair WithLook(PlannedRepair step)
    {
        bool buys = step.Action is not ("clean" or "adjust");
        double minutes = buys ? Math.Max(step.Minutes * OfExchange, Math.Min(Longest, step.Cost * OfCost / costs.RatePerMinute)) : step.Minutes;
        return buys && step.Parts == 0 ? step : step with { LookFirst = (Look(step.Component, minutes, buys ? ProvedToBuy : Proved) ?? StandIn(step, minutes))?.Check };
    }

    /// <summary>The proposals in their order: repeats, then what pays, looks before what they are to come before.</summary>
    public IReadOnlyList<CheckAdvice> Ordered(RepairOrder plan)
    {
        List<CheckAdvice> all = [.. priced];

        // 1. no first step of the plan without its look
        if (plan.Steps is [PlannedRepair { LookFirst: string look } first, ..])
        {
            Put(all, all.FindIndex(c => c.Check == look), first.Component, all.FindLastIndex(c => c.Pays) + 1);
        }

        // 2. no trial before the look at its part, nor before one of the same few minutes
        if (all is [{ Trial: true, Pays: true } trial, ..])
        {
            BeforeTrial(all, trial);
        }

        // 3. the check that failed shows whether the repair helped
        return [.. Repeats(all), .. all];
    }

    private void BeforeTrial(List<CheckAdvice> all, CheckAdvice trial)
    {
        Trial source = situation.Index.Model.Trials.First(t => t.Id == trial.Check);
        if (source.Kind is TrialKind.Bypassed or TrialKind.ExtraFuel)
        {
            return;                                          // nothing of the car is taken apart for it
        }

        if (source.Component is string component && Look(component, trial.Minutes, Proved) is CheckAdvice look)
        {
            Put(all, all.FindIndex(c => c.Check == look.Check), component, 0);
            return;
        }

        int same = all.FindIndex(c => c is { Trial: false, Pays: true } && c.Minutes <= Math.Max(FewMinutes, trial.Minutes)
            && Hazard(c) <= Hazard(source.Hazard) && c.SavingPerMinute >= Alike * trial.SavingPerMinute);
        if (same > 0)
        {
            Put(all, same, null, 0);
        }
    }

    /// <summary>Moves a proposal up to a place, where it is not there yet, and lets it pay.</summary>
    private static void Put(List<CheckAdvice> all, int at, string? before, int place)
    {
        CheckAdvice moved = all[at];
        all.RemoveAt(at);
        all.Insert(Math.Min(place, at), moved with { Pays = true, Before = before ?? moved.Before });
    }

    /// <summary>The check of few minutes that shows best whether a part is bad; null: none, one was made in this round, or the part is proved.</summary>
    private CheckAdvice? Look(string component, double minutes, double proved)
    {
        PartIndex part = situation.Index.Parts[situation.Index.Part(component)];
        return Settled(part, proved) ? null : priced.Where(c => !c.Trial && c.ToolsAtHand && c.Minutes <= Math.Max(FewMinutes, minutes) && Hazard(c) < CommonWords.Hazards.Count - 1)
            .Where(c => Shows(c.Check, part) >= ShownModes.HalfOfIt)
            .OrderByDescending(c => Shows(c.Check, part)).ThenBy(c => c.Minutes).FirstOrDefault();
    }

    /// <summary>Of a part that no look shows: a sound one in its place for a try, where that costs little beside buying one.</summary>
    private CheckAdvice? StandIn(PlannedRepair step, double minutes)
    {
        PartIndex part = situation.Index.Parts[situation.Index.Part(step.Component)];
        Trial? trial = situation.Index.Model.Trials.FirstOrDefault(t => t.Kind == TrialKind.Another && t.Component == step.Component);
        bool tried = investigation.ThisRound.Any(f => f.Trial is { Kind: TrialKind.Another } made && (made.Component == step.Component || made.Trial == trial?.Id));
        return trial is null || tried || Settled(part, ProvedToBuy) ? null
            : priced.FirstOrDefault(c => c.Check == trial.Id && c.ToolsAtHand && c.Minutes <= Math.Max(FewMinutes, minutes) && c.Cost <= OfExchange * step.Cost);
    }

    /// <summary>The part is as bad as that, or was looked at in this round, itself or by a check that shows it.</summary>
    private bool Settled(PartIndex part, double proved) =>
        ranking.Bad(part.Index) >= proved || _made.Contains(part.Id) || _made.Any(c => Shows(c, part) >= ShownModes.HalfOfIt);

    private double Shows(string check, PartIndex part) =>
        part.Id == ModelIndex.Elsewhere ? 0 : situation.Index.Shown.Share(check, part.Source, ranking.States[part.Index][1..]);

    /// <summary>Taken off the list: checks that failed before the last repair, that hang on what was repaired, and that were not made since.</summary>
    private List<CheckAdvice> Repeats(List<CheckAdvice> all)
    {
        if (investigation.Stretches == 1)
        {
            return [];
        }

        WorkFact[] work = investigation.Repairs[^1];
        PartIndex[] repaired = [.. situation.Index.Parts.Where(p => work.Any(w => RecordEntry.Covers(situation.Index.Model, w, p.Source)))];
        var repeats = new List<(double Right, CheckAdvice Check)>();
        foreach ((Item item, int i) in ranking.Items.Select((item, i) => (item, i))
            .Where(x => x.item.Kind == ItemKind.Check && x.item.World < investigation.Stretches - 1))
        {
            int at = all.FindIndex(c => c.Check == item.Name && c.ToolsAtHand);
            double right = ranking.Relieved(i, Repair.Nothing);
            if (at >= 0 && repaired.Any(p => item.Reach[p.Index]))
            {
                repeats.Add((right, Again(all[at], item.Findings[^1])));
                all.RemoveAt(at);
            }
        }

        return [.. repeats.OrderByDescending(r => r.Right).Select(r => r.Check)];
    }

    /// <summary>The minutes of the test that belongs to a repair are paid with it.</summary>
    private CheckAdvice Again(CheckAdvice check, string finding)
    {
        double paid = Math.Min(check.Minutes, costs.RetestMinutes) * costs.RatePerMinute;
        return check with { Pays = true, Repeats = finding, Cost = check.Cost - paid, Saving = check.Saving + paid };
    }

    private int Hazard(CheckAdvice check) => Hazard(situation.Index.Check(check.Check).Source.Hazard);

    private static int Hazard(string named) => CommonWords.Hazards.TakeWhile(h => h != named).Count();
}
