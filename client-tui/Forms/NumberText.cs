using System.Globalization;
using System.Text.RegularExpressions;

namespace FuelHistory.Client.Forms;

/// <summary>Reads a number as people write it. Blanks and apostrophes between groups of three are thousands; of two different marks the last is the
/// decimal one. One mark before exactly three digits can be either: thousands where whole figures are usual, such as an odometer; else a
/// point is a decimal point and a comma is refused.</summary>
internal static partial class NumberText
{
    private const char NoBreak = '\u00a0', NarrowNoBreak = '\u202f', Thin = '\u2009', Quote = '\u2019';

    private static readonly string[] NotKnown = ["unknown", "not known", "?"];

    /// <summary>Said in place of a figure that nobody knows; the field is left empty then.</summary>
    public static bool IsUnknown(string? text) => text is not null && NotKnown.Contains(text.Trim(), StringComparer.OrdinalIgnoreCase);

    /// <param name="thousands">Whether one mark before exactly three digits parts thousands.</param>
    public static bool TryRead(string text, bool thousands, out double value)
    {
        value = 0;
        return Plain(text.Trim(), thousands) is { } plain
            && double.TryParse(plain, NumberStyles.Float & ~NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
    }

    /// <summary>Why a number was not taken, where it could mean two things; begins with a comma.</summary>
    public static string Doubt(string text) => Split(text) is { } parts && parts.Number.Contains(',') && OneMark().IsMatch(parts.Number)
        ? $", for it could be {parts.Number.Replace(',', '.')} or {parts.Number.Replace(",", "", StringComparison.Ordinal)}"
        : "";

    /// <summary>The number part and the rest of "84 210 km".</summary>
    public static (string Number, string Unit)? Split(string text)
    {
        var match = NumberAndUnit().Match(text.Trim());
        return match.Success ? (match.Groups[1].Value.Trim(), match.Groups[2].Value.Trim()) : null;
    }

    private static string? Plain(string text, bool thousands)
    {
        var spaced = text.Replace(NoBreak, ' ').Replace(NarrowNoBreak, ' ').Replace(Thin, ' ').Replace(Quote, '\'');
        if (spaced.AsSpan().IndexOfAny(' ', '\'') >= 0)
        {
            if (!Grouped().IsMatch(spaced)) return null;
            return spaced.Replace(" ", "", StringComparison.Ordinal).Replace("'", "", StringComparison.Ordinal).Replace(',', '.');
        }
        var (commas, points) = (spaced.Count(c => c is ','), spaced.Count(c => c is '.'));
        if (commas + points == 0) return spaced;
        if (commas > 0 && points > 0) return Mixed(spaced);
        var mark = commas > 0 ? ',' : '.';
        if (commas + points > 1) return Repeated().IsMatch(spaced) ? spaced.Replace(mark.ToString(), "", StringComparison.Ordinal) : null;
        if (!OneMark().IsMatch(spaced)) return spaced.Replace(',', '.');
        if (thousands) return spaced.Replace(mark.ToString(), "", StringComparison.Ordinal);
        return mark is ',' ? null : spaced;
    }

    /// <summary>"1,234.5" or "1.234,5": the mark that comes last, once, is the decimal one.</summary>
    private static string? Mixed(string text)
    {
        var (last, other) = text.LastIndexOf(',') > text.LastIndexOf('.') ? (',', '.') : ('.', ',');
        var parts = text.Split(last);
        if (parts.Length != 2 || !Repeated().IsMatch(parts[0]) || !parts[0].Contains(other)) return null;
        return parts[0].Replace(other.ToString(), "", StringComparison.Ordinal) + "." + parts[1];
    }

    [GeneratedRegex(@"^([-+]?[0-9](?:[0-9.,'\u2019]|[ \u00a0\u202f\u2009](?=[0-9]))*(?:[eE][-+]?[0-9]+)?)\s*(.*)$")]
    private static partial Regex NumberAndUnit();

    [GeneratedRegex(@"^[-+]?[0-9]{1,3}([ '][0-9]{3})+([.,][0-9]+)?$")]
    private static partial Regex Grouped();

    [GeneratedRegex(@"^[-+]?[1-9][0-9]{0,2}([.,][0-9]{3})+$")]
    private static partial Regex Repeated();

    [GeneratedRegex(@"^[-+]?[1-9][0-9]{0,2}[.,][0-9]{3}$")]
    private static partial Regex OneMark();
}
