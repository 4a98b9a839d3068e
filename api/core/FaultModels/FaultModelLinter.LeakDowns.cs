namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    private static IEnumerable<LintNote> LeakDownRules(ModelMap map) => map.Model.Checks.Where(c => c.Watches is not null).SelectMany(c => LeakDownRules(map, c));

    private static IEnumerable<LintNote> LeakDownRules(ModelMap map, Check check)
    {
        string path = $"checks[{check.Id}]";
        if (!check.Watches!.Any(w => map.Conditions.TryGetValue(w, out Condition? c) && IsHookUp(map, c)))
        {
            yield return new LintNote("leak-down-hook-up", $"{path}.watches", "The gauge's own hook-up leak is not watched, yet every pressure is read through it. Add its condition.");
        }

        foreach (string id in check.Watches!.Where(w => map.Conditions.TryGetValue(w, out Condition? c) && (c.Min != 0 || c.Max < 1)))
        {
            yield return new LintNote("watched-range", $"{path}.watches[{id}]", $"{id} goes {map.Conditions[id].Min}..{map.Conditions[id].Max}; a leak goes from 0 up.");
        }

        if (check.Store is not null && map.Conditions.TryGetValue(check.Store, out Condition? store) && (store.Min, store.Max) != (-1, 0))
        {
            yield return new LintNote("watched-range", $"{path}.store", $"{store.Id} goes {store.Min}..{store.Max}; a stored volume goes -1..0.");
        }

        if (!LimitsHold(check.Limits))
        {
            yield return new LintNote("leak-down-limits", $"{path}.limits", "Needs 'from' and points with rising minutes, each low above 0 and below from (below hold, where it drops first), none rising.");
        }

        if (check.Limits is { } drop && (drop.Drop != drop.Hold is not null || drop.Hold is not null != drop.HoldSource is not null || drop.Hold > drop.From))
        {
            yield return new LintNote("leak-down-limits", $"{path}.limits.hold", "A leak-down that drops first has 'drop': true, a 'hold' not above 'from', and its 'holdSource'; any other has none of them.");
        }
    }

    /// <summary>A leak that only an instrument can bring about.</summary>
    private static bool IsHookUp(ModelMap map, Condition condition) =>
        condition.Effects.Count > 0 && condition.Effects.All(e => map.Modes.TryGetValue(e.Of, out (string Id, Mode Mode, Component Component) m) && m.Component.Instrument);

    private static bool LimitsHold(Limits? limits)
    {
        if (limits is null || limits.Points.Count == 0)
        {
            return false;
        }

        double[] minutes = [.. limits.Points.Select(p => p.Minutes ?? double.NaN)], low = [.. limits.Points.Select(p => p.Low ?? double.NaN)];
        return Ascending(minutes) && minutes[0] > 0 && low.All(l => l > 0 && l < (limits.Hold ?? limits.From)) && low.Zip(low.Skip(1)).All(p => p.First >= p.Second);
    }
}
