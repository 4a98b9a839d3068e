using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>Which single finding, had it come out otherwise, would put another component first (MODEL.md 8). All other outcomes of all findings
/// are looked at by what they would do to P(bad), and the likeliest of those that promise a change are computed in full.</summary>
internal static class Flips
{
    private const int Verified = 3, Challengers = 3;

    /// <summary>An outcome less likely than this, by all other findings, is no small change.</summary>
    private const double Rare = 0.002;

    /// <param name="parts">Ranked parts, the leader first.</param>
    public static Flip? Of(Situation situation, Ranking ranking, Investigation investigation, int[] parts, LeaveOneOut left)
    {
        int[] suspects = [.. parts.Where(p => ranking.Explains(p) > 0).Take(8)];
        if (suspects.Length < 2)
        {
            return null;
        }

        // 1. what each other outcome would do to P(bad); what they explain is taken to move with it
        var promising = Each.Of(situation.Evidence.SelectMany(e => e.Otherwise().Select(o => (Item: e, Other: o))), c =>
        {
            (double p, double[] bad) = Guess(situation, ranking, c.Item, c.Other, left) ?? (0, []);
            double[] guess = p > Rare ? [.. suspects.Select(s => ranking.Explains(s) * bad[s] / ranking.Bad(s))] : [0, 0];
            return (c.Other, Probability: p, Guess: guess);
        }).Where(c => c.Guess.Skip(1).Max() > c.Guess[0]);

        // 2. the likeliest of them in full
        foreach ((Otherwise other, double p, double[] guess) in promising.OrderByDescending(c => c.Probability).Take(Verified))
        {
            Situation then = situation.With(evidence: [.. situation.Evidence.Select(e => e.Findings.Contains(other.Finding) ? other.Instead : e)], items: Left(situation, other));
            int[] looked = [suspects[0], .. Enumerable.Range(1, suspects.Length - 1).OrderByDescending(i => guess[i]).Take(Challengers).Select(i => suspects[i])];
            if (Ranking.Of(then) is Ranking changed && looked.MaxBy(changed.Explains) is int leader && leader != suspects[0])
            {
                (string id, string title) = Named(situation.Index, investigation, other);
                return new Flip(other.Finding, id, title, p, situation.Index.Parts[leader].Id);
            }
        }

        return null;
    }

    /// <summary>Probability of the other outcome by the rest, and P(bad) of every part under it. For one of two outcomes both follow from what is known.</summary>
    private static (double, double[])? Guess(Situation situation, Ranking ranking, Evidence item, Otherwise other, LeaveOneOut left)
    {
        if (left.States(other.Finding) is not double[][] states)
        {
            return null;
        }

        double log = left.LogWeight(other.Finding);
        if (item is EventEvidence or OutcomeEvidence { Gate.Outcomes: 2 })
        {
            double seen = Math.Exp(ranking.LogWeight - log), p = 1 - seen;
            return p <= Rare ? null : (p, [.. states.Select((s, part) => Math.Clamp((1 - s[0] - (seen * ranking.Bad(part))) / p, 0, 1))]);
        }

        Situation then = situation.With(evidence: [.. situation.Evidence.Select(e => ReferenceEquals(e, item) ? other.Instead : e)]);
        return then.States(out double weight) is double[][] changed ? (Math.Exp(weight - log) * other.Width, [.. changed.Select(s => 1 - s[0])]) : null;
    }

    /// <summary>What the finding reported is no item had it come out otherwise.</summary>
    private static Item[] Left(Situation situation, Otherwise other)
    {
        Item[] left = [.. situation.Items.Where(i => !i.Findings.Contains(other.Finding))];
        double sum = left.Sum(i => i.Weight);
        return [.. left.Select(i => i with { Weight = i.Weight / sum })];
    }

    private static (string Id, string Title) Named(ModelIndex index, Investigation investigation, Otherwise other)
    {
        Observation finding = investigation.Findings.First(f => f.Id == other.Finding);
        if (finding.Trial is not null)
        {
            string result = ((TrialResult)other.Outcome).ToString().ToLowerInvariant();
            return (result, CommonWords.Title(CommonWords.TrialResults, result));
        }

        string[] words = finding.Event is not null ? ["absent", "present"] : ["good", "bad"];
        if (finding.Check is not null && finding.Value is null && index.Check(finding.Check).Condition >= 0)
        {
            return (CommonWords.LimitWords[other.Outcome].Id, CommonWords.LimitWords[other.Outcome].Title);
        }

        return finding.Check is null
            ? (words[other.Outcome], words[other.Outcome])
            : (index.Check(finding.Check).OutcomeIds[other.Outcome], index.Check(finding.Check).OutcomeTitles[other.Outcome]);
    }
}
