namespace FuelHistory.Core.FaultModels;

/// <summary>Which checks make no sense on a car that lacks some parts.</summary>
public static class FittedChecks
{
    /// <summary>Ids of the checks that need an absent part, or, where needs are not stated, can show none but absent ones.</summary>
    public static IReadOnlySet<string> Senseless(FaultModel model, IReadOnlySet<string> absent)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(absent);
        if (absent.Count == 0)
        {
            return new HashSet<string>();
        }

        var map = new ModelMap(model);
        return model.Checks.Where(c => c.Needs is { } needs ? needs.Any(absent.Contains) : OnlyAbsent(Shown(map, c), absent)).Select(c => c.Id).ToHashSet();
    }

    private static bool OnlyAbsent(HashSet<string> shown, IReadOnlySet<string> absent) => shown.Count > 0 && shown.All(absent.Contains);

    /// <summary>Components of the car whose state the check can show, through conditions or at once.</summary>
    private static HashSet<string> Shown(ModelMap map, Check check)
    {
        var open = new Queue<string>(map.Into(ArrowTarget.Check, check.Id).Select(a => a.Of)
            .Concat((check.Watches ?? []).Concat([check.Measures, check.Store]).OfType<string>()));
        HashSet<string> seen = [], components = [];
        while (open.TryDequeue(out string? cause))
        {
            if (!seen.Add(cause))
            {
                continue;
            }

            if (map.Modes.TryGetValue(cause, out var mode))
            {
                components.UnionWith(mode.Component.Instrument ? [] : [mode.Component.Id]);
                continue;
            }

            foreach (Arrow arrow in map.Into(ArrowTarget.Condition, cause))
            {
                open.Enqueue(arrow.Of);
            }
        }

        return components;
    }
}
