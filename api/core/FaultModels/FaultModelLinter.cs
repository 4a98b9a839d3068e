namespace FuelHistory.Core.FaultModels;

/// <summary>Reads a fault model critically: refusals make it unusable, warnings want a reviewer's eye. All at once.</summary>
public static partial class FaultModelLinter
{
    public static LintResult Lint(FaultModel model)
    {
        IReadOnlyList<LintNote> refusals = Refusals(model);

        // step two: the warnings follow arrows through the model, which has to be sound for that
        return new LintResult(refusals, refusals.Count > 0 ? [] : Warnings(new ModelMap(model)));
    }

    /// <summary>What makes the model unusable, without the longer search for warnings.</summary>
    public static IReadOnlyList<LintNote> Refusals(FaultModel model)
    {
        ArgumentNullException.ThrowIfNull(model);
        List<LintNote> ids = [.. DuplicateIds(model)];
        if (ids.Count > 0)
        {
            return ids; // every other rule looks things up by id
        }

        var map = new ModelMap(model);
        return
        [
            .. UnknownIds(map), .. SourceRules(map), .. ProbabilityRules(map), .. SumRules(map),
            .. CauseRules(map), .. ConditionRules(map), .. LifeRules(map), .. FigureRules(map),
            .. EventRules(map), .. TrialRules(map), .. PartRules(model), .. CheckRules(map), .. LimitRules(map), .. LeakDownRules(map), .. OutcomeRules(map), .. ReachRules(map),
            .. OptionRules(map), .. StopRules(map),
        ];
    }

    private static List<LintNote> Warnings(ModelMap map)
    {
        ModelStudy study = ModelStudy.Of(map);
        return [.. UnnoticedWarnings(map), .. BackgroundWarnings(map), .. SeesPartWarnings(map), .. BroadCells(map), .. ModesAlike(study), .. LittleSaid(map, study), .. Unheard(map, study), .. UsualMissing(map), .. UnreachedOutcomes(map)];
    }
}

/// <summary>Warnings are looked for only where nothing is refused.</summary>
public sealed record LintResult(IReadOnlyList<LintNote> Refusals, IReadOnlyList<LintNote> Warnings);

/// <param name="Rule">Stable code, such as sum-above-one.</param>
/// <param name="Path">Where, by ids: checks[system-pressure].limits.</param>
/// <param name="Message">What was wrong, the value found, and what to do.</param>
public sealed record LintNote(string Rule, string Path, string Message);
