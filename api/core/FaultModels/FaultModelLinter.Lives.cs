namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    private static readonly string[] Actions = ["replace", "clean", "adjust"];

    private static IEnumerable<LintNote> LifeRules(ModelMap map)
    {
        foreach ((_, Mode mode, Component component) in map.Modes.Values)
        {
            string path = $"components[{component.Id}].modes[{mode.Id}]";
            if (mode.Life.Years is null && mode.Life.Km is null && mode.Life.PerParkedYear == 0)
            {
                yield return new LintNote("life-empty", $"{path}.life", "Neither years nor km nor perParkedYear: the mode could never appear. Give at least one.");
            }

            foreach ((string name, double value) in Named($"{path}.life", ("years", mode.Life.Years), ("km", mode.Life.Km), ("shape", mode.Life.Shape), ("a", mode.Life.A)).Where(v => !(v.Value > 0 && double.IsFinite(v.Value))))
            {
                yield return new LintNote("figure-range", name, $"{value} must be a finite number above 0.");
            }

            if (mode.Bias is not null && !component.Instrument)
            {
                yield return new LintNote("bias-kind", $"{path}.bias", $"Only an instrument can read wrong; {component.Id} is a part of the car.");
            }

            foreach (string action in mode.CuredBy.Keys.Where(a => !component.Work.Any(w => w.Action == a)))
            {
                yield return new LintNote("action-kind", $"{path}.curedBy.{action}", $"Put right by '{action}', but the component's work has no such action. Add its minutes and parts cost.");
            }
        }
    }

    /// <summary>Counts, minutes and money: finite and not negative; actions by their three names.</summary>
    private static IEnumerable<LintNote> FigureRules(ModelMap map)
    {
        FaultModel m = map.Model;
        IEnumerable<(string Path, double Value)> figures =
        [
            .. m.Checks.SelectMany(c => Named($"checks[{c.Id}]", ("minutes", c.Minutes), ("setupMinutes", c.SetupMinutes), ("repeat", c.Repeat))),
            .. m.Trials.SelectMany(t => Named($"trials[{t.Id}]", ("minutes", t.Minutes), ("setupMinutes", t.SetupMinutes))),
            .. m.Components.SelectMany(c => c.Work.SelectMany(w => Named($"components[{c.Id}].work[{w.Action}]", ("minutes", w.Minutes), ("parts", w.Parts)))),
            .. map.Modes.Values.Select(x => ($"components[{x.Component.Id}].modes[{x.Mode.Id}].life.perParkedYear", x.Mode.Life.PerParkedYear)),
            .. map.Modes.Values.SelectMany(x => x.Mode.Onset.Select(o => ($"components[{x.Component.Id}].modes[{x.Mode.Id}].onset.{o.Key}", o.Value))),
            .. map.Modes.Values.SelectMany(x => x.Mode.Incidents.Select(i => ($"components[{x.Component.Id}].modes[{x.Mode.Id}].incidents.{i.Key}", i.Value))),
            .. Named("advice", ("noneCost", m.Advice.NoneCost), ("ratePerMinute", m.Advice.RatePerMinute), ("retestMinutes", m.Advice.RetestMinutes)),
            ("use.kmPerYear", m.Use.KmPerYear),
        ];
        return
        [
            .. figures.Where(f => !(f.Value >= 0 && double.IsFinite(f.Value))).Select(f => new LintNote("figure-range", f.Path, $"{f.Value} must be a finite number, 0 or more.")),
            .. m.Components.SelectMany(c => c.Work.Where(w => !Actions.Contains(w.Action))
                .Select(w => new LintNote("action-kind", $"components[{c.Id}].work[{w.Action}]", $"'{w.Action}' is none of {string.Join(", ", Actions)}."))),
        ];
    }

    private static IEnumerable<LintNote> UnnoticedWarnings(ModelMap map)
    {
        var owned = map.Modes.Values.Where(m => !m.Component.Instrument && !m.Component.Consumable).ToList();
        double mean = owned.Count == 0 ? 0 : owned.Average(m => m.Mode.Unnoticed);
        return owned.Where(m => m.Mode.Unnoticed > 3 * mean)
            .Select(m => new LintNote("unnoticed-high", $"components[{m.Component.Id}].modes[{m.Mode.Id}].unnoticed", $"{m.Mode.Unnoticed} is over three times the mean of {mean:0.####}. Is it really overlooked so often on a car that ran well?"));
    }

    private static IEnumerable<LintNote> BackgroundWarnings(ModelMap map) =>
        map.Model.Conditions.Where(c => c.Background.Values.Sum() > 5e-4 && c.Effects.Count > 0)
            .Select(c => new LintNote("background-owned", $"conditions[{c.Id}].background", $"{c.Background.Values.Sum()} in total is above 0.0005 although the condition has causes in the model; it would beat a new bad part."));
}
