namespace FuelHistory.Core.Assessment;

/// <summary>P(no component of the car is bad now, whatever the gauges are).</summary>
internal static class AllHealthy
{
    public static double Of(Situation situation, double logWeight)
    {
        // "ok" is entered as one more finding on every part; parts that nothing else bears on only bring their prior
        Evidence[] ok = [.. situation.Worlds.Now.Where(c => !situation.Index.Parts[c.Part].Source.Instrument)
            .Select(c => new SeenEvidence("", situation.Worlds.Stretches.Length - 1, c.Part, false, [1, .. situation.Index.Parts[c.Part].Source.Modes.Select(_ => 0.0)], []))];
        return Math.Exp(situation.With(evidence: [.. situation.Evidence, .. ok]).LogWeight() - logWeight);
    }
}
