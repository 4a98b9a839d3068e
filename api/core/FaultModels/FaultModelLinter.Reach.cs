namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    /// <summary>An event reached by more than this share of the car's components says too little.</summary>
    private const double BroadShare = 0.8;

    /// <summary>Bits below which a check says nothing to speak of about a mode.</summary>
    private const double Says = 0.1;

    private static IEnumerable<LintNote> ReachRules(ModelMap map)
    {
        HashSet<string> shown = Shown(map);
        IEnumerable<LintNote> uncaused = map.Model.Cells.Where(s => s.Causes.Count == 0)
            .Select(s => new LintNote("uncaused-event", $"cells[{s.Id}].causes", "Nothing in the model causes it, so that asking would tell nothing. Add a cause, or leave it out."));
        return uncaused.Concat(map.Modes.Values
            .Where(m => !shown.Contains(m.Id) && !(m.Component.Instrument && m.Mode.Bias is not null))
            .Select(m => new LintNote("unseen-mode", $"components[{m.Component.Id}].modes[{m.Mode.Id}]", "No event and no check can show it, so nothing could ever confirm it. Add an effect, a cause or a check, or remove it.")));
    }

    /// <summary>Modes and conditions from which an event or a check can be reached. A gauge's bias shows in every reading it takes.</summary>
    private static HashSet<string> Shown(ModelMap map)
    {
        var acting = map.Arrows.Where(a => a.Acts).ToList();
        HashSet<string> shown =
        [
            .. acting.Where(a => a.Kind != ArrowTarget.Condition).Select(a => a.Of),
            .. map.Model.Checks.SelectMany(c => (c.Watches ?? []).Concat([c.Measures, c.Store]).OfType<string>()),
            .. map.Model.Trials.SelectMany(t => map.Model.Components.Where(c => c.Id == t.Component && t.Do != "touch").SelectMany(c => c.Modes.Select(m => $"{c.Id}.{m.Id}"))),
        ];
        while (acting.Any(a => a.Kind == ArrowTarget.Condition && shown.Contains(a.Target) && shown.Add(a.Of)))
        {
        }

        return shown;
    }

    private static IEnumerable<LintNote> BroadCells(ModelMap map)
    {
        int all = map.Model.Components.Count(c => !c.Instrument);
        foreach (EventCell cell in map.Model.Cells)
        {
            HashSet<string> causes = [.. cell.Causes.Select(c => c.Of)];
            while (map.Arrows.Any(a => a.Kind == ArrowTarget.Condition && a.Acts && causes.Contains(a.Target) && causes.Add(a.Of)))
            {
            }

            int reached = causes.Where(map.Modes.ContainsKey).Select(id => map.Modes[id].Component.Id).Distinct().Count();
            if (reached > BroadShare * all)
            {
                yield return new LintNote("broad-event", $"cells[{cell.Id}].causes", $"{reached} of {all} components can cause it. Ask something narrower or drop weak causes.");
            }
        }
    }

    private static IEnumerable<LintNote> ModesAlike(ModelStudy study) =>
        study.Pairs.Where(p => p.Apart < ModelStudy.Separates)
            .Select(p => new LintNote("modes-alike", $"{p.A} ~ {p.B}", $"No check tells them apart (largest difference {p.Apart:0.###}). Add a check that looks at one of them, or say in reviewed.json why there is none."));

    private static IEnumerable<LintNote> Unheard(ModelMap map, ModelStudy study) => ModelTable.Unheard(map, study).Select(id =>
        new LintNote("mode-unheard", $"components[{map.Modes[id].Component.Id}].modes[{map.Modes[id].Mode.Id}]",
            "No event is told of in one case of ten with it. Give it the events that people tell of, or say in reviewed.json why nobody notices it."));

    private static IEnumerable<LintNote> LittleSaid(ModelMap map, ModelStudy study) =>
    [
        .. study.Modes.Where(m => !map.Modes[$"{m.Component}.{m.Mode}"].Component.Instrument && m.Bits.Values.DefaultIfEmpty().Max() < Says)
            .Select(m => new LintNote("mode-unchecked", $"components[{m.Component}].modes[{m.Mode}]", $"The best check says {m.Bits.Values.DefaultIfEmpty().Max():0.###} bits about it. Add one that looks at it, or say in reviewed.json why there is none.")),
        .. study.Modes.SelectMany(m => m.Bits).GroupBy(b => b.Key, b => b.Value).Where(g => g.Max() < Says)
            .Select(g => new LintNote("check-idle", map.Model.Trials.Any(t => t.Id == g.Key) ? $"trials[{g.Key}]" : $"checks[{g.Key}]", $"It says at most {g.Max():0.###} bits about any mode. Sharpen it or leave it out.")),
    ];
}
