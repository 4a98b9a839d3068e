using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>A component that may be repaired, and what putting it right would do.</summary>
/// <param name="Part">-1: nothing is done (what is right already).</param>
/// <param name="Share">Of the items relieved by it, that of nothing included.</param>
/// <param name="All">P(all items right with it).</param>
/// <param name="Relief">The event that stands for it when outcomes are foreseen: its repair relieves the item that it explains most of.</param>
/// <param name="Situation">Where that is asked.</param>
internal sealed record Suspect(int Part, double Share, double All, Relief Relief, Situation Situation);

/// <summary>What a check may show: its cells today, and under each suspect.</summary>
internal sealed record Prospect(double[] Plain, double[][] Under)
{
    /// <summary>Cells of one outcome taken together.</summary>
    public Prospect By(int[] outcomeOf)
    {
        int[] outcomes = [.. outcomeOf.Distinct()];
        double[] Merged(double[] cells) => [.. outcomes.Select(o => cells.Where((_, c) => outcomeOf[c] == o).Sum())];
        return new Prospect(Merged(Plain), [.. Under.Select(Merged)]);
    }
}

/// <summary>The leading components, their repairs, and what outcomes would make of them (MODEL.md 8).</summary>
internal sealed class Suspects
{
    /// <summary>What is less likely than this is not looked at.</summary>
    public const double Never = 1e-12;

    /// <summary>A part that explains less than this takes no place among them.</summary>
    private const double Explaining = 0.005;

    private const int Most = 8, Depth = 2;

    private readonly RepairOption[] _options;
    private readonly double _specialist;

    /// <summary>P(mode) of each suspect now.</summary>
    private readonly double[][] _states;

    /// <summary>Weights of the suspects as the one fault each; the last one is that of a car with nothing wrong.</summary>
    private readonly Lazy<double[]> _alone;

    private Suspects(Suspect[] all, double[][] states, RepairOption[] options, double specialist)
    {
        (All, _states, _options, _specialist) = (all, states, options, specialist);
        Now = Plan(null, -1);
        _alone = new(() =>
        {
            double[] weights = Weights();
            weights[^1] += Math.Max(0, 1 - weights.Sum());
            return weights;
        });
    }

    /// <summary>The last one stands for nothing done.</summary>
    public Suspect[] All { get; }

    public RepairOption[] Options => _options;

    /// <summary>The plan that outcomes are compared with; the same approximation as after an outcome.</summary>
    public Planned Now { get; }

    /// <param name="parts">Ranked parts, the leader first.</param>
    /// <param name="bundles">Parts that go bad together are offered in one labour, too.</param>
    public static Suspects Of(Situation situation, Ranking ranking, Costs costs, int[] parts, bool bundles = true)
    {
        int[] chosen = Leading(ranking, parts);
        double already = ranking.Share(Repair.Nothing);
        Suspect[] all = [
            .. Each.Of(chosen, p => Standing(situation, ranking, p, already + ranking.Explains(p), new Repair(false, p), i => ranking.Explains(p, i))),
            Standing(situation, ranking, -1, already, Repair.Nothing, i => ranking.Relieved(i, Repair.Nothing))];
        RepairOption[][] works = [.. chosen.Select(p => Works(situation, ranking, costs, p))];
        IEnumerable<int[]> together = bundles ? Bundles(situation, chosen) : [];
        return new Suspects(all, [.. chosen.Select(p => ranking.States[p][1..]), []], [.. works.SelectMany(w => w), .. together.Select(b => costs.Together([.. b.Select(p => works[Array.IndexOf(chosen, p)])]))], costs.Specialist);
    }

    /// <summary>The parts that explain most, as many as are looked at.</summary>
    /// <param name="ranked">The leader first.</param>
    public static int[] Leading(Ranking ranking, IEnumerable<int> ranked) => [.. ranked.Where(p => ranking.Explains(p) > Explaining).Take(Most)];

    private static RepairOption[] Works(Situation situation, Ranking ranking, Costs costs, int part) =>
        costs.Of(situation.Index.Parts[part], ranking.States[part].AsSpan(1), situation.Worlds.Now[part]);

    /// <summary>Suspects that go bad together and can be worked on; the one that explains most first.</summary>
    private static IEnumerable<int[]> Bundles(Situation situation, int[] chosen)
    {
        PartIndex[] parts = situation.Index.Parts;
        return chosen.SelectMany(p => parts[p].Source.Modes.Where(m => m.Together.Count > 0).Select(m => m.Together.Append(parts[p].Id)))
            .Concat(parts.Where(p => !chosen.Contains(p.Index)).SelectMany(p => p.Source.Modes.Where(m => m.Together.Count > 0).Select(m => m.Together)))
            .Select(ids => chosen.Where(p => ids.Contains(parts[p].Id) && parts[p].Source.Work.Count > 0).ToArray())
            .Where(b => b.Length > 1).DistinctBy(b => string.Join(',', b));
    }

