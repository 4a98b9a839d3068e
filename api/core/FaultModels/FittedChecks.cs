namespace FuelHistory.Core.FaultModels;

/// <summary>Which checks and trials make no sense on a car that lacks some parts.</summary>
public static class FittedChecks
{
    /// <summary>Ids of the checks and trials that need an absent part, or, where needs are not stated, can show or change none but absent ones.</summary>
    public static IReadOnlySet<string> Senseless(FaultModel model, IReadOnlySet<string> absent)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(absent);
        if (absent.Count == 0)
        {
            return new HashSet<string>();
        }

        var map = new ModelMap(model);
        return model.Checks.Where(c => c.Needs is { } needs ? needs.Any(absent.Contains) : OnlyAbsent(Shown(map, c), absent)).Select(c => c.Id)
            .Concat(model.Trials.Where(t => Senseless(map, t, absent)).Select(t => t.Id))
            .ToHashSet();
    }

    /// <summary>What is done to a part that is not there cannot be done; else it is told by the needs, or by what is behind the conditions.</summary>
    private static bool Senseless(ModelMap map, Trial trial, IReadOnlySet<string> absent) =>
        (trial.Component is { } component && absent.Contains(component))
        || (trial.Needs is { } needs ? needs.Any(absent.Contains) : trial.Component is null && OnlyAbsent(Behind(map, trial.Right), absent));

    private static bool OnlyAbsent(HashSet<string> shown, IReadOnlySet<string> absent) => shown.Count > 0 && shown.All(absent.Contains);

    private static HashSet<string> Shown(ModelMap map, Check check) => Behind(map, map.Into(ArrowTarget.Check, check.Id).Select(a => a.Of)
        .Concat((check.Watches ?? []).Concat([check.Measures, check.Store]).OfType<string>()));

    /// <summary>Components of the car that modes and conditions are brought about by, through conditions or at once.</summary>
    private static HashSet<string> Behind(ModelMap map, IEnumerable<string> causes)
    {
        var open = new Queue<string>(causes);
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
