using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>How a component came to stand where it stands: each finding and work that moved it, in order of time.</summary>
internal static class SequenceLines
{
    private const int PercentWidth = 6, MostBarWidth = 20;

    public static IEnumerable<Line> Of(RankedComponent ranked, string style, int width, Signs signs)
    {
        if (ranked.Sequence.Count == 0) yield break;
        yield return LikelyLines.Rule("How we got here: bad after each finding and work", width, signs);
        var bar = Math.Clamp(width / 6, 8, MostBarWidth);
        yield return Step("before any finding", ranked.Prior, style, bar, width, signs);
        foreach (var step in ranked.Sequence) yield return Step(step.Text, step.Bad, style, bar, width, signs);
    }

    private static Line Step(string text, double bad, string style, int bar, int width, Signs signs) => Line.Of(row: null,
        new Span("  " + Cells.Fit(PlainFigures.Brief(bad, style), PercentWidth, signs, right: true) + " "), new Span(Figures.Bar(bad, bar, signs), Role.Bar),
        new Span(" " + Cells.Cut(Clean.Of(text, signs), width - PercentWidth - bar - 4, signs)));
}
