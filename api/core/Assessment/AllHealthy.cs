namespace FuelHistory.Core.Assessment;

/// <summary>P(no component of the car is bad now, whatever the gauges are).</summary>
internal static class AllHealthy
{
    public static double Of(Situation situation, double logWeight)
    {
        // "ok" is entered as one more finding on every part; parts that nothing else bears on only bring their prior
        Evidence[] ok = [.. situation.Index.Parts.Where(p => !p.Source.Instrument).Select(p => SeenEvidence.Ok(situation.Worlds.Stretches.Length - 1, p))];
        return Math.Exp(situation.With(evidence: [.. situation.Evidence, .. ok]).LogWeight() - logWeight);
    }
}
