namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    private static IEnumerable<LintNote> DuplicateIds(FaultModel model) =>
    [
        .. Twice("components", model.Components.Select(c => c.Id).Append("elsewhere")), // taken by what the model does not cover
        .. model.Components.SelectMany(c => Twice($"components[{c.Id}].modes", c.Modes.Select(m => m.Id))),
        .. model.Components.SelectMany(c => Twice($"components[{c.Id}].work", c.Work.Select(w => w.Action))),
        .. Twice("conditions", model.Conditions.Select(c => c.Id)),
        .. Twice("cells", model.Cells.Select(s => s.Id)),
        .. Twice("when", model.When.Select(f => f.Id)),
        .. Twice("then", model.Then.Select(f => f.Id)),
        .. Twice("events", model.Events.Select(e => e.Id)),
        .. Twice("checks", model.Checks.Select(c => c.Id)),
        .. Twice("trials", model.Trials.Select(t => t.Id).Concat(model.Checks.Select(c => c.Id).Distinct())), // both are asked for by one id
        .. model.Checks.SelectMany(c => Twice($"checks[{c.Id}].outcomes", (c.Outcomes ?? []).Select(o => o.Id))),
        .. Twice("tools", model.Tools.Select(t => t.Id)),
        .. Twice("incidents", model.Incidents.Select(i => i.Id)),
        .. Twice("options", model.Options.Select(o => o.Id)),
        .. model.Options.SelectMany(o => Twice($"options[{o.Id}].choices", o.Choices.Select(c => c.Id))),
        .. Twice("stopNotes", model.StopNotes.Select(n => n.Id)),
    ];

    private static IEnumerable<LintNote> Twice(string list, IEnumerable<string> ids) =>
        ids.GroupBy(id => id).Where(g => g.Count() > 1)
            .Select(g => new LintNote("duplicate-id", $"{list}[{g.Key}]", $"The id {g.Key} occurs {g.Count()} times in {list}. Give each its own id."));

    private static IEnumerable<LintNote> UnknownIds(ModelMap map)
    {
        FaultModel model = map.Model;
        HashSet<string> components = [.. model.Components.Select(c => c.Id)];
        HashSet<string> tools = [.. model.Tools.Select(t => t.Id)];
        HashSet<string> incidents = [.. model.Incidents.Select(i => i.Id)];
        HashSet<string> cells = [.. model.Cells.Select(s => s.Id)];
        return
        [
            .. map.Arrows.Where(a => !map.IsCause(a.Of)).Select(a => Unknown(a.Path, a.Of, "a mode (component.mode) or a condition")),
            .. model.Components.SelectMany(c => c.Formerly.Where(components.Contains).Select(id =>
                new LintNote("former-part", $"components[{c.Id}].formerly[{id}]", $"{id} is still a component. What was recorded of it must mean one thing."))),
            .. model.Components.SelectMany(c => Missing(c.Includes, components.Contains, $"components[{c.Id}].includes", "a component")),
            .. map.Modes.Values.SelectMany(m => Missing(m.Mode.CausedBy, map.Modes.ContainsKey, $"components[{m.Component.Id}].modes[{m.Mode.Id}].causedBy", "a mode")),
            .. map.Modes.Values.SelectMany(m => Missing(m.Mode.Incidents.Keys, incidents.Contains, $"components[{m.Component.Id}].modes[{m.Mode.Id}].incidents", "an incident")),
            .. Missing(model.Elsewhere.Cells.Keys, cells.Contains, "elsewhere.cells", "a cell of an event"),
            .. model.Checks.SelectMany(c => Missing(c.Tools, tools.Contains, $"checks[{c.Id}].tools", "a tool")),
            .. model.Checks.SelectMany(c => Missing(c.Watches ?? [], map.Conditions.ContainsKey, $"checks[{c.Id}].watches", "a condition")),
            .. model.Checks.SelectMany(c => Missing(c.Store is null ? [] : [c.Store], map.Conditions.ContainsKey, $"checks[{c.Id}].store", "a condition")),
            .. model.Checks.SelectMany(c => Missing(c.Measures is null ? [] : [c.Measures], map.Conditions.ContainsKey, $"checks[{c.Id}].measures", "a condition")),
            .. map.Modes.Values.SelectMany(m => Missing(m.Mode.Together, components.Contains, $"components[{m.Component.Id}].modes[{m.Mode.Id}].together", "a component")),
            .. model.Checks.SelectMany(c => Missing(c.AnsweredBy, id => model.Events.Any(e => e.Id == id), $"checks[{c.Id}].answeredBy", "an event")),
            .. TrialIds(model, components.Contains, map.Conditions.ContainsKey, tools.Contains),
            .. SetupRules(model),
        ];
    }

    private static IEnumerable<LintNote> Missing(IEnumerable<string> ids, Func<string, bool> known, string list, string what) =>
        ids.Where(id => !known(id)).Select(id => Unknown($"{list}[{id}]", id, what));

    private static LintNote Unknown(string path, string id, string what) =>
        new("unknown-id", path, $"{id} is not {what} of this fault model. Correct the id or add what it names.");

    /// <summary>A hook-up is known by its name alone, so that checks which share it must agree on its minutes.</summary>
    private static IEnumerable<LintNote> SetupRules(FaultModel model)
    {
        foreach (Check check in model.Checks.Where(c => c.Setup is null && c.SetupMinutes != 0))
        {
            yield return new LintNote("setup-minutes", $"checks[{check.Id}].setupMinutes", $"{check.SetupMinutes} set-up minutes without a setup. Name the setup or drop the minutes.");
        }

        foreach (IGrouping<string, Check> setup in model.Checks.Where(c => c.Setup is not null).GroupBy(c => c.Setup!))
        {
            double usual = setup.GroupBy(c => c.SetupMinutes).MaxBy(g => g.Count())!.Key;
            foreach (Check check in setup.Where(c => c.SetupMinutes != usual))
            {
                yield return new LintNote("setup-minutes", $"checks[{check.Id}].setupMinutes", $"Setup {setup.Key} takes {check.SetupMinutes} minutes here and {usual} in most checks that share it. Use one figure.");
            }
        }
    }
}
