using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>What counts and what is tried, with the effect of it above: before and after.</summary>
internal static class WhatIfLines
{
    private const double LeastMoved = 0.005;
    private const int MostChanges = 5, LeastListed = 4, DateWidth = 10, KindWidth = 8;

    public static IReadOnlyList<Line> Of(IReadOnlyList<Switched> switches, int row, WhatIfAnswer? answer, bool asking, int width, int height, Signs signs)
    {
        // nothing stored, and the heading of the list
        var room = Math.Max(0, height - 2 - LeastListed);
        List<Line> lines =
        [
            Line.Of(Cells.Cut("  Nothing here is stored: it only shows what would change.", width, signs), Role.Title),
            .. switches.All(each => each.On && each.Trial is null) ? Wrapped($"This is the record as it is. {Keys.Switch.Shown} leaves the marked line out; {Keys.Try.Shown} tries an outcome, an answer or a part.", width) : [],
            .. answer is null ? [Line.Of(asking ? "  Asking for the effect ..." : "  There is no effect to show.", Role.Faint)] : Effect(answer, asking, MostChanges, width, signs).Take(room),
            LikelyLines.Rule("What counts", width, signs),
        ];
        if (switches.Count == 0) return [.. lines, Line.Of(Cells.Cut($"  Nothing is recorded for this complaint yet; {Keys.Try.Shown} tries something.", width, signs), Role.Faint)];
        var most = Math.Max(1, height - lines.Count);
        var first = Math.Clamp(row - most + 1, 0, Math.Max(0, switches.Count - most));
        return [.. lines, .. switches.Select((each, at) => Entry(each, at, width, signs)).Skip(first).Take(most)];
    }

    /// <summary>Leader, cost, the components that move furthest, and the check that would come next.</summary>
    /// <param name="asking">The figures are of the switches before the newest.</param>
    public static IEnumerable<Line> Effect(WhatIfAnswer answer, bool asking, int most, int width, Signs signs)
    {
        var role = asking ? Role.Faint : Role.Plain;
        var then = answer.Assessment;
        if (then.Outcome is not "answered")
        {
            foreach (var note in then.Notes.DefaultIfEmpty($"No ranking: {then.Outcome}").SelectMany(text => Cells.Wrap("! " + Clean.Of(text, signs), width - 4))) yield return Line.Of("  " + note, Role.Warning);
            yield break;
        }
        yield return Line.Of(Cells.Cut("  " + Clean.Of(Leader(answer, signs), signs), width, signs), role);
        yield return Line.Of(Cells.Cut("  " + Cost(answer, signs), width, signs), role);
        foreach (var conflict in Disagreeing.Conflicts(then).Take(1)) yield return Line.Of(Cells.Cut("  ! " + Clean.Of(conflict.Sentence, signs), width, signs), asking ? Role.Faint : Role.Warning);
        var moved = answer.Changes.Where(change => Math.Abs(change.ExplainsAfter - change.ExplainsBefore) >= LeastMoved).Take(most).ToList();
        if (moved.Count == 0 && answer.Tried.Count + answer.Without.Count > 0) yield return Line.Of("  Nothing moves.", role);
        if (moved.Count > 0) yield return Line.Of(Change("Explains", "before", "after", width, signs), Role.Title);
        foreach (var change in moved) yield return Line.Of(Change(Clean.Of(change.Title, signs), Figures.Percent(change.ExplainsBefore), Figures.Percent(change.ExplainsAfter), width, signs) + Moved(change), role);
        if (answer.Advice.NextChecks.Count > 0 && answer.Advice.NextChecks[0] is { } next) yield return Line.Of(Cells.Cut($"  Next check then: {Clean.Of(next.Title, signs)} ({CheckLines.Saving(next, then.Currency)})", width, signs), role);
    }

    private static IEnumerable<Line> Wrapped(string text, int width) => Cells.Wrap(text, width - 4).Select(piece => Line.Of("  " + piece, Role.Faint));

    private static string Leader(WhatIfAnswer answer, Signs signs)
    {
        if (answer.Assessment.Ranking.Count == 0) return "Nobody leads.";
        var then = answer.Assessment.Ranking[0];
        return answer.LeaderBefore is { } before && before.Component == then.Component
            ? $"Still first: {then.Title} {Figures.Percent(before.Explains)} {signs.Arrow} {Figures.Percent(then.Explains)}"
            : $"First: {(answer.LeaderBefore is { } other ? $"{other.Title} {Figures.Percent(other.Explains)}" : "none")} {signs.Arrow} {then.Title} {Figures.Percent(then.Explains)}";
    }

    private static string Cost(WhatIfAnswer answer, Signs signs)
    {
        string Amount(double? cost) => cost is { } amount ? Figures.Cost(amount, answer.Assessment.Currency) : "none";
        var resolved = Math.Max(answer.ResolvedBefore, answer.Assessment.Resolved) > 0.005 ? $"; resolved: {PlainFigures.Chance(answer.ResolvedBefore, answer.Assessment.Figures)} {signs.Arrow} {PlainFigures.Chance(answer.Assessment.Resolved, answer.Assessment.Figures)}" : "";
        return $"Expected cost {Amount(answer.CostBefore)} {signs.Arrow} {Amount(answer.CostAfter)}{resolved}";
    }

    private static string Change(string title, string before, string after, int width, Signs signs)
    {
        var name = Math.Clamp(width / 2, 24, 44);
        return $"    {Cells.Fit(title, name, signs)} {Cells.Fit(before, 6, signs, right: true)} {signs.Arrow} {Cells.Fit(after, 6, signs, right: true)}";
    }

    /// <summary>In words, so that a fall is not only seen by comparing.</summary>
    private static string Moved(Change change) => change.ExplainsAfter > change.ExplainsBefore ? "  up" : change.ExplainsAfter < change.ExplainsBefore ? "  down" : "";

    private static Line Entry(Switched each, int row, int width, Signs signs)
    {
        var sign = each.On ? "[on ]" : "[off]";
        var text = (each.Doubted ? "! does not fit: " : "") + Clean.Of(each.Text, signs);
        var role = !each.On ? Role.Faint : each.Doubted ? Role.Warning : each.Trial is not null ? Role.Title : Role.Plain;
        return Line.Of(row, new Span($"  {sign} {Cells.Fit(Clean.Of(each.Date, signs), DateWidth, signs)} {Cells.Fit(each.Kind, KindWidth, signs)}", Role.Faint), new Span(Cells.Cut(text, width - DateWidth - KindWidth - 11, signs), role));
    }
}
