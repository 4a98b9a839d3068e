using System.Globalization;
using System.Text.RegularExpressions;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>Reads what was typed as figures and times, and collects what cannot be read; whether it makes sense is the host's to say.</summary>
internal sealed partial class Draft(TimeProvider clock)
{
    private readonly List<Fault> _faults = [];

    public IReadOnlyList<Fault> Faults => _faults;

    public void Wrong(Field field, string detail) => _faults.Add(new Fault("/" + field.Name, Problems.Malformed, detail));

    public double? Number(TypedField field)
    {
        if (field.Value is null) return null;
        if (TryNumber(field.Value, out var value)) return value;
        Wrong(field, $"\"{field.Value}\" is no number; write one such as 4.9");
        return null;
    }

    /// <summary>"4.9 bar"; the unit may be left out where <paramref name="unit"/> is given.</summary>
    public Measured? Measure(TypedField field, string? unit)
    {
        if (field.Value is null) return null;
        if (TryMeasure(field.Value, unit) is { } measured) return measured;
        Wrong(field, $"\"{field.Value}\" cannot be read; write a number and a unit, such as 4.9 {unit ?? "bar"}");
        return null;
    }

    /// <summary>"120 EUR", or "120" in the currency of the settings.</summary>
    public Money? Money(TypedField field, string currency)
    {
        if (field.Value is null) return null;
        if (TryMeasure(field.Value, currency) is { } money) return new Money((decimal)money.Value, money.Unit);
        Wrong(field, $"\"{field.Value}\" is no amount; write one such as 120 {currency}");
        return null;
    }

    /// <summary>"ambient-temperature=20 °C; pump-voltage=11.8 V".</summary>
    public IEnumerable<(string Id, Measured Value)> Conditions(TypedField field)
    {
        foreach (var piece in Pieces(field.Value ?? ""))
        {
            var parts = piece.Split('=', 2, StringSplitOptions.TrimEntries);
            if (parts.Length == 2 && TryMeasure(parts[1], null) is { } value) yield return (parts[0], value);
            else Wrong(field, $"\"{piece}\" cannot be read; write the condition, = and a value with its unit, such as ambient-temperature=20 °C");
        }
    }

    /// <summary>A day and time of this place; empty means now.</summary>
    public DateTimeOffset? Moment(TypedField field)
    {
        if (field.Value is null) return null;
        var now = clock.GetLocalNow();
        if (field.Value is "now") return now;
        string[] forms = ["yyyy-MM-dd HH:mm", "yyyy-MM-dd'T'HH:mm", "yyyy-MM-dd HH:mm:ss", "yyyy-MM-dd"];
        if (DateTime.TryParseExact(field.Value, forms, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local))
            return new DateTimeOffset(local, clock.LocalTimeZone.GetUtcOffset(local));
        // with an offset of its own the text is an instant already
        if (WithOffset().IsMatch(field.Value) && DateTimeOffset.TryParse(field.Value, CultureInfo.InvariantCulture, DateTimeStyles.None, out var instant)) return instant;
        Wrong(field, $"\"{field.Value}\" is no day and time; write one such as {now.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture)}");
        return null;
    }

    /// <summary>"today" and "-3" (days ago) become a day, and days and months with dots (14.10.2022, 10.2022) take the host's form; everything
    /// else goes to the host as it stands.</summary>
    public string? Day(TypedField field)
    {
        var today = clock.GetLocalNow();
        if (field.Value is "today") return today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        if (field.Value is { } text && DaysAgo().IsMatch(text))
            return today.AddDays(int.Parse(text, CultureInfo.InvariantCulture)).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        return field.Value is null ? null : WithDots().Replace(field.Value, InOrder);
    }

    private static string InOrder(Match written)
    {
        var month = written.Groups[2].Value.PadLeft(2, '0');
        var day = written.Groups[1].Success ? $"-{written.Groups[1].Value.PadLeft(2, '0')}" : "";
        return $"{written.Groups[3].Value}-{month}{day}";
    }

