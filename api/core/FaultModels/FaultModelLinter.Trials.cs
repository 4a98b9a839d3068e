namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    /// <summary>What is done to a part, not to conditions alone.</summary>
    private static readonly string[] DoneToParts = ["another", "unplug", "touch"];

    private static readonly string[] StandIns = ["new", "newUnbranded", "rebuilt", "used", "unknown"];

    private static readonly string[] Doings = CommonWords.Ids(CommonWords.Doings), TrialResults = CommonWords.Ids(CommonWords.TrialResults);

    private static readonly string[] CarSides = CommonWords.Ids(CommonWords.Sides), Onsets = CommonWords.Ids(CommonWords.Onsets);

    private static IEnumerable<LintNote> TrialIds(FaultModel model, Func<string, bool> component, Func<string, bool> condition, Func<string, bool> tool) =>
    [
        .. model.Components.SelectMany(c => Missing(c.Moves, component, $"components[{c.Id}].moves", "a component")),
        .. model.Trials.SelectMany(t => Missing(One(t.Component), component, $"trials[{t.Id}].component", "a component")),
        .. model.Trials.SelectMany(t => Missing(t.Moves, component, $"trials[{t.Id}].moves", "a component")),
        .. model.Trials.SelectMany(t => Missing(t.Right, condition, $"trials[{t.Id}].right", "a condition")),
        .. model.Trials.SelectMany(t => Missing(t.Tools, tool, $"trials[{t.Id}].tools", "a tool")),
    ];

    private static IEnumerable<LintNote> TrialRules(ModelMap map) => map.Model.Trials.SelectMany(t => TrialRules(map, t));

    private static IEnumerable<LintNote> TrialRules(ModelMap map, Trial t)
    {
        string path = $"trials[{t.Id}]";
        bool known = Doings.Contains(t.Do);
        if (!known)
        {
            yield return new LintNote("trial-kind", $"{path}.do", $"'{t.Do}' is none of {string.Join(", ", Doings)}.");
        }

        if (known && (DoneToParts.Contains(t.Do) ? t.Component is null : t.Component is null && t.Right.Count == 0))
        {
            yield return new LintNote("trial-kind", path, $"'{t.Do}' to what? Name the component, or for bypass and extra-fuel the conditions that are right meanwhile.");
        }

        foreach (string kind in t.Kinds.Where(k => !EventKinds.Contains(k)))
        {
            yield return new LintNote("trial-kind", $"{path}.kinds[{kind}]", $"'{kind}' is none of {string.Join(", ", EventKinds)}.");
        }

        if (!StandIns.Contains(t.StandIn))
        {
            yield return new LintNote("trial-kind", $"{path}.standIn", $"'{t.StandIn}' is none of {string.Join(", ", StandIns)}.");
        }

        foreach (LintNote note in Work(path, t.Hazard, t.Cautions, t.Steps).Concat(FormerChecks(map.Model, t)))
        {
            yield return note;
        }
    }

    private static IEnumerable<LintNote> FormerChecks(FaultModel model, Trial t)
    {
        foreach ((string check, IReadOnlyDictionary<string, string> results) in t.Formerly)
        {
            string path = $"trials[{t.Id}].formerly[{check}]";
            if (model.Checks.Any(c => c.Id == check) || model.Trials.Any(o => o.Id != t.Id && o.Formerly.ContainsKey(check)))
            {
                yield return new LintNote("former-check", path, $"{check} is still a check, or was taken over by another trial too. What was recorded of it must mean one thing.");
            }

            foreach ((string outcome, string result) in results.Where(r => !TrialResults.Contains(r.Value)))
            {
                yield return new LintNote("trial-result", $"{path}.{outcome}", $"'{result}' is none of {string.Join(", ", TrialResults)}.");
            }
        }
    }

    /// <summary>What a check and a trial have in common: hazard, cautions and steps.</summary>
    private static IEnumerable<LintNote> Work(string path, string hazard, IReadOnlyList<string> cautions, IReadOnlyList<string> steps)
    {
        if (!CommonWords.Hazards.Contains(hazard))
        {
            yield return new LintNote("hazard-kind", $"{path}.hazard", $"'{hazard}' is none of {string.Join(", ", CommonWords.Hazards)}.");
        }

        if (hazard != "none" && !cautions.Any(t => !string.IsNullOrWhiteSpace(t)))
        {
            yield return new LintNote("missing-cautions", $"{path}.cautions", $"Hazard {hazard} without a caution. Say what can hurt and how to stay safe.");
        }

        if (!steps.Any(s => !string.IsNullOrWhiteSpace(s)))
        {
            yield return new LintNote("missing-steps", $"{path}.steps", "No steps. Say in order what to do.");
        }
    }

    /// <summary>What is put right together needs work of its own on each part.</summary>
    private static IEnumerable<LintNote> TogetherRules(FaultModel model, Component part, Mode mode)
    {
        foreach (string other in mode.Together)
        {
            Component? named = model.Components.FirstOrDefault(c => c.Id == other);
            string? wrong = other == part.Id ? "is the component itself" : named is { Work.Count: 0 } ? "has no work that could be done along with it" : null;
            if (wrong is not null)
            {
                yield return new LintNote("together", $"components[{part.Id}].modes[{mode.Id}].together[{other}]", $"{other} {wrong}. Name components that go bad along with it and that can be put right.");
            }
        }
    }

    private static IEnumerable<LintNote> PartRules(FaultModel model) =>
    [
        .. model.Components.SelectMany(c => c.Modes.SelectMany(m => TogetherRules(model, c, m))),
        .. model.Components.Where(c => c.Side is not null && !CarSides.Contains(c.Side))
            .Select(c => new LintNote("side-kind", $"components[{c.Id}].side", $"'{c.Side}' is none of {string.Join(", ", CarSides)}.")),
        .. model.Components.SelectMany(c => c.Modes.SelectMany(m => m.Onset.Keys.Where(o => !Onsets.Contains(o))
            .Select(o => new LintNote("onset-kind", $"components[{c.Id}].modes[{m.Id}].onset.{o}", $"'{o}' is none of {string.Join(", ", Onsets)}.")))),
    ];
}
