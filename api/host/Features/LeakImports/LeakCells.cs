using System.Globalization;
using System.Text.RegularExpressions;
using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.LeakImports;

/// <summary>The two columns that count, and what their cells mean.</summary>
internal sealed partial class LeakCells
{
    // a sensor's zero wanders a little
    private const double BelowZeroBar = 0.1;

    private const int LongestQuote = 40;
    private static readonly string[] InstantForms = ["yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK", "yyyy-MM-dd HH:mm:ss.FFFFFFFK"];
    private readonly LeakFileForm form;
    private readonly DateTimeOffset stoppedAt;
    private readonly NumberFormatInfo numbers;
    private readonly double perMinute, toBar;
    private readonly double stop;

    private LeakCells(LeakFileForm form, DateTimeOffset stoppedAt, int time, int value)
    {
        (this.form, this.stoppedAt, TimePlace, ValuePlace) = (form, stoppedAt, time, value);
        numbers = new NumberFormatInfo { NumberDecimalSeparator = form.Decimal == "comma" ? "," : ".", NumberGroupSeparator = "'" };
        perMinute = form.TimeUnit switch { "s" => 60, "ms" => 60_000, "h" => 1 / 60.0, _ => 1 };
        toBar = Quantity.Pressure.Convert(1, form.Unit, "bar");
        stop = form.Stop is { } said && TryTime(said, out var at) ? at : 0;
    }

    public int TimePlace { get; }
    public int ValuePlace { get; }
    public int Last => Math.Max(TimePlace, ValuePlace);

    /// <param name="headings">Null: the file has none.</param>
    /// <returns>Of use only without faults.</returns>
    public static LeakCells Of(Faults faults, LeakFileForm form, DateTimeOffset stoppedAt, IReadOnlyList<string>? headings, int line)
    {
        LeakCells cells = new(form, stoppedAt, Find(faults, "time", form.Time, headings), Find(faults, "value", form.Value, headings));
        if (form.Stop is { } stop && !cells.TryTime(stop, out _))
        {
            faults.Add("stop", Problems.NotANumber, form.TimeUnit == "instant"
                ? $"stop \"{stop}\" is no instant; {Instants.Hint}."
                : $"stop \"{stop}\" is no number; give the time of the file at which the pump stopped, in {form.TimeUnit}.");
        }

        if (cells.TimePlace == cells.ValuePlace)
        {
            faults.Add("value", Problems.Unsuitable, "time and value are the same column; name the one that holds the pressure.");
        }

        if (headings is not null && faults.None)
        {
            Heading(faults, line, headings[cells.TimePlace], form.TimeUnit, ["s", "min", "h", "ms"], "timeUnit");
            Heading(faults, line, headings[cells.ValuePlace], form.Unit, Quantity.Pressure.Units, "unit");
        }

        return cells;
    }

    /// <summary>Lines are counted from 1 in words and, as pointers are (RFC 6901), from 0 there.</summary>
    public static string Pointer(int line) => $"/lines/{line - 1}";

    /// <returns>Minutes since the stop; null with a fault.</returns>
    public double? Time(Faults faults, int line, ReadOnlySpan<char> cell)
    {
        if (TryTime(cell, out var at))
        {
            return at - stop;
        }

        faults.Add(Pointer(line), Problems.NotANumber, $"Line {line}: the time \"{Quoted(cell)}\" is no {(form.TimeUnit == "instant" ? "instant (2026-05-01T14:30:00.5)" : $"number of {form.TimeUnit}")}. {Hint(cell)}");
        return null;
    }

    /// <returns>The pressure in the form's unit; null with a fault.</returns>
    public double? Value(Faults faults, int line, ReadOnlySpan<char> cell)
    {
        if (TryNumber(cell, out var value))
        {
            return value;
        }

        // a unit behind the number is welcome if it is the one that was said
        var text = cell.Trim();
        var end = text.LastIndexOfAnyInRange('0', '9') + 1;
        var unit = text[end..].Trim().ToString();
        if (end > 0 && TryNumber(text[..end], out value) && Quantity.Pressure.Has(unit))
        {
            if (unit == form.Unit)
            {
                return value;
            }

            faults.Add(Pointer(line), Problems.MixedUnits, $"Line {line} has {Quoted(cell)}, but the file is read in {form.Unit}. Bring all lines to one unit and name it with unit=.");
            return null;
        }

        faults.Add(Pointer(line), Problems.NotANumber, $"Line {line}: the pressure \"{Quoted(cell)}\" is no number. {Hint(cell)}");
        return null;
    }

