using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>The repairs in order, with what each costs and how likely the complaint is gone after it.</summary>
internal static class PlanLines
{
    public static IReadOnlyList<Line> Of(RepairPlan plan, string currency, int width, Signs signs)
    {
        List<Line> lines = [.. Cells.Wrap(Clean.Of(plan.Advice, signs), width - 4).Select(text => Line.Of("  " + text, Role.Title)), Line.Blank];
        var number = 0;
        foreach (var step in plan.Steps)
        {
            number++;
            lines.Add(Line.Of(Cells.Cut($"  {number,2}. {Clean.Of(step.Title, signs)}: {step.Action}", width, signs)));
            lines.Add(Line.Of(Cells.Cut("      " + Clean.Of($"{Figures.Minutes(step.Minutes)}, parts {Figures.Cost(step.Parts, currency)}, together {Figures.Cost(step.Cost, currency)}", signs), width, signs)));
            lines.Add(Line.Of(row: null, new Span("      "), new Span(Figures.Bar(step.GoneAfter, Math.Max(10, width / 3), signs), Role.Bar), new Span($" gone after this with {Figures.Percent(step.GoneAfter)}")));
        }
        lines.Add(Line.Blank);
        lines.Add(Line.Of(Cells.Cut("  " + Clean.Of($"Expected cost {Figures.Cost(plan.ExpectedCost, currency)}; a specialist instead {Figures.Cost(plan.SpecialistCost, currency)}", signs), width, signs)));
        lines.AddRange(Cells.Wrap("After each repair the check that failed is repeated; only that proves it.", width - 4).Select(text => Line.Of("  " + text)));
        return lines;
    }
}
