using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>What comes before something else, whatever it saves (MODEL.md 8): the check that failed is repeated after a repair, a part is
/// looked at before it is worked on, and a look or a measurement comes before a trial that takes no less.</summary>
internal sealed class Beforehand(
    Situation situation, Ranking ranking, Investigation investigation, Costs costs, IReadOnlyList<CheckAdvice> priced)
{
    /// <summary>A part that explains so much comes first with its look: who is that sure measures there.</summary>
    private const double Leads = 0.4;

    /// <summary>A look of so many minutes is always asked for; a longer one if it takes at most this share of a part's exchange or, up to an hour and a half,
    /// of what that costs (or half of what is wasted on a sound part), or no longer than adjusting.</summary>
    private const double FewMinutes = 10, OfExchange = 1.0 / 3, OfCost = 1.0 / 5, Longest = 90;

    /// <summary>The few minutes of a look and of a trial are the same if it saves at least half as much in each.</summary>
    private const double Alike = 0.5;

    /// <summary>Checks made and components looked at in this round.</summary>
    private readonly HashSet<string> _made = [.. investigation.ThisRound.Select(f => f.Check ?? f.Component).OfType<string>()];

    /// <summary>Parts that explain most: a check that shows several of them proves none.</summary>
    private readonly PartIndex[] _suspects = [.. Suspects.Leading(ranking, situation.Index.Parts.Where(p => !p.Source.Instrument && p.Id != ModelIndex.Elsewhere)
        .Select(p => p.Index).OrderByDescending(ranking.Explains)).Select(p => situation.Index.Parts[p])];

    /// <summary>The step with the look that comes before it, or else the trial with a sound part in its place.</summary>
    public PlannedRepair WithLook(PlannedRepair step)
    {
        bool buys = step.Action is not ("clean" or "adjust");
        double bad = ranking.Bad(situation.Index.Part(step.Component)), wasted = Math.Max(OfCost, (1 - bad) / 2) * step.Cost / costs.RatePerMinute;
        double minutes = buys ? Math.Max(step.Minutes * OfExchange, Math.Min(Longest, wasted)) : step.Minutes;
        return buys && step.Parts == 0 ? step : step with { LookFirst = (Look(step.Component, minutes, buys) ?? StandIn(step))?.Check };
    }

    /// <summary>The look at the part that explains most, where the work is to be left to a specialist.</summary>
    private CheckAdvice? BeforeSpecialist(out string component)
    {
        PartIndex leader = situation.Index.Parts.Where(p => !p.Source.Instrument && p.Id != ModelIndex.Elsewhere).MaxBy(p => ranking.Explains(p.Index))!;
        component = leader.Id;
        return ranking.Explains(leader.Index) > 0 ? Look(leader.Id, Math.Min(Longest, costs.Specialist * OfCost / costs.RatePerMinute), true) : null;
    }

    /// <summary>The proposals in their order: repeats, then what pays, looks before what they are to come before.</summary>
    public IReadOnlyList<CheckAdvice> Ordered(RepairOrder plan)
    {
        List<CheckAdvice> all = [.. priced];

        // 1. no first step of the plan without its look, and no specialist without that at the leader
        if (plan.Steps is [PlannedRepair { LookFirst: string look } first, ..])
        {
            Put(all, all.FindIndex(c => c.Check == look), first.Component, PlaceOf(all, first.Component, plan));
        }
        else if (plan.Steps.Count == 0 && BeforeSpecialist(out string leader) is CheckAdvice seen)
        {
            Put(all, all.FindIndex(c => c.Check == seen.Check), leader, PlaceOf(all, leader, plan));
        }

        // 2. no trial before the look at its part, nor before one of the same few minutes
        if (all is [{ Trial: true, Pays: true } trial, ..])
        {
            BeforeTrial(all, trial);
        }

        // 3. the check that failed shows whether the repair helped
        return [.. Repeats(all), .. all];
    }

    /// <summary>In front where the part explains much; else behind what is worth its cost by itself, before looks that save next to nothing.</summary>
    private int PlaceOf(List<CheckAdvice> all, string component, RepairOrder plan) =>
        ranking.Explains(situation.Index.Part(component)) >= Leads ? 0 : all.FindLastIndex(c => c.Pays && c.Saving >= CheckAdvisor.WorthWhile * plan.ExpectedCost) + 1;

    private void BeforeTrial(List<CheckAdvice> all, CheckAdvice trial)
    {
        Trial source = situation.Index.Model.Trials.First(t => t.Id == trial.Check);
        if (source.Kind is TrialKind.Bypassed or TrialKind.ExtraFuel)
        {
            return;                                          // nothing of the car is taken apart for it
        }

        if (source.Component is string component && Look(component, trial.Minutes, false) is CheckAdvice look)
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

    /// <summary>The check of few minutes that shows best whether a part is bad; null: none, or one was made in this round. However likely the part is
    /// by what was told, that is no proof: what the file does not know may still be the cause.</summary>
    /// <param name="dear">It is to be bought, or left to a specialist: a hazardous measurement is worth it.</param>
    private CheckAdvice? Look(string component, double minutes, bool dear)
    {
        PartIndex part = situation.Index.Parts[situation.Index.Part(component)];
        return Settled(part) ? null : priced.Where(c => !c.Trial && c.ToolsAtHand && c.Minutes <= Math.Max(FewMinutes, minutes) && (dear || Hazard(c) < CommonWords.Hazards.Count - 1))
            .Where(c => Shows(c.Check, part) >= ShownModes.HalfOfIt)
            .OrderBy(c => c.Minutes * (1 + OthersShown(c.Check, part))).ThenByDescending(c => Shows(c.Check, part)).FirstOrDefault();
    }

    /// <summary>Other suspects that the check shows as well.</summary>
    private int OthersShown(string check, PartIndex part) => _suspects.Count(p => p != part && Shows(check, p) >= ShownModes.HalfOfIt);

    /// <summary>Of a part that no look shows any more: a sound one in its place for a try, or a way past it, where that costs little beside the work and
    /// no more than the part itself.</summary>
    private CheckAdvice? StandIn(PlannedRepair step)
    {
        Trial[] trials = [.. situation.Index.Model.Trials.Where(t => t.Kind is TrialKind.Another or TrialKind.Bypassed && t.Component == step.Component)];
        bool tried = _made.Contains(step.Component) || investigation.ThisRound.Any(f => f.Trial is TrialFact made
            && (made.Component == step.Component || trials.Any(t => t.Id == made.Trial)));
        return tried ? null : priced.Where(c => c.ToolsAtHand && trials.Any(t => t.Id == c.Check)
            && c.Minutes <= Math.Max(FewMinutes, step.Minutes) && c.Cost <= OfExchange * step.Cost && (step.Parts == 0 || c.Cost <= step.Parts)).MinBy(c => c.Cost);
    }

    /// <summary>The part was looked at in this round, itself or by a check that shows it and no other suspect.</summary>
    private bool Settled(PartIndex part) => _made.Contains(part.Id) || _made.Any(c => Shows(c, part) >= ShownModes.HalfOfIt
        && (situation.Index.Check(c).Source.SeesPart || OthersShown(c, part) == 0));

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
