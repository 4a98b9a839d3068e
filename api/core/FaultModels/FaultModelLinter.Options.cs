namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    private static IEnumerable<LintNote> OptionRules(ModelMap map)
    {
        FaultModel model = map.Model;
        HashSet<string> fitted = [.. model.Components.Where(c => !c.Instrument).Select(c => c.Id)];
        return
        [
            .. model.Options.SelectMany(o => o.Choices.SelectMany(c => Missing(c.Absent, fitted.Contains, $"options[{o.Id}].choices[{c.Id}].absent", "a component of the car"))),
            .. model.Options.Where(o => o.Choices.Count < 2 || o.Choices.All(c => c.Absent.Count == 0))
                .Select(o => new LintNote("option-idle", $"options[{o.Id}].choices", "Whatever is chosen, the car has the same parts. Give two choices or more, and say what one of them does without.")),
            .. model.Checks.SelectMany(c => Missing(c.Needs ?? [], fitted.Contains, $"checks[{c.Id}].needs", "a component of the car")),
            .. model.Checks.SelectMany(c => Tags(c.Involves, $"checks[{c.Id}].involves")),
            .. model.Trials.SelectMany(t => Missing(t.Needs ?? [], fitted.Contains, $"trials[{t.Id}].needs", "a component of the car")),
            .. model.Trials.SelectMany(t => Tags(t.Involves, $"trials[{t.Id}].involves")),
            .. model.Components.SelectMany(c => c.Work.SelectMany(w => Tags(w.Involves, $"components[{c.Id}].work[{w.Action}].involves"))),
        ];
    }

    private static IEnumerable<LintNote> StopRules(ModelMap map) => map.Model.StopNotes.SelectMany(n => StopRules(map, n));

    private static IEnumerable<LintNote> StopRules(ModelMap map, StopNote note)
    {
        string path = $"stopNotes[{note.Id}]";
        if (note.When.Count == 0 || note.Forbids.Count == 0)
        {
            yield return new LintNote("stop-note", path, "It needs a sign that brings it up, and something that it forbids.");
        }

        IEnumerable<LintNote> found = note.When.SelectMany((s, i) => SignRules(map, s, $"{path}.when[{i}]", ends: false))
            .Concat(note.EndedBy.SelectMany((s, i) => SignRules(map, s, $"{path}.endedBy[{i}]", ends: true)))
            .Concat(Tags(note.Forbids, $"{path}.forbids"));
        foreach (LintNote fault in found)
        {
            yield return fault;
        }
    }

    private static IEnumerable<LintNote> SignRules(ModelMap map, StopSign sign, string path, bool ends)
    {
        FaultModel model = map.Model;
        int kinds = new[] { sign.Event, sign.Check, sign.Part, sign.Work }.Count(k => k is not null);
        if (kinds != 1 || (sign.Work is not null && !ends) || (sign.Check is null) != (sign.Outcomes.Count == 0))
        {
            yield return new LintNote("stop-sign", path[..path.LastIndexOf('[')], $"{path}: A sign is one of event, check with outcomes, part, and (in endedBy alone) work.");
            yield break;
        }

        bool part = sign.Part is null || map.Modes.ContainsKey(sign.Part) || model.Components.Any(c => c.Id == sign.Part);
        IEnumerable<LintNote> unknown =
        [
            .. Missing(sign.Event is null ? [] : [sign.Event], id => model.Cells.Any(c => c.Id == id || c.Event == id), path, "an event or a cell of one"),
            .. Missing(part ? [] : [sign.Part!], _ => false, path, "a component or mode"),
            .. Missing(sign.Work is null ? [] : [sign.Work], id => model.Components.Any(c => c.Id == id), path, "a component"),
            .. Missing(sign.Check is null ? [] : [sign.Check], id => model.Checks.Any(c => c.Id == id), path, "a check"),
        ];
        foreach (LintNote note in unknown.Concat(Outcomes(model, sign, path)))
        {
            yield return note;
        }
    }

    private static IEnumerable<LintNote> Outcomes(FaultModel model, StopSign sign, string path)
    {
        if (model.Checks.FirstOrDefault(c => c.Id == sign.Check) is not { } check)
        {
            return [];
        }

        string[] ids = check.Kind switch
        {
            CheckKind.YesNo => ["yes", "no"],
            CheckKind.Outcomes => [.. check.Outcomes!.Select(o => o.Id)],
            _ => [],
        };
        return sign.Outcomes.Where(o => !ids.Contains(o))
            .Select(o => new LintNote("unknown-outcome", $"{path}.outcomes[{o}]", $"'{o}' is none of the outcomes of {check.Id}: {string.Join(", ", ids)}."));
    }

    private static IEnumerable<LintNote> Tags(IReadOnlyList<string> tags, string path) =>
        tags.Where(t => !Involved.Tags.Contains(t))
            .Select(t => new LintNote("unknown-tag", $"{path}[{t}]", $"'{t}' is none of {string.Join(", ", Involved.Tags)}."));
}
