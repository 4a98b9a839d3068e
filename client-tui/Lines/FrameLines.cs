using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;

namespace FuelHistory.Client.Lines;

/// <summary>Title at the left, the server's state at the right, below them a rule with the place in what is longer than the screen.</summary>
internal static class HeaderLines
{
    public static IReadOnlyList<Line> Of(string title, ServerState server, bool waiting, bool old, int width, Signs signs, string place = "")
    {
        var state = server.Offline ? $"OFFLINE since {server.Since:HH:mm}, trying again" : waiting ? (old ? "NOT UP TO DATE, asking" : "asking the server") : old ? "NOT UP TO DATE" : "";
        var room = width - Cells.Width(state) - (state.Length > 0 ? 2 : 0);
        return
        [
            Line.Of(row: null, new Span(Cells.Fit(Clean.Of(title, signs), room, signs), Role.Title), new Span(state.Length > 0 ? "  " + state : "", server.Offline || old ? Role.Warning : Role.Faint)),
            Line.Of(Rule(place, width, signs), Role.Faint),
        ];
    }

    /// <summary>The place in the list stands in the rule, where it covers nothing.</summary>
    private static string Rule(string place, int width, Signs signs)
    {
        string Of(int cells) => string.Concat(Enumerable.Repeat(signs.Rule, Math.Max(0, cells)));
        return place.Length == 0 ? Of(width) : $"{Of(width - place.Length - 4)} {place} {Of(2)}";
    }
}

/// <summary>What just happened, in at most three rows.</summary>
internal static class MessageLines
{
    private const int MostRows = 3;

    public static IReadOnlyList<Line> Of(string message, int width, Signs signs)
    {
        if (message.Length == 0) return [];
        var rows = Cells.Wrap(Clean.Of(message, signs), width - 1);
        return [.. rows.Take(MostRows).Select((row, at) => Line.Of(at == MostRows - 1 && rows.Count > MostRows ? Cells.Cut(row + " " + rows[at + 1], width - 1, signs) : row, Role.Warning))];
    }
}

/// <summary>The keys that work now, in at most two rows, none cut; the help key is always there.</summary>
internal static class FooterLines
{
    private const int MostRows = 2;
    private const string Gap = "  ";

    public static IReadOnlyList<Line> Of(IReadOnlyList<Bound> keys, int width, Signs signs)
    {
        var words = keys.Where(bound => bound.Use.Label.Length > 0 && bound.Reason is null)
            .Select(bound => $"{bound.Use.Shown} {bound.Use.Label}").Distinct().ToList();
        List<string> rows = [""];
        var help = words[^1];
        foreach (var word in words)
        {
            var last = rows.Count == MostRows;
            var reserve = last && word != help ? Gap.Length + help.Length : 0;
            if (Joined(rows[^1], word).Length + reserve <= width) rows[^1] = Joined(rows[^1], word);
            else if (!last) rows.Add(word);
        }
        return [.. rows.Select(row => Line.Of(Clean.Of(row, signs), Role.Faint))];
    }

    private static string Joined(string row, string word) => row.Length == 0 ? word : row + Gap + word;
}

/// <summary>Said instead of a screen where the terminal is too small for one.</summary>
internal static class SmallLines
{
    public static IReadOnlyList<Line> Of(int width, int height, int leastWidth, int leastHeight) =>
    [
        .. Cells.Wrap($"This needs {leastWidth} x {leastHeight}; the terminal has {width} x {height}.", Math.Max(1, width)).Select(text => Line.Of(text)),
        .. Cells.Wrap($"Make it larger, or {Keys.Leave.Shown} quits.", Math.Max(1, width)).Select(text => Line.Of(text)),
    ];
}

/// <summary>The help of a screen, from the same table as its footer.</summary>
internal static class HelpLines
{
    public static IReadOnlyList<KeyUse> Travel { get; } = [Keys.Up, Keys.Down, Keys.PageUp, Keys.PageDown, Keys.First, Keys.Last];

    public static IReadOnlyList<Line> Of(IReadOnlyList<Bound> keys, bool travels, int width, Signs signs)
    {
        List<Line> lines = [];
        foreach (var bound in keys.DistinctBy(bound => (bound.Use.Shown, bound.Use.Help)))
            lines.AddRange(Entry(bound.Use, bound.Reason, width, signs));
        if (travels) lines.AddRange(Travel.SelectMany(use => Entry(use, null, width, signs)));
        return lines;
    }

    private static IEnumerable<Line> Entry(KeyUse use, string? reason, int width, Signs signs)
    {
        const int column = 14;
        var text = reason is null ? use.Help : $"{use.Help} (not now: {reason})";
        var first = true;
        foreach (var piece in Cells.Wrap(Clean.Of(text, signs), width - column - 1))
        {
            yield return Line.Of(row: null, new Span("  " + Cells.Fit(first ? use.Shown : "", column - 2, signs), Role.Title), new Span(piece));
            first = false;
        }
    }
}
