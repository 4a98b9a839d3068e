namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    private static IEnumerable<LintNote> CauseRules(ModelMap map) =>
    [
        .. map.Arrows.GroupBy(a => (a.TargetPath, a.List, a.Of)).Where(g => g.Count() > 1)
            .Select(g => new LintNote("cause-twice", g.First().Path, $"{g.Key.Of} is named {g.Count()} times for one target. Join the entries into one.")),
        .. map.Arrows.Where(a => map.IsCause(a.Of)).SelectMany(a => CauseKind(map, a)),
        .. map.Arrows.SelectMany(a => CauseLevels(map, a)),
    ];

    private static IEnumerable<LintNote> CauseKind(ModelMap map, Arrow arrow)
    {
        bool mode = map.Modes.ContainsKey(arrow.Of);
        if (mode != arrow.ByMode is not null || mode == arrow.ByLevel is not null)
        {
            string wanted = mode ? "a mode, and wants one row (adds or p) and no at" : "a condition, and wants at with a row per level and nothing else";
            yield return new LintNote("cause-kind", arrow.Path, $"{arrow.Of} is {wanted}.");
        }
    }

    /// <summary>Steps must fit the target, levels must fit the cause; level 0 is "as it should be" and acts on nothing.</summary>
    private static IEnumerable<LintNote> CauseLevels(ModelMap map, Arrow arrow)
    {
        if (map.Conditions.TryGetValue(arrow.Of, out Condition? cause))
        {
            foreach (string level in (arrow.ByLevel?.Keys ?? []).Where(l => !Fits(l, cause) || (l == "0" && arrow.List != "byLevel")))
            {
                yield return new LintNote("step-range", $"{arrow.Path}.at[{level}]", $"Level {level} is not one of {cause.Id}, which goes from {cause.Min} to {cause.Max} with 0 as it should be.");
            }
        }

        if (arrow.Kind == ArrowTarget.Condition && map.Conditions.TryGetValue(arrow.Target, out Condition? target))
        {
            foreach ((string path, IReadOnlyDictionary<string, double> row) in arrow.Rows())
            {
                foreach (string step in row.Keys.Where(s => !Fits(s, target) || s == "0"))
                {
                    yield return new LintNote("step-range", $"{path}.{step}", $"Step {step} leaves {target.Min}..{target.Max} of {target.Id}. Use a whole step within it, other than 0.");
                }
            }
        }
    }

    private static bool Fits(string level, Condition condition) =>
        ModelMap.TryLevel(level, out int value) && value >= condition.Min && value <= condition.Max;
}