    /// <summary>The repair with the item that it relieves most of.</summary>
    private static Suspect Standing(Situation situation, Ranking ranking, int part, double share, Repair repair, Func<int, double> relieves)
    {
        int[] most = [.. Enumerable.Range(0, ranking.Items.Count).OrderByDescending(i => ranking.Items[i].Weight * relieves(i)).Take(1)];
        var relief = new Relief(repair, [.. most.Select(i => ranking.Items[i])]);
        return new Suspect(part, share, ranking.All(repair), relief, most.Length == 0 || share <= 0 ? situation : ranking.SituationOf(most[0], repair));
    }

    /// <summary>Expected cost saved by knowing the outcome, the check's own cost not taken off.</summary>
    public double Saving(Prospect prospect) =>
        Now.Cost - Enumerable.Range(0, prospect.Plain.Length).Where(c => prospect.Plain[c] >= Never).Sum(c => prospect.Plain[c] * Plan(prospect, c).Cost);

    /// <summary>Of each suspect what it explains, at most 1 in all; the last is what is right already.</summary>
    public double[] Weights()
    {
        double[] shares = [.. All.Select((s, i) => Math.Max(0, s.Share - (i < All.Length - 1 ? All[^1].Share : 0)))];
        double most = Math.Max(1, shares.Sum());
        return [.. shares.Select(w => w / most)];
    }

    /// <summary>Expected cost after one cell.</summary>
    public double CostAfter(Prospect prospect, int cell) => Plan(prospect, cell).Cost;

    /// <summary>What a suspect explains after an outcome of probability <paramref name="p"/>, which may be several cells.</summary>
    public double After(Prospect prospect, Suspect suspect, int[] cells, double p)
    {
        double under = cells.Sum(c => prospect.Under[Array.IndexOf(All, suspect)][c]);
        return Math.Clamp((suspect.Share - All[^1].Share) * under / p, 0, 1);
    }

    /// <summary>Information between the outcome and which suspect explains the complaint; what none explains is one more possibility.</summary>
    public double Bits(Prospect prospect)
    {
        double[] before = Shares(s => All[s].Share - (s < All.Length - 1 ? All[^1].Share : 0));
        double bits = 0;
        for (int c = 0; c < prospect.Plain.Length; c++)
        {
            double p = prospect.Plain[c];
            if (p >= Never)
            {
                double[] after = Shares(s => (All[s].Share - (s < All.Length - 1 ? All[^1].Share : 0)) * prospect.Under[s][c] / p);
                bits += p * after.Zip(before, (a, b) => a > 0 && b > 0 ? a * Math.Log2(a / b) : 0).Sum();
            }
        }

        return Math.Max(0, bits);
    }

    /// <summary>The same by the fault model alone: each suspect is the one fault, the rest a car with nothing wrong.</summary>
    public double FileBits(string check, ModelIndex index)
    {
        double[][] rows = [.. All.Select((s, i) => s.Part < 0 ? index.Shown.Sound(check) : index.Shown.Row(check, index.Parts[s.Part].Source, _states[i]))];
        return ModelStudy.Bits(_alone.Value, rows);
    }

    /// <summary>The check shows one of the suspects.</summary>
    public bool Shown(string check, ModelIndex index) =>
        All.Zip(_states).Any(s => s.First.Part >= 0 && index.Shown.Share(check, index.Parts[s.First.Part].Source, s.Second) >= ShownModes.HalfOfIt);

    private double[] Shares(Func<int, double> share)
    {
        double[] shares = [.. Enumerable.Range(0, All.Length).Select(s => Math.Max(0, share(s)))];
        double rest = Math.Max(0, 1 - shares.Sum()), total = shares.Sum() + rest;
        return [.. shares.Append(rest).Select(c => c / total)];
    }

    /// <summary>What several repairs relieve is taken to add up, at most to all of it.</summary>
    private Planned Plan(Prospect? prospect, int cell) => RepairPlanner.Plan(_options, _specialist, Depth, set =>
    {
        double nothing = Scale(All.Length - 1), share = All[^1].Share * nothing, all = All[^1].All * nothing;
        foreach (int part in set)
        {
            int s = Array.FindIndex(All, x => x.Part == part);
            share += (All[s].Share - All[^1].Share) * Scale(s);
            all += (All[s].All - All[^1].All) * Scale(s);
        }

        // with several items, two repairs may end together what neither ends alone
        double both = set.Length > 1 ? Math.Max(all, share - (1 - share)) : all;
        return new Relieved(Math.Clamp(both, 0, 1), Math.Clamp(share, 0, 1));

        double Scale(int s) => prospect is null ? 1 : prospect.Under[s][cell] / prospect.Plain[cell];
    });
}
