namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    private static IEnumerable<LintNote> ConditionRules(ModelMap map) => [.. map.Model.Conditions.SelectMany(c => ConditionRange(map, c)), .. ConditionLoops(map)];

    private static IEnumerable<LintNote> ConditionRange(ModelMap map, Condition c)
    {
        string path = $"conditions[{c.Id}]";
        if (c.Min < -3 || c.Min > 0 || c.Max > 3 || c.Max < 0 || c.Min == c.Max)
        {
            yield return new LintNote("condition-range", path, $"{c.Min}..{c.Max} must lie within -3..3, hold 0 and one level more.");
            yield break;
        }

        foreach (string step in c.Background.Keys.Where(s => !Fits(s, c) || s == "0"))
        {
            yield return new LintNote("step-range", $"{path}.background.{step}", $"Step {step} leaves {c.Min}..{c.Max}.");
        }

        // what all causes together can push, each at its most
        List<IEnumerable<int>> causes = [.. map.Into(ArrowTarget.Condition, c.Id).Select(Steps), LiveSteps(c.Background)];
        int up = causes.Sum(s => s.Append(0).Max()), down = causes.Sum(s => s.Append(0).Min());
        if (up < c.Max || down > c.Min)
        {
            yield return new LintNote("range-unreached", path, $"Its causes can push it from {Math.Max(down, -3)} to {Math.Min(up, 3)}, its range is {c.Min}..{c.Max}. Narrow the range or add the cause.");
        }
    }

    private static IEnumerable<int> Steps(Arrow arrow) => arrow.Rows().SelectMany(r => LiveSteps(r.Row));

    private static IEnumerable<int> LiveSteps(IReadOnlyDictionary<string, double> row) =>
        row.Where(e => e.Value > 0).Select(e => ModelMap.TryLevel(e.Key, out int step) ? step : 0);

    /// <summary>Follows the arrows between conditions; one that comes back to itself is named once, with its way round.</summary>
    private static List<LintNote> ConditionLoops(ModelMap map)
    {
        Dictionary<string, string[]> causes = map.Model.Conditions.ToDictionary(
            c => c.Id, c => c.Effects.Select(e => e.Of).Where(map.Conditions.ContainsKey).Distinct().ToArray());
        HashSet<string> clear = [];
        List<LintNote> loops = [];
        foreach (string id in causes.Keys)
        {
            Walk(id, []);
        }

        return loops;

        void Walk(string id, List<string> way)
        {
            if (way.IndexOf(id) is >= 0 and int start)
            {
                loops.Add(new LintNote("condition-loop", $"conditions[{id}].effects", $"{string.Join(" <- ", way.Skip(start).Append(id))} is a loop. Remove one of these arrows."));
                return;
            }

            if (clear.Contains(id))
            {
                return;
            }

            foreach (string cause in causes[id])
            {
                Walk(cause, [.. way, id]);
            }

            clear.Add(id);
        }
    }
}
