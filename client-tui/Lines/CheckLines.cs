using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>A check: cautions before steps, then what it is read against.</summary>
internal static class CheckLines
{
    public static Listing List(IReadOnlyList<CheckView> checks, Advice? advice, int width, Signs signs)
    {
        var values = advice?.NextChecks.ToDictionary(next => next.Check) ?? [];
        const int minutes = 8, hazard = 7;
        var gain = advice is null ? 0 : 18;
        var name = width - 2 - minutes - hazard - gain - 3;
        Line Of(CheckView check, int row) => Line.Of(Cells.Cut($"  {Cells.Fit(Clean.Of(check.Title, signs), name, signs)} {Cells.Fit(Figures.Minutes(check.Minutes), minutes, signs)} {Cells.Fit(check.Hazard, hazard, signs)} "
            + (values.TryGetValue(check.Id, out var next) ? Saving(next, advice!.Currency) : ""), width, signs), row: row);
        var head = Line.Of($"  {Cells.Fit("Check", name, signs)} {Cells.Fit("time", minutes, signs)} {Cells.Fit("hazard", hazard, signs)} {(advice is null ? "" : "would save")}", Role.Title);
        return new Listing([head], checks.Count, row => Of(checks[row], row));
    }

    /// <param name="own">The car's own limit for it, where there is one: it judges the reading, not the typical one.</param>
    public static IReadOnlyList<Line> Of(CheckView check, NextCheck? next, IReadOnlyList<NamedThing> tools, int width, Signs signs, Limit? own = null, string style = PlainFigures.Words)
    {
        List<Line> lines = [];
        var needs = check.Tools.Count == 0 ? "no tools" : string.Join(", ", check.Tools.Select(id => tools.FirstOrDefault(tool => tool.Id == id)?.Title ?? id));
        Add($"{Figures.Minutes(check.Minutes)}{(check.SetupMinutes > 0 ? $" and {Figures.Minutes(check.SetupMinutes)} to set up" : "")}; {needs}; hazard {check.Hazard}", Role.Plain);
        foreach (var caution in check.Cautions) Add($"CAUTION: {caution}", Role.Warning);
        if (check.Cautions.Count == 0) Add("The car's workshop manual, local rules and licensed practice come first.", Role.Faint);
        lines.Add(LikelyLines.Rule("Steps", width, signs));
        for (var i = 0; i < check.Steps.Count; i++) lines.AddRange(Numbered(i + 1, check.Steps[i], width, signs));
        lines.Add(LikelyLines.Rule("Reading it", width, signs));
        if (own is not null) Add($"This car's limit: {LimitLines.Figures(own)} ({own.TrustText}; {own.Source})", Role.Plain);
        if (check.Limits is not null) Add($"Limits: {check.Limits}", Role.Plain);
        if (check.Covariate is { } covariate) Add($"Also needed: {covariate.Title}, in {covariate.Unit}", Role.Plain);
        if (check.Outcomes.Count > 0) Add("Outcomes: " + string.Join("; ", check.Outcomes.Select(outcome => outcome.Title)), Role.Plain);
        if (next is { Why.Length: > 0 }) Add(next.Why, Role.Plain);
        foreach (var outcome in next?.Outcomes ?? []) Add(LikelyLines.Outcome(outcome, style), Role.Plain);
        if (next?.SameSetup is { Count: > 0 } more) Add($"On the same hook-up these are worth their time too: {string.Join("; ", more)}", Role.Plain);
        Add($"From: {check.Source}", Role.Faint);
        return lines;

        void Add(string text, Role role) => lines.AddRange(Cells.Wrap(Clean.Of(text, signs), width - 4).Select((piece, at) => Line.Of((at == 0 ? "  " : "    ") + piece, role)));
    }

    /// <summary>"12 min; hazard high; saves 45 EUR; pressure gauge": what may be cut off stands last.</summary>
    public static string Price(NextCheck next, string currency) =>
        $"{Figures.Minutes(next.Minutes)}; hazard {next.Hazard}; {Saving(next, currency)}; {(next.ToolsAtHand ? "" : "NOT AT HAND: ")}{(next.Tools.Count == 0 ? "no tools" : string.Join(", ", next.Tools))}";

    public static string Saving(NextCheck next, string currency) => next switch
    {
        { Repeats: not null } => "repeats what failed",
        { Why.Length: > 0, Saving: < 0.5 } => "comes first",
        { Pays: true } => $"saves {Figures.Cost(next.Saving, currency)}",
        _ => "does not pay",
    };

    private static IEnumerable<Line> Numbered(int number, string step, int width, Signs signs) =>
        Cells.Wrap(Clean.Of(step, signs), width - 8).Select((text, at) => Line.Of((at == 0 ? $"  {number,2}. " : "      ") + text));
}
