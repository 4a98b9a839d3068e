namespace FuelHistory.Client.Words;

/// <summary>The few signs beyond letters; in ASCII where the terminal may not have them.</summary>
internal sealed record Signs(string Full, string Half, string Empty, string Cut, string Rule, string Mark, string Times, string Dot, string Arrow, bool Ascii, bool Braille = false)
{
    public static Signs Unicode { get; } = new("█", "▌", "·", "…", "─", "▸", "×", "·", "→", Ascii: false, Braille: true);

    /// <summary>For terminals whose letters have blocks and no braille.</summary>
    public static Signs Blocks { get; } = Unicode with { Braille = false };

    public static Signs Plain { get; } = new("#", "-", ".", "~", "-", ">", "x", "-", "->", Ascii: true);
}
