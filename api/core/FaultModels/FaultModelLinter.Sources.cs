namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    private static readonly string[] SourceKinds = ["published", "excerpt", "common-practice", "judgement", "memory"];

    private static IEnumerable<LintNote> SourceRules(ModelMap map)
    {
        foreach ((string key, Source source) in map.Model.Sources)
        {
            if (!SourceKinds.Contains(source.Kind))
            {
                yield return new LintNote("source-kind", $"sources[{key}].kind", $"{source.Kind} is none of {string.Join(", ", SourceKinds)}.");
            }

            if (string.IsNullOrWhiteSpace(source.Cite))
            {
                yield return new LintNote("source-kind", $"sources[{key}].cite", "The citation is empty. Write out title, publisher and vehicle, or say from memory.");
            }
        }

        foreach ((string path, string key) in SourceKeys(map.Model).Where(s => !map.Model.Sources.ContainsKey(s.Key)))
        {
            yield return new LintNote("unknown-source", path, $"'{key}' is not a key of sources. Every number needs a source: add it there or name an existing one.");
        }
    }

    private static IEnumerable<(string Path, string Key)> SourceKeys(FaultModel m) =>
    [
        ("badWhenFitted.source", m.BadWhenFitted.Source), ("told.source", m.Told.Source), ("advice.source", m.Advice.Source),
        ("use.source", m.Use.Source), ("elsewhere.source", m.Elsewhere.Source),
        .. m.Components.Select(c => ($"components[{c.Id}].source", c.Source)),
        .. m.Components.SelectMany(c => c.Modes.Select(x => ($"components[{c.Id}].modes[{x.Id}].source", x.Source))),
        .. m.Components.SelectMany(c => c.Work.Select(w => ($"components[{c.Id}].work[{w.Action}].source", w.Source))),
        .. m.Conditions.Select(c => ($"conditions[{c.Id}].source", c.Source)),
        .. m.Conditions.SelectMany(c => c.Effects.Where(e => e.Source is not null).Select(e => ($"conditions[{c.Id}].effects[{e.Of}].source", e.Source!))),
        .. m.Cells.Select(s => ($"cells[{s.Id}].source", s.Source)),
        .. m.Cells.SelectMany(s => s.Causes.Where(c => c.Source is not null).Select(c => ($"cells[{s.Id}].causes[{c.Of}].source", c.Source!))),
        .. m.Events.Select(e => ($"events[{e.Id}].source", e.Source)),
        .. m.Trials.Select(t => ($"trials[{t.Id}].source", t.Source)),
        .. m.Checks.Select(c => ($"checks[{c.Id}].source", c.Source)),
        .. m.Options.Select(o => ($"options[{o.Id}].source", o.Source)),
        .. m.StopNotes.Select(n => ($"stopNotes[{n.Id}].source", n.Source)),
        .. m.Checks.Where(c => c.Limits is not null).Select(c => ($"checks[{c.Id}].limits.source", c.Limits!.Source)),
        .. m.Checks.Where(c => c.Limits?.UsualSource is not null).Select(c => ($"checks[{c.Id}].limits.usualSource", c.Limits!.UsualSource!)),
        .. m.Checks.Where(c => c.Limits?.HoldSource is not null).Select(c => ($"checks[{c.Id}].limits.holdSource", c.Limits!.HoldSource!)),
        .. m.Checks.SelectMany(c => (c.Detects ?? []).Where(d => d.Source is not null).Select(d => ($"checks[{c.Id}].detects[{d.Of}].source", d.Source!))),
    ];
}
