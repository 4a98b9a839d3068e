namespace FuelHistory.Client.Words;

/// <summary>The few signs beyond letters; in ASCII where the terminal may not have them.</summary>
internal sealed record Signs(string Full, string Half, string Empty, string Cut, string Rule, string Mark, string Times, string Dot, string Arrow, bool Ascii)
{
    public static Signs Unicode { get; } = new("█", "▌", "·", "…", "─", "▸", "×", "·", "→", Ascii: false);

    public static Signs Plain { get; } = new("#", "-", ".", "~", "-", ">", "x", "-", "->", Ascii: true);
}
