namespace FuelHistory.Core.Assessment;

/// <summary>Takes findings about worlds that were not out of a network that they make too large (MODEL.md 7, "too large").</summary>
internal static class Supposing
{
    /// <summary>A network with such findings may have this many entries; a question about a repair has some twenty times as many.</summary>
    private const long Allowed = 50_000;

    /// <summary>Largest difference in any part's P(bad), on cars where both ways can be asked (tests, over all systems): said in the answer.</summary>
    public const double LargestSeen = 0.09;

    /// <summary>Rounds of fitting the parts' factors; one part is right after the first.</summary>
    private const int Rounds = 4;

    /// <summary>The situation itself where it is small enough; else with each such finding turned into factors, one after the other.</summary>
    /// <returns>The situation and the findings that were turned; a finding that does not fit by itself is left out.</returns>
    public static (Situation Situation, IReadOnlyList<string> Turned) Within(Situation situation, long allowed = Allowed)
    {
        Hypothetical[] supposed = [.. situation.Evidence.OfType<Hypothetical>()];
        if (supposed.Length == 0 || Fits(situation, allowed))
        {
            return (situation, []);
        }

        Evidence[] rest = [.. situation.Evidence.Where(e => e is not Hypothetical)];
        foreach (Hypothetical finding in supposed)
        {
            if (Turn(situation, rest, finding) is SupposedEvidence turned)
            {
                rest = [turned, .. rest];                   // before the events, to which it may bring arrows
            }
        }

        return (situation.With(evidence: rest), [.. supposed.SelectMany(h => h.Findings)]);
    }

    private static bool Fits(Situation situation, long allowed)
    {
        try
        {
            return situation.Entries() <= allowed;
        }
        catch (TooLargeException)
        {
            return false;
        }
    }

    private static SupposedEvidence? Turn(Situation situation, Evidence[] rest, Hypothetical finding)
    {
        // 1. the finding in a world of its own, among all that is known
        Hypothetical plain = finding.Plain;
        try
        {
            if (situation.With(evidence: [plain, .. rest]).Suppose(plain) is not (double[][] with, double[][] without, double allRight))
            {
                return null;
            }

            // 2. the parts that are otherwise there, by factors under which the network without that world gives the same probabilities
            PartCopy?[] parts = plain.Parts(situation.Worlds), now = situation.Worlds.Stretches[finding.World];
            int[] changed = [.. Enumerable.Range(0, parts.Length).Where(p => !ReferenceEquals(parts[p], now[p]))];
            var turned = new SupposedEvidence(
                finding.Id, finding.World, [.. changed.Select(p => Factor(finding.Id, finding.World, p, with[p], without[p], null))], finding.Arrows,
                plain.Events.Select(e => e.Event.Index).ToHashSet(), finding.Tried,
                finding.Tried < 0 ? 0 : Math.Min(1, allRight / (1 - with[finding.Tried][0])));
            for (int round = 1; round < Rounds && changed.Length > 1; round++)
            {
                double[][]? given = situation.With(evidence: [turned, .. rest]).StatesIn([finding.World], new Omitted())?[0];
                turned = given is null ? turned : turned with { Parts = [.. turned.Parts.Select(p => Factor(finding.Id, finding.World, p.Part, with[p.Part], given[p.Part], p))] };
            }

            return turned;
        }
        catch (TooLargeException)
        {
            return null;
        }
    }

    /// <summary>The factor on a part's modes that takes the distribution given to the one wanted, upon what it was before.</summary>
    internal static OwnEvidence Factor(string id, int world, int part, double[] with, double[] given, OwnEvidence? before)
    {
        double[] factors = new double[with.Length];
        for (int s = 0; s < with.Length; s++)
        {
            double odds = given[s] > 0 && given[0] > 0 && with[0] > 0 ? with[s] / with[0] / (given[s] / given[0]) : 1;
            factors[s] = odds * (before?.Likelihood[s] ?? 1);
        }

        return new OwnEvidence(id, world, part, factors);
    }
}
