namespace FuelHistory.Core.Assessment;

/// <summary>Findings that do not fit the rest: c = log2(P(e) / P(e | the rest)) above 3 bits (MODEL.md 7).</summary>
internal static class Misfits
{
    private const double Named = 3;

    /// <param name="without">Log weight of the findings without each one.</param>
    public static IReadOnlyList<Misfit> Of(Situation situation, double logWeight, IReadOnlyDictionary<string, double> without)
    {
        var misfits = new List<Misfit>();
        foreach (Evidence item in situation.Evidence)
        {
            foreach (string finding in item.Findings)
            {
                double bits = Bits(situation, item, finding, logWeight - without[finding]);
                if (bits > Named)
                {
                    misfits.Add(new Misfit(finding, bits, Partner(situation, item, finding, bits)));
                }
            }
        }

        return [.. misfits.OrderByDescending(m => m.Bits)];
    }

    /// <summary>The other finding without which this one fits best.</summary>
    private static string? Partner(Situation situation, Evidence item, string finding, double bits)
    {
        string? best = null;
        foreach (Evidence other in situation.Evidence.Where(e => !ReferenceEquals(e, item) && e.Findings.Count > 0))
        {
            Situation rest = situation.With(evidence: [.. situation.Evidence.Where(e => !ReferenceEquals(e, other))]);
            double left = Bits(rest, item, finding, rest.LogWeight() - rest.LogWeight(without: finding));
            if (left < bits)
            {
                (bits, best) = (left, other.Findings[^1]);
            }
        }

        return best;
    }

    /// <param name="givenRest">ln P(e | the rest).</param>
    private static double Bits(Situation situation, Evidence item, string finding, double givenRest)
    {
        Situation alone = situation.With(evidence: [item]);
        double prior = alone.LogWeight() - alone.LogWeight(without: finding);
        return (prior - givenRest) / Math.Log(2);
    }
}
