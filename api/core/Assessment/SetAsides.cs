using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>A finding that is taken for a slip of hand or hook-up, and the probability of that, by all findings.</summary>
public sealed record SetAside(string Finding, double Probability);

/// <summary>Readings and pressure runs that count for little because they look like a slip. With a slip a finding says nothing of the car, so
/// P(slip | all) = P(slip, its figures anywhere) x P(the other findings) / P(all) (MODEL.md 5, 6).</summary>
internal static class SetAsides
{
    private const double Named = 0.5;

    public static IReadOnlyList<SetAside> Of(Situation situation, double logWeight) =>
        [.. Each.Of(Slips(situation), slip => (slip.Findings, P: Math.Exp(slip.Log + situation.LogWeight(without: new Omitted(slip.Findings)) - logWeight)))
            .Where(s => s.P > Named).SelectMany(s => s.Findings.Select(f => new SetAside(f, Math.Min(1, s.P))))];

    /// <summary>Findings that one slip takes with it, and the logarithm of its probability with figures anywhere.</summary>
    private static IEnumerable<(string[] Findings, double Log)> Slips(Situation situation)
    {
        // 1. a gauge's readings of one session slip together, whatever the check
        IEnumerable<MeasuredValue> values = situation.Evidence.OfType<MeasuredEvidence>().SelectMany(e => e.Values);
        foreach (var group in values.GroupBy(v => (v.Session.Name, v.Instrument)))
        {
            yield return ([.. group.Select(v => v.Id)], Math.Log(ReadingError.Slip) - group.Sum(v => Math.Log(v.Error.Range)));
        }

        // 2. a pressure run slips by itself
        foreach ((string id, LeakDown.WatchedPressure run) in situation.Evidence.OfType<LeakEvidence>().SelectMany(e => e.Runs))
        {
            yield return ([id], Math.Log(ReadingError.Slip) - (run.Minutes.Length * Math.Log(run.Error.Range)) - LeakUnit.Of(run));
        }
    }
}