    /// <summary>"10: 0.8 bar; 20: 0.5 bar": minutes since the stop and the pressure then.</summary>
    public IReadOnlyList<PressurePoint>? Points(TypedField field, string? unit)
    {
        if (field.Value is null) return null;
        List<PressurePoint> points = [];
        foreach (var piece in Pieces(field.Value))
        {
            var parts = piece.Split(':', 2, StringSplitOptions.TrimEntries);
            if (parts.Length == 2 && TryNumber(MinuteWord().Replace(parts[0], ""), out var minutes) && TryMeasure(parts[1], unit) is { } pressure)
                points.Add(new PressurePoint(minutes, pressure));
            else
                Wrong(field, $"\"{piece}\" cannot be read; write minutes and pressure, such as 10: 0.8 {unit ?? "bar"}");
        }
        return points;
    }

    /// <summary>"10: 2.0" (after 10 minutes at least 2.0), or with a covariate "20: 1.2..1.5" (at 20 between those).</summary>
    public IReadOnlyList<LimitPoint>? LimitPoints(TypedField field)
    {
        if (field.Value is null) return null;
        List<LimitPoint> points = [];
        foreach (var piece in Pieces(field.Value))
        {
            var parts = piece.Split(':', 2, StringSplitOptions.TrimEntries);
            var range = parts.Length == 2 ? parts[1].Split("..", StringSplitOptions.TrimEntries) : [];
            if (range.Length is 1 && TryNumber(MinuteWord().Replace(parts[0], ""), out var minutes) && TryNumber(range[0], out var least))
                points.Add(new LimitPoint(Minutes: minutes, Low: least));
            else if (range.Length is 2 && TryNumber(parts[0], out var at) && TryNumber(range[0], out var low) && TryNumber(range[1], out var high))
                points.Add(new LimitPoint(At: at, Low: low, High: high));
            else
                Wrong(field, $"\"{piece}\" cannot be read; write 10: 2.0 (minutes: at least) or 20: 1.2..1.5 (at: low..high)");
        }
        return points;
    }

    /// <summary>"pump-kind=in-tank, lambda-control=none"; null where nothing was written.</summary>
    public IReadOnlyDictionary<string, string>? Named(TypedField field)
    {
        if (field.Value is null) return null;
        Dictionary<string, string> named = [];
        foreach (var piece in field.Value.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
            if (piece.Split('=', StringSplitOptions.TrimEntries) is not [{ Length: > 0 } name, { Length: > 0 } value]) Wrong(field, $"\"{piece}\" cannot be read; write name=choice, several separated by commas");
            else if (!named.TryAdd(name, value)) Wrong(field, $"\"{name}\" is named twice; once is enough");
        return named;
    }

    /// <summary>A decimal comma is taken; a comma before three digits might mean thousands and is refused.</summary>
    public static bool TryNumber(string text, out double value)
    {
        value = 0;
        var plain = text.Trim();
        if (plain.Contains(',') && (plain.Contains('.') || Thousands().IsMatch(plain))) return false;
        return double.TryParse(plain.Replace(',', '.'), NumberStyles.Float & ~NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
    }

    private static Measured? TryMeasure(string text, string? unit)
    {
        var match = NumberAndUnit().Match(text.Trim());
        if (!match.Success || !TryNumber(match.Groups[1].Value, out var value)) return null;
        var written = match.Groups[2].Value.Trim();
        return written.Length > 0 ? new Measured(value, written) : unit is null ? null : new Measured(value, unit);
    }

    private static string[] Pieces(string text) => text.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    [GeneratedRegex(@"^([-+]?[0-9][0-9.,]*(?:[eE][-+]?[0-9]+)?)\s*(.*)$")]
    private static partial Regex NumberAndUnit();

    [GeneratedRegex(@",\d{3}(\D|$)")]
    private static partial Regex Thousands();

    [GeneratedRegex(@"\b(?:(\d{1,2})\.)?(\d{1,2})\.(\d{4})\b")]
    private static partial Regex WithDots();

    [GeneratedRegex(@"^-\d{1,5}$")]
    private static partial Regex DaysAgo();

    [GeneratedRegex(@"\s*min\.?$")]
    private static partial Regex MinuteWord();

    [GeneratedRegex(@"(Z|[+-]\d\d:\d\d)$")]
    private static partial Regex WithOffset();
}
