using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>Findings of checks that an earlier revision of the model had and that are trials in truth: read as that trial with that result.</summary>
internal static class FormerChecks
{
    public static Observation Read(FaultModel model, Observation finding)
    {
        if (finding.Check is null || finding.Outcome is null
            || model.Trials.FirstOrDefault(t => t.Formerly.ContainsKey(finding.Check)) is not Trial trial
            || trial.Formerly[finding.Check].GetValueOrDefault(finding.Outcome) is not string result)
        {
            return finding;
        }

        // those checks asked to put the old part back, and were answered yes only where the trouble came back with it
        bool? cameBack = trial.Kind == TrialKind.Another && result == "ended" ? true : null;
        return finding with
        {
            Check = null,
            Outcome = result,
            Trial = new TrialFact(trial.Id, trial.Kind, trial.Component, Enum.Parse<PartQuality>(trial.StandIn, true), cameBack),
        };
    }
}
