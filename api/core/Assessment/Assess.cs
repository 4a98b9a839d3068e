using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>A fault model checked and turned into indexes once; safe to share between threads. It keeps compiled networks by shape.</summary>
/// <param name="mostEntries">Bound on the table entries of one network; beyond it stretches are folded or events left out.</param>
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

/// <summary>The one entry: record, complaint and day in, ranking or advice out. Changes nothing, reads no clock.</summary>
public static class Assess
{
    private const int PlanDepth = 4;

    /// <summary>What is most likely now, and why.</summary>
    /// <exception cref="OperationCanceledException">Who asked has gone.</exception>
    public static AssessmentResult Run(CompiledModel model, AssessmentInput input, CancellationToken stop = default) => Within(model, input, Answer, stop);

    /// <summary>Which check or trial pays next, and the repairs in the order that costs least.</summary>
    public static AssessmentResult Advise(CompiledModel model, AssessmentInput input, CancellationToken stop = default) => Advise(model, input, AdviceRules.Usual, stop);

    /// <param name="rules">Other ones are for comparing what they cost.</param>
    internal static AssessmentResult Advise(CompiledModel model, AssessmentInput input, AdviceRules rules, CancellationToken stop = default) =>
        Within(model, input, (i, prepared, situation, ranking, parts, dropped) => Advice(i, prepared, situation, ranking, parts, dropped, rules), stop);

    private delegate AssessmentResult Question(AssessmentInput input, Prepared prepared, Situation situation, Ranking ranking, int[] parts, IReadOnlyList<string> dropped);

    private static AssessmentResult Within(CompiledModel model, AssessmentInput input, Question question, CancellationToken stop)
    {
        // 1. what earlier complaints left behind; stretches, priors and evidence
        input = input with { Car = CarryOver.Of(model, input, stop) };
        Prepared prepared = Prepared.Of(model, input, stop);

        // 2. as it is, or made smaller step by step until it fits the bound
        return Folding.Within<AssessmentResult>(prepared.Situation, (situation, dropped) => Ranking.Of(situation) is Ranking ranking
            ? question(input, prepared, situation, ranking, Ranked(situation, ranking, input.Car.Absent), dropped)
            : new Contradiction(Contradictions.Smallest(situation))) ?? new TooLarge(model.MostEntries);
    }

    private static int[] Ranked(Situation situation, Ranking ranking, IReadOnlySet<string> absent)
    {
        ranking.Prepare();
        return [.. situation.Index.Parts.Where(p => !p.Source.Instrument && !absent.Contains(p.Id)).Select(p => p.Index)
            .OrderByDescending(ranking.Explains).ThenByDescending(ranking.Bad).ThenBy(p => p)];
    }

    private static Answered Answer(AssessmentInput input, Prepared prepared, Situation situation, Ranking ranking, int[] parts, IReadOnlyList<string> dropped)
    {
        (Investigation investigation, LifePrior life, EvidenceList evidence, _) = prepared;
        Account account = Account.Within(situation, ranking, investigation, life, parts);
        double everything = ranking.Share(Repair.All), already = ranking.Share(Repair.Nothing);
        RankedFault[] ranked = [.. parts.Select(p => Fault(situation, ranking, investigation, p, account.Why[p], account.Sequence[p]))];
        return new Answered
        {
            Ranking = ranked,
            Items = [.. situation.Items.Select((item, i) => new RankedItem(item.Kind, item.Name, item.Title, item.Findings, item.Weight, ranking.Relieved(i, Repair.Nothing)))],
            Resolved = ranking.Resolved,
            NoneOfThese = 1 - everything,
            MoreThanOne = Math.Max(0, everything - already - parts.Sum(ranking.Explains)),
            LogEvidence = ranking.LogWeight,
            AllHealthy = AllHealthy.Of(situation, ranking.LogWeight),
            Stretches = investigation.Stretches,
            Exact = prepared.Exact(ranking, dropped),
            LeftOut = [.. prepared.LeftOut, .. dropped],
            Misfits = account.Misfits,
            Flip = account.Flip,
            SetAside = SetAsides.Of(situation, ranking.LogWeight),
            Asks = [.. evidence.Asks.Distinct()],
            Notes = [.. evidence.Notes.Concat(dropped.Count + prepared.LeftOut.Count > 0 ? [Folding.Note] : []).Concat(ranking.Approximate ? [Focus.Note] : []).Distinct()],
        };
    }

    private static AdviceAnswered Advice(
        AssessmentInput input, Prepared prepared, Situation situation, Ranking ranking, int[] parts, IReadOnlyList<string> dropped, AdviceRules rules)
    {
        var open = Proposable.Of(situation.Index, input);
        var costs = new Costs(situation.Index.Model, input.RatePerMinute, open.Forbidden);
        var suspects = Suspects.Of(situation, ranking, costs, parts, rules.Bundles);
        IReadOnlyList<CheckAdvice> checks = CheckAdvisor.Advise(situation, suspects, prepared.Evidence, prepared.Investigation, costs, open, rules);
        RepairOrder plan = Plan(situation, ranking, costs, suspects);
        if (rules.Beforehand)
        {
            var first = new Beforehand(situation, ranking, prepared.Investigation, costs, checks);
            plan = plan with { Steps = [.. plan.Steps.Select(first.WithLook)] };
            checks = first.Ordered(plan);
        }

        return new AdviceAnswered
        {
            NextChecks = checks,
            Plan = plan with { CheckFirst = checks.Any(c => c.Pays) },
            Resolved = ranking.Resolved,
            Exact = prepared.Exact(ranking, dropped),
        };
    }

    private static RepairOrder Plan(Situation situation, Ranking ranking, Costs costs, Suspects suspects)
    {
        Planned plan = RepairPlanner.WithBundles(suspects.Options, costs.Specialist, PlanDepth, set => ranking.Both(new Repair(false, set)));
        return new RepairOrder(
            [.. plan.Order.Select((o, i) => new PlannedRepair(
                situation.Index.Parts[o.Part].Id, o.Action, o.Minutes, o.Parts, o.Cost, o.Success, plan.After[i].All, plan.After[i].Share)
            {
                With = [.. o.With.Select(w => new PlannedWork(situation.Index.Parts[w.Part].Id, w.Action))],
            })],
            plan.Cost,
            RepairPlanner.Spread(ranking.Both(Repair.Nothing), plan, costs.Specialist),
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
            ranking.Explains(part),
            ranking.FixesAlone(part),
            1 - situation.Worlds.Priors[part][0],
            [.. source.Modes.Select((m, i) => new RankedState(m.Id, m.Title, states[i + 1])).OrderByDescending(m => m.Probability)],
            why,
            sequence,
            source.Modes[leading].CausedBy,
            PartHistory.Of(situation.Index.Model, source, investigation))
        { Relieves = [.. situation.Items.Select((_, i) => ranking.Explains(part, i))], Rough = ranking.ByRise(part) };
    }
}