    public bool IsPlausible(Check check, double value)
    {
        var (low, high) = ReadingRules.Range(check);
        var bar = value * toBar;
        var scale = Quantity.Pressure.Convert(1, ReadingRules.UnitOf(check), "bar");
        return bar >= Math.Min(low * scale, -BelowZeroBar) && bar <= high * scale;
    }

    public void Implausible(Faults faults, int line, Check check, double value)
    {
        Faults one = new();
        ReadingRules.Pressure(one, "", check, new Measured(value, form.Unit), confirmed: false);
        foreach (var fault in one.Found)
        {
            faults.Add(Pointer(line), fault.Code, $"{Names.Field(Pointer(line))}{fault.Detail.Replace("The body", "", StringComparison.Ordinal).Replace("send it again with \"confirmed\": true", "send the file again with confirmed=true", StringComparison.Ordinal)}");
        }
    }

    private static int Find(Faults faults, string name, string column, IReadOnlyList<string>? headings)
    {
        if (headings is null)
        {
            return LeakFileForms.Place(column) ?? 0;
        }

        for (var i = 0; i < headings.Count; i++)
        {
            if (string.Equals(headings[i], column, StringComparison.OrdinalIgnoreCase))
            {
                return i;
            }
        }

        if (LeakFileForms.Place(column) is { } place && place < headings.Count)
        {
            return place;
        }

        faults.Add(name, Problems.Unknown, $"The file has no column \"{column}\"; its headings are {string.Join(", ", headings.Take(12).Select(h => $"\"{Quoted(h)}\""))}. Name one of them with {name}=, or give its number; check delimiter and skip.");
        return 0;
    }

    // "Pressure (kPa)": a unit in brackets says more surely than anybody what the column holds
    private static void Heading(Faults faults, int line, string heading, string said, IReadOnlyList<string> units, string name)
    {
        var unit = InBrackets().Match(heading) is { Success: true } match ? match.Groups[1].Value.Trim() : heading;
        if (units.Contains(unit) && unit != said)
        {
            faults.Add(name, Problems.WrongUnit, $"The heading \"{Quoted(heading)}\" in line {line} says {unit}, but the file would be read in {said}. Say {name}={unit}, or mend the heading.");
        }
    }

    /// <returns>Minutes on the file's own clock.</returns>
    private bool TryTime(ReadOnlySpan<char> cell, out double minutes)
    {
        if (form.TimeUnit == "instant")
        {
            minutes = 0;
            var text = cell.Trim();
            if (!DateTimeOffset.TryParseExact(text, InstantForms, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var instant))
            {
                return false;
            }

            // without an offset it is the clock of the place of the stop
            var hasOffset = text[^1] == 'Z' || text[^6] is '+' or '-';
            minutes = ((hasOffset ? instant : new DateTimeOffset(instant.DateTime, stoppedAt.Offset)) - stoppedAt).TotalMinutes;
            return true;
        }

        var known = TryNumber(cell, out var number);
        minutes = number / perMinute;
        return known;
    }

    private bool TryNumber(ReadOnlySpan<char> text, out double number) =>
        double.TryParse(text, NumberStyles.Float, numbers, out number) && double.IsFinite(number);

    private string Hint(ReadOnlySpan<char> cell)
    {
        var other = form.Decimal == "comma" ? "." : ",";
        return cell.IsWhiteSpace() ? "The cell is empty; take the line out, or fill it."
            : cell.Contains(other, StringComparison.Ordinal) ? $"If \"{other}\" marks the decimals, say decimal={(form.Decimal == "comma" ? "point" : "comma")}."
            : "Take the line out, or mend it.";
    }

    private static string Quoted(ReadOnlySpan<char> cell)
    {
        var text = cell.Trim();
        return string.Concat((text.Length > LongestQuote ? text[..LongestQuote] : text).ToString().Where(c => !char.IsControl(c))) + (text.Length > LongestQuote ? "..." : "");
    }

    [GeneratedRegex(@"[(\[]([^)\]]+)[)\]]\s*\z", RegexOptions.CultureInvariant)]
    private static partial Regex InBrackets();
}
