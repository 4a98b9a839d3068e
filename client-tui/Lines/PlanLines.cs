using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>The repairs in order, with what each costs and how much of the complaint is right after it.</summary>
internal static class PlanLines
{
    private const double ManyWorthTelling = 0.1, ResolvedWorthTelling = 0.005, AsGoodAsSure = 0.995;

    public static IReadOnlyList<Line> Of(Assessment assessment, Advice advice, int width, Signs signs)
    {
        var plan = advice.Plan!;
        List<Line> lines = [.. Wrapped(plan.Advice, Role.Title)];
        lines.AddRange(Wrapped($"Expected cost {Figures.Cost(plan.ExpectedCost, assessment.Currency)}, give or take {Figures.Cost(plan.Spread, assessment.Currency)}; a specialist instead {Figures.Cost(plan.SpecialistCost, assessment.Currency)}.", Role.Plain));
        if (assessment.Resolved > ResolvedWorthTelling) lines.AddRange(Wrapped($"Resolved by what was repaired: {Said(assessment.Resolved)}.", Role.Plain));
        if (assessment.MoreThanOne > ManyWorthTelling) lines.AddRange(Wrapped($"! More than one repair is needed for {PlainFigures.Share(assessment.MoreThanOne, assessment.Figures)} of it.", Role.Warning));
        lines.Add(LikelyLines.Rule("In this order, until all is right", width, signs));
        if (plan.Steps.Count == 0) lines.AddRange(Wrapped("No repair here is worth its cost.", Role.Plain));
        foreach (var (step, place) in plan.Steps.Select((step, place) => (step, place)))
        {
            lines.Add(Line.Of(Cells.Cut($"  {place + 1,2}. {Clean.Of($"{step.Title}: {Action(step.Action)}", signs)}", width, signs)));
            lines.AddRange(step.With.Select(with => Line.Of(Cells.Cut($"      with it {Clean.Of($"{with.Title}: {Action(with.Action)}", signs)}", width, signs))));
            if (step.LookFirst is { } look) lines.AddRange(Wrapped($"Look first: {look}", Role.Plain, 6));
            lines.Add(Line.Of(Cells.Cut("      " + Clean.Of($"{Figures.Minutes(step.Minutes)}, parts {Figures.Cost(step.Parts, assessment.Currency)}, together {Figures.Cost(step.Cost, assessment.Currency)}{(step.Success < AsGoodAsSure ? $"; {Said(step.Success)} that it helps" : "")}", signs), width, signs)));
            lines.Add(Line.Of(row: null, new Span("      "), new Span(Figures.Bar(step.FixedAfter, Math.Max(10, width / 3), signs), Role.Bar), new Span($" {Said(step.FixedAfter)} that all is right then")));
            foreach (var cause in Causes(assessment, step.Component)) lines.AddRange(Wrapped($"Ask what caused it: {cause}", Role.Plain, 6));
        }
        lines.AddRange(Wrapped("After each repair the check that failed is repeated; only that proves it.", Role.Plain));
        return lines;

        string Said(double p) => PlainFigures.Chance(p, assessment.Figures);

        IEnumerable<Line> Wrapped(string text, Role role, int indent = 2) =>
            Cells.Wrap(Clean.Of(text, signs), width - indent - 2).Select(piece => Line.Of(new string(' ', indent) + piece, role));
    }

    private static string Action(string action) => action switch
    {
        "replace" => "fit a new one",
        "clean" or "adjust" => $"{action} it",
        _ => action,
    };

    /// <summary>What may have made the part bad: fitted without that, the new one goes the same way.</summary>
    private static IReadOnlyList<string> Causes(Assessment assessment, string component) =>
        assessment.Ranking.FirstOrDefault(ranked => ranked.Component == component)?.CausedBy ?? [];
}
