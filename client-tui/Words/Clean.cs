using System.Globalization;
using System.Text;

namespace FuelHistory.Client.Words;

/// <summary>Makes text from elsewhere harmless and countable: no control characters, no direction overrides, no invisible joiners.</summary>
internal static class Clean
{
    public static string Of(string? text, Signs signs)
    {
        if (string.IsNullOrEmpty(text)) return "";
        StringBuilder clean = new(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            if (rune.Value is '\n' or '\r' or '\t') clean.Append(' ');
            else if (Shown(rune)) clean.Append(rune.ToString());
        }
        return signs.Ascii ? ToAscii(clean.ToString()) : clean.ToString();
    }

    private static bool Shown(Rune rune) => Rune.GetUnicodeCategory(rune) is not
        (UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.Surrogate or UnicodeCategory.PrivateUse
        or UnicodeCategory.OtherNotAssigned or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator)
        && rune != Rune.ReplacementChar;

    private static string ToAscii(string text)
    {
        StringBuilder ascii = new(text.Length);
        foreach (var rune in text.Normalize(NormalizationForm.FormKD).EnumerateRunes())
        {
            if (rune.IsAscii) ascii.Append((char)rune.Value);
            else if (Rune.GetUnicodeCategory(rune) is UnicodeCategory.NonSpacingMark) continue;
            else ascii.Append(rune.Value switch { 'ß' => "ss", '°' => "deg ", '×' => "x", '–' or '—' or '−' => "-", '·' => "-", '’' or '‘' => "'", '“' or '”' => "\"", 'Ω' => "ohm", '≥' => ">=", '≤' => "<=", '→' => "->", _ => "?" });
        }
        return ascii.ToString();
    }
}
