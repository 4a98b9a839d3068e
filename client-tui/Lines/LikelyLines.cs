using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>The ranking as bars, the marked component's reasons, the next check and what its outcomes would do.</summary>
internal static class LikelyLines
{
    private const int PercentWidth = 6;
    private const int LeastRanked = 4;
    private const int MostOutcomes = 3;
    private const int RoomyHeight = 18;
    private const int MostNoteRows = 4;

    public static IReadOnlyList<Line> Of(Assessment assessment, Advice? advice, Complaint complaint, int row, int width, int height, Signs signs)
    {
        if (assessment.Ranking.Count == 0) return NoRanking(assessment, width, signs);
        List<Line> head = [.. StopLines.Short(assessment, width, signs), .. State(assessment, complaint, width, height, signs)];
        // heading, remainder, two lines of reasons and the least ranking have to stay beside the check
        var next = NextCheck(advice, width, Math.Max(0, height - head.Count - LeastRanked - 4 - 3), signs);
        IReadOnlyList<Line> why = row < assessment.Ranking.Count ? WhyLines.Short(assessment.Ranking[row], assessment.Figures, width, signs) : [];
        List<Line> rest = [.. Remainder(assessment, width, signs)];
        // the check gets its room first, then the ranking, then the reasons: all of them are a key away
        var room = height - head.Count - 1 - rest.Count - next.Count;
        var ranked = Math.Clamp(room - Math.Min(why.Count, 4), LeastRanked, Math.Max(LeastRanked, assessment.Ranking.Count));
        return [.. head, .. Ranking(assessment, row, ranked, width, signs), .. rest, .. why.Take(Math.Max(2, room - Math.Min(ranked, assessment.Ranking.Count))), .. next];
    }

    /// <summary>Heading and rows; where not all fit, a window around the marked one.</summary>
    public static IReadOnlyList<Line> Ranking(Assessment assessment, int row, int most, int width, Signs signs)
    {
        var ranking = assessment.Ranking;
        var name = Math.Clamp(width * 2 / 5, 18, 40);
        var bar = width - 2 - name - 1 - PercentWidth - 2 - PercentWidth - 2;
        var first = Math.Clamp(row - most + 1, 0, Math.Max(0, ranking.Count - most));
        if (row < first) first = row;
        return
        [
            Line.Of(row: null, new Span("  " + Cells.Fit("Component", name, signs) + " " + Cells.Fit("explains of the complaint", bar, signs) + Cells.Fit("expl.", PercentWidth, signs, right: true) + "  " + Cells.Fit("bad", PercentWidth, signs, right: true), Role.Title)),
            .. ranking.Select((each, at) => (each, at)).Skip(first).Take(most).Select(each => Line.Of(each.at,
                new Span("  " + Cells.Fit(Clean.Of(each.each.Title, signs), name, signs) + " "), new Span(Figures.Bar(each.each.Explains, bar, signs), Role.Bar),
                new Span(Cells.Fit(Figures.Percent(each.each.Explains), PercentWidth, signs, right: true) + "  " + Cells.Fit(PlainFigures.Brief(each.each.Bad, assessment.Figures), PercentWidth, signs, right: true)))),
        ];
    }

    /// <summary>Why there is no ranking, in full.</summary>
    private static List<Line> NoRanking(Assessment assessment, int width, Signs signs)
    {
        string[] what = assessment.Outcome is "contradiction"
            ? ["These findings cannot all be true, so nothing can be ranked. Look at each again, and at the gauge and its connections."]
            : ["There is no ranking now."];
        string[] way = assessment.Outcome is "contradiction"
            ? [$"{Keys.WhatIf.Shown} opens {Keys.WhatIf.Label}: these findings stand first there, and each can be left out to see what it changes."]
            : [];
        return
        [
            .. StopLines.Short(assessment, width, signs),
            .. what.Concat(assessment.Notes).Concat(assessment.Asks).Concat(way)
                .SelectMany(text => Cells.Wrap(Clean.Of(text, signs), width - 4).Select(piece => Line.Of("  " + piece, Role.Warning)).Prepend(Line.Blank)),
        ];
    }

