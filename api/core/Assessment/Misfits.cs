namespace FuelHistory.Core.Assessment;

/// <summary>Findings that the others did not let expect (MODEL.md 7): conflicts, c = log2(P(e) / P(e | the rest)) above 3 bits, told apart from
/// what is merely rare, and from what a fault of the model explains (Jensen, Chamberlain, Nordahl and Jensen 1990, from memory).</summary>
internal static class Misfits
{
    private const double Named = 3, Rare = 5;

    /// <summary>A fault that explains a conflict must itself be as likely as this.</summary>
    private const double Believed = 0.1;

    public static IReadOnlyList<Misfit> Of(Situation situation, Ranking ranking, LeaveOneOut left) =>
        [.. Each.Of(situation.Evidence.SelectMany(e => e.Findings.Select(f => (Item: e, Finding: f))), f => Of(situation, ranking, left, f.Item, f.Finding))
            .OfType<Misfit>().OrderBy(m => m.Kind).ThenByDescending(m => m.Bits)];

    private static Misfit? Of(Situation situation, Ranking ranking, LeaveOneOut left, Evidence item, string finding)
    {
        double givenRest = ranking.LogWeight - left.LogWeight(finding);
        Situation alone = situation.With(evidence: [item.Alone(finding)]);
        double prior = alone.LogWeight() - alone.LogWeight(without: new Omitted(finding));
        double bits = (prior - givenRest) / Math.Log(2);
        return bits > Named ? new Misfit(MisfitKind.Conflict, finding, bits, Partner(situation, left, finding, givenRest), Explanation(situation, ranking, left, item, finding, bits))
            : Surprise(item, finding, givenRest) is double rare && rare > Rare ? new Misfit(MisfitKind.Surprise, finding, rare, null, null)
            : null;
    }

    /// <summary>The other finding without which this one is likeliest.</summary>
    private static string? Partner(Situation situation, LeaveOneOut left, string finding, double givenRest)
    {
        string? best = null;
        foreach (string other in situation.Evidence.SelectMany(e => e.Findings).Where(f => f != finding))
        {
            double given = left.LogWeight(other) - situation.LogWeight(without: new Omitted(finding, other));
            if (given > givenRest)
            {
                (givenRest, best) = (given, other);
            }
        }

        return best;
    }

    /// <summary>The fault h under which c(h) = log2(P(e | h) / P(e | the rest, h)) is no conflict; of several the likeliest. By Bayes it follows
    /// from what is known: P(e | h) / P(e) = P(h | e) / P(h), and so with the rest.</summary>
    private static string? Explanation(Situation situation, Ranking ranking, LeaveOneOut left, Evidence item, string finding, double bits)
    {
        if (left.States(finding) is not double[][] rest || situation.With(evidence: [item.Alone(finding)]).States() is not double[][] alone)
        {
            return null;
        }

        string? best = null;
        double likeliest = Believed;
        foreach (PartIndex part in situation.Index.Parts.Where(p => !p.Source.Instrument))
        {
            for (int m = 1; m < ranking.States[part.Index].Length; m++)
            {
                double now = ranking.States[part.Index][m], before = rest[part.Index][m], prior = situation.Worlds.Priors[part.Index][m];
                double under = bits + Math.Log2(alone[part.Index][m] / prior) - Math.Log2(now / before);
                if (now > likeliest && now > before && under <= Named)
                {
                    (likeliest, best) = (now, $"{part.Id}.{part.Source.Modes[m - 1].Id}");
                }
            }
        }

        return best;
    }

    /// <summary>log2(1 / P(e | the rest)); a density counts with the width of its band. Null for what has no plain probability.</summary>
    private static double? Surprise(Evidence item, string finding, double givenRest) => item switch
    {
        LeakEvidence => null,
        MeasuredEvidence m when m.Values.Single(v => v.Id == finding) is MeasuredValue v => -(givenRest + Math.Log(m.Bands.WidthAt(v.Value))) / Math.Log(2),
        _ => -givenRest / Math.Log(2),
    };
}
