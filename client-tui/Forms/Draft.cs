using System.Globalization;
using System.Text.RegularExpressions;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>Reads what was typed as figures and times, and collects what cannot be read; whether it makes sense is the host's to say.</summary>
internal sealed partial class Draft(TimeProvider clock)
{
    private const string About = "about ";

    private readonly List<Fault> _faults = [];

    public IReadOnlyList<Fault> Faults => _faults;

    public void Wrong(Field field, string detail) => _faults.Add(new Fault("/" + field.Name, Problems.Malformed, detail));

    public double? Number(TypedField field)
    {
        if (field.Value is null || NumberText.IsUnknown(field.Value)) return null;
        if (TryNumber(field.Value, out var value)) return value;
        Wrong(field, $"\"{field.Value}\" is no number{NumberText.Doubt(field.Value)}; write one such as 4.9");
        return null;
    }

    /// <summary>"4.9 bar"; the unit may be left out where <paramref name="unit"/> is given.</summary>
    /// <param name="thousands">Whether one comma or point before exactly three digits parts thousands, as on an odometer.</param>
    public Measured? Measure(TypedField field, string? unit, bool thousands = false)
    {
        if (field.Value is null || NumberText.IsUnknown(field.Value)) return null;
        if (TryMeasure(field.Value, unit, thousands) is { } measured) return measured;
        Wrong(field, $"\"{field.Value}\" cannot be read{NumberText.Doubt(field.Value)}; write a number and a unit, such as 4.9 {unit ?? "bar"}");
        return null;
    }

    /// <summary>"120 EUR", or "120" in the currency of the settings.</summary>
    public Money? Money(TypedField field, string currency)
    {
        if (field.Value is null || NumberText.IsUnknown(field.Value)) return null;
        if (TryMeasure(field.Value, currency, thousands: true) is { } money) return new Money((decimal)money.Value, money.Unit);
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
        if (MomentText.Read(field.Value, clock) is { } moment) return moment;
        Wrong(field, $"\"{field.Value}\" is no day and time; write one such as {clock.GetLocalNow().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture)}");
        return null;
    }

    /// <summary>A date in a form that the API takes; what is no date in any known form goes there as it stands.</summary>
    public string? Day(TypedField field)
    {
        if (field.Value is null) return null;
        if (DateText.Read(field.Value, DateOnly.FromDateTime(clock.GetLocalNow().DateTime)) is not { } date) return field.Value;
        if (date.Wrong is { } wrong) Wrong(field, $"\"{field.Value}\" cannot be: {wrong}");
        return date.Sent;
    }

    /// <summary>The year of a car, which the API takes with a sign for about.</summary>
    public string? Year(TypedField field)
    {
        var day = Day(field);
        return day is not null && day.StartsWith(About, StringComparison.Ordinal) ? day[About.Length..] + "~" : day;
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

    /// <summary>A decimal comma is taken; a comma before exactly three digits might mean thousands and is refused.</summary>
    public static bool TryNumber(string text, out double value) => NumberText.TryRead(text, thousands: false, out value);

    internal static Measured? TryMeasure(string text, string? unit, bool thousands = false)
    {
        if (NumberText.Split(text) is not { } parts || !NumberText.TryRead(parts.Number, thousands, out var value)) return null;
        return parts.Unit.Length > 0 ? new Measured(value, parts.Unit) : unit is null ? null : new Measured(value, unit);
    }

    private static string[] Pieces(string text) => text.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    [GeneratedRegex(@"\s*min\.?$")]
    private static partial Regex MinuteWord();
}
