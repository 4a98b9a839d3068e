namespace FuelHistory.Core.Assessment;

/// <summary>Which findings cannot be true together, where all of them cannot.</summary>
internal static class Contradictions
{
    /// <summary>A set from which nothing can be taken without its becoming possible: items are dropped one by one while the rest stays impossible.</summary>
    public static IReadOnlyList<string> Smallest(Situation situation)
    {
        List<Evidence> kept = [.. situation.Evidence];
        foreach (Evidence item in situation.Evidence)
        {
            List<Evidence> fewer = [.. kept.Where(e => !ReferenceEquals(e, item))];
            if (double.IsNegativeInfinity(situation.With(evidence: fewer).LogWeight()))
            {
                kept = fewer;
            }
        }

        return [.. kept.SelectMany(e => e.Findings)];
    }
}