    /// <summary>What keeps the ranking from being plain: closed, contradiction, left out, asked for, findings that do not fit.</summary>
    private static IEnumerable<Line> State(Assessment assessment, Complaint complaint, int width, int height, Signs signs)
    {
        List<string> notes = [];
        if (complaint.Closed is { } closed) notes.Add($"Closed {Figures.Day(closed.At)}: {closed.Result.Replace('-', ' ')}");
        if (!assessment.Exact) notes.Add("Not exact; left out: " + string.Join(", ", assessment.LeftOut));
        notes.AddRange(Disagreeing.Conflicts(assessment).Select(each => $"{each.Sentence} ({Keys.WhatIf.Shown}: {Keys.WhatIf.Label} one of them did not count)").Concat(assessment.Asks));
        if (notes.Count == 0) yield break;
        var more = notes.Count > 1 ? $" (+{notes.Count - 1} more: {Keys.Why.Shown})" : "";
        // a finding that does not fit is told in full where there is room; a line less of the ranking is a small price
        foreach (var (row, at) in Shortened("! " + Clean.Of(notes[0], signs), more, height >= RoomyHeight ? MostNoteRows : 1, width - 6, signs).Select((row, at) => (row, at)))
            yield return Line.Of((at == 0 ? "  " : "    ") + row, Role.Warning);
    }

    /// <summary>At most so many rows; the tail stands at the end whether or not the text had to be cut.</summary>
    private static IEnumerable<string> Shortened(string text, string tail, int most, int width, Signs signs)
    {
        var rows = Cells.Wrap(text + tail, width);
        if (rows.Count <= most) return rows;
        var bare = Cells.Wrap(text, width);
        return [.. bare.Take(most - 1), Cells.Cut(string.Join(' ', bare.Skip(most - 1)), width - tail.Length, signs) + tail];
    }

    private static IEnumerable<Line> Remainder(Assessment assessment, int width, Signs signs)
    {
        List<string> parts = [$"none of these {PlainFigures.Share(assessment.NoneOfThese, assessment.Figures)}", $"other cause {Said(assessment.OtherCause)}"];
        if (assessment.Resolved > 0.005) parts.Insert(0, $"resolved {Said(assessment.Resolved)}");
        if (assessment.Items.Count > 1) parts.Add($"{assessment.Items.Count} items");
        if (assessment.MoreThanOne > 0.1) parts.Add($"more than one repair needed for {PlainFigures.Share(assessment.MoreThanOne, assessment.Figures)}");
        yield return Line.Of(Cells.Cut("  " + string.Join("; ", parts), width, signs), Role.Faint);
        foreach (var surprise in Disagreeing.Surprises(assessment).Take(1)) yield return Line.Of(Cells.Cut("  " + Clean.Of(surprise.Sentence, signs), width, signs), Role.Faint);

        string Said(double p) => PlainFigures.Chance(p, assessment.Figures);
    }

    /// <summary>The first check, if any, with what each outcome would do.</summary>
    public static IReadOnlyList<Line> NextCheck(Advice? advice, int width, int outcomes, Signs signs)
    {
        if (advice is null) return [Line.Of("  Next check: being worked out ...", Role.Faint)];
        List<Line> lines = [];
        if (advice.NextChecks.Count > 0)
        {
            var next = advice.NextChecks[0];
            lines.Add(Rule($"Next {(next.Trial ? "trial" : "check")}: {Clean.Of(next.Title, signs)}", width, signs));
            lines.Add(Line.Of(Cells.Cut("  " + Clean.Of(CheckLines.Price(next, advice.Currency), signs), width, signs), next.Hazard is "none" ? Role.Plain : Role.Warning));
            lines.AddRange(next.Outcomes.Take(Math.Min(outcomes, MostOutcomes)).Select(outcome => Line.Of(Cells.Cut("  " + Clean.Of(Outcome(outcome, advice.Figures), signs), width, signs))));
        }
        if (advice.Plan is { } plan) lines.Add(Line.Of(Cells.Cut("  " + Clean.Of(plan.Advice, signs), width, signs), Role.Title));
        return lines;
    }

    public static string Outcome(CheckOutcome outcome, string style) =>
        $"{outcome.Title} ({PlainFigures.Chance(outcome.Probability, style)}): " + string.Join(", ", outcome.Leaders.Take(3).Select(leader => $"{leader.Title} {Figures.Percent(leader.Explains)}"));

    internal static Line Rule(string text, int width, Signs signs)
    {
        var cut = Cells.Cut(text, width - 6, signs);
        var rest = Math.Max(0, width - 4 - Cells.Width(cut));
        return Line.Of(row: null, new Span(signs.Rule + signs.Rule + " ", Role.Faint), new Span(cut, Role.Title), new Span(" " + string.Concat(Enumerable.Repeat(signs.Rule, rest)), Role.Faint));
    }
}
