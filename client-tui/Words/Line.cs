namespace FuelHistory.Client.Words;

/// <summary>What a stretch of text is for; the look decides how that is painted. Never the only sign of a state: the words say it too.</summary>
internal enum Role { Plain, Title, Faint, Warning, Fine, Bar }

internal readonly record struct Span(string Text, Role Role = Role.Plain);

/// <summary>One line of a screen. Row: which row of the screen's list it shows, where it shows one.</summary>
internal sealed record Line(IReadOnlyList<Span> Spans, int? Row = null)
{
    public static Line Blank { get; } = Of("");

    public string Text => string.Concat(Spans.Select(span => span.Text));

    public static Line Of(string text, Role role = Role.Plain, int? row = null) => new([new Span(text, role)], row);

    public static Line Of(int? row, params Span[] spans) => new(spans, row);
}
