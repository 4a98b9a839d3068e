using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>A fault model checked and turned into indexes once; safe to share between threads. It keeps compiled networks by shape.</summary>
/// <param name="mostEntries">Bound on the table entries of one network; beyond it stretches are folded or symptoms left out.</param>
public sealed class CompiledModel(FaultModel source, long mostEntries = CompiledModel.Bound)
{
    /// <summary>Some 30 MB of tables.</summary>
    public const long Bound = 4_000_000;

    public FaultModel Source { get; } = source;

    internal ModelIndex Index { get; } = new(source);

    /// <summary>The bound, in table entries.</summary>
    public long MostEntries { get; } = mostEntries;

    internal NetworkCaches Networks { get; } = new(new TreeCache(mostEntries), new TableCache());

    internal LeakTables Leaks { get; } = new();

    internal LifePriors Lives { get; } = new(source);
}

/// <summary>The one entry: record, complaint and day in, ranking and advice out. Changes nothing, reads no clock.</summary>
public static class Assess
{
    /// <summary>How many leaders are considered for repair: those with the largest P(bad) that the complaint hangs on.</summary>
    private const int Candidates = 8;

    /// <summary>A part whose repair gains less than this takes no place among them.</summary>
    private const double Gains = 0.005;

    private const int PlanDepth = 4;

    public static AssessmentResult Run(CompiledModel model, AssessmentInput input)
    {
        // 1. what earlier complaints left behind; stretches, priors and evidence
        input = input with { Car = CarryOver.Of(model, input) };
        Prepared prepared = Prepared.Of(model, input);

        // 2. as it is, or made smaller step by step until it fits the bound
        return Folding.Within(prepared.Situation, (smaller, dropped) => Answer(model, input, prepared, smaller, dropped))
            ?? new TooLarge(model.MostEntries);
    }

    /// <param name="situation">That of <paramref name="prepared"/>, or what was left of it to fit the bound.</param>
    private static AssessmentResult Answer(CompiledModel model, AssessmentInput input, Prepared prepared, Situation situation, IReadOnlyList<string> dropped)
    {
        (Investigation investigation, LifePrior life, EvidenceList evidence, _) = prepared;
        // 3. what is bad, and what would cure
        ModelIndex index = model.Index;
        if (Ranking.Of(situation) is not Ranking ranking)
        {
            return new Contradiction(Contradictions.Smallest(situation));
        }

        int[] parts = [.. index.Parts.Where(p => !p.Source.Instrument).Select(p => p.Index)
            .OrderByDescending(ranking.Cure).ThenByDescending(ranking.Bad).ThenBy(p => p)];
        int[] candidates = [.. parts.Where(p => ranking.Cure(p) > Gains).OrderByDescending(ranking.Bad).ThenBy(p => p).Take(Candidates)];

        // 4. what to do, and why
        var costs = new Costs(model.Source, input.RatePerMinute);
        RepairOrder plan = Plan(situation, ranking, costs, candidates);
        IReadOnlyList<CheckAdvice> checks = [];
        Account? account = null;
        Each.Both(
            () => checks = [.. CheckAdvisor.Advise(situation, ranking, evidence, investigation, costs, candidates)
                .OrderByDescending(c => c.Pays).ThenByDescending(c => c.Saving / Math.Max(1, c.Minutes))],
            () => account = Account.Of(situation, ranking, investigation, life, parts));
        double gone = ranking.Gone(Repair.All);
        return new Answered
        {
            Ranking = [.. parts.Select(p => Fault(situation, ranking, investigation, p, account!.Why[p], account.Sequence[p]))],
            Gone = ranking.Already,
            NoneOfThese = 1 - gone,
            MoreThanOne = Math.Max(0, gone - ranking.Already - parts.Sum(ranking.Cure)),
            LogEvidence = ranking.LogWeight,
            AllHealthy = AllHealthy.Of(situation, ranking.LogWeight),
            Stretches = investigation.Stretches,
            Exact = dropped.Count == 0,
            LeftOut = dropped,
            NextChecks = checks,
            Plan = plan with { CheckFirst = checks.Any(c => c.Pays) },
            Misfits = account!.Misfits,
            Flip = account.Flip,
            SetAside = SetAsides.Of(situation, ranking.LogWeight),
            Asks = [.. evidence.Asks.Distinct()],
            Notes = [.. evidence.Notes.Distinct()],
        };
    }

    private static RepairOrder Plan(Situation situation, Ranking ranking, Costs costs, int[] candidates)
    {
        RepairOption[] options = [.. candidates.SelectMany(p => costs.Of(situation.Index.Parts[p], ranking.States[p].AsSpan(1), situation.Worlds.Now[p]))];
        (RepairOption[] order, double[] gone, double cost) = RepairPlanner.Plan(options, costs.Specialist, PlanDepth, set => ranking.Gone(new Repair(false, set)));
        double spread = RepairPlanner.Spread(ranking.Already, [.. order.Select(o => o.Cost)], gone, costs.Specialist);
        return new RepairOrder(
            [.. order.Select((o, i) => new PlannedRepair(situation.Index.Parts[o.Part].Id, o.Action, o.Minutes, o.Parts, o.Cost, o.Success, gone[i]))],
            cost,
            spread,
            costs.Specialist,
            false);
    }

    private static RankedFault Fault(Situation situation, Ranking ranking, Investigation investigation, int part, WhyFactor[] why, SequenceStep[] sequence)
    {
        Component source = situation.Index.Parts[part].Source;
        double[] states = ranking.States[part];
        int leading = Enumerable.Range(0, source.Modes.Count).MaxBy(m => states[m + 1]);
        return new RankedFault(
            source.Id,
            source.Title,
            ranking.Bad(part),
            ranking.Cure(part),
            1 - situation.Worlds.Priors[part][0],
            [.. source.Modes.Select((m, i) => new RankedState(m.Id, m.Title, states[i + 1])).OrderByDescending(m => m.Probability)],
            why,
            sequence,
            source.Modes[leading].CausedBy,
            PartHistory.Of(situation.Index.Model, source, investigation));
    }
}
