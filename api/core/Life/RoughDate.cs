using System.Globalization;

namespace FuelHistory.Core.Life;

/// <summary>A day that may be known only to the month or the year: "1987", "1987-06" or "1987-06-03". Kept as entered.
/// Sorts by its middle day; of two with one middle day the more exact comes first.</summary>
public sealed record RoughDate : IComparable<RoughDate>
{
    /// <summary>Before this year there was no car to keep a record of; a smaller number is a slip.</summary>
    public const int FirstYear = 1885;
    public const int LastYear = 2200;

    private RoughDate(string text, DateOnly earliest, DateOnly latest)
    {
        Text = text;
        Earliest = earliest;
        Latest = latest;
    }

    public string Text { get; }
    public DateOnly Earliest { get; }
    public DateOnly Latest { get; }

    /// <summary>The day that stands for the whole where one day is needed; of an even number of days the later of the two middle ones.</summary>
    public DateOnly Middle => Earliest.AddDays((Latest.DayNumber - Earliest.DayNumber + 1) / 2);

    public bool IsDay => Earliest == Latest;

    public static RoughDate Of(DateOnly day) => new(day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), day, day);

    /// <exception cref="FormatException">Not a year, a month or a day; the message says which part is wrong.</exception>
    public static RoughDate Parse(string text) =>
        TryParse(text, out var date, out var why) ? date : throw new FormatException(why);

    /// <param name="why">Empty, or what is wrong and how a date is written.</param>
    public static bool TryParse(string text, out RoughDate date, out string why)
    {
        date = null!;
        why = "";
        var parts = text.Split('-');
        if (parts.Length > 3 || parts[0].Length != 4 || parts.Skip(1).Any(p => p.Length != 2) || !parts.All(p => p.All(char.IsAsciiDigit)))
        {
            why = $"\"{text}\" is not a date; write a year (1987), a month (1987-06) or a day (1987-06-03).";
            return false;
        }

        var numbers = Array.ConvertAll(parts, p => int.Parse(p, CultureInfo.InvariantCulture));
        why = Wrong(text, numbers);
        if (why.Length > 0)
        {
            return false;
        }

        date = Span(text, numbers);
        return true;
    }

    public int CompareTo(RoughDate? other) =>
        other is null ? 1
        : Middle != other.Middle ? Middle.CompareTo(other.Middle)
        : other.Text.Length.CompareTo(Text.Length);

    public static bool operator <(RoughDate left, RoughDate right) => left.CompareTo(right) < 0;
    public static bool operator >(RoughDate left, RoughDate right) => left.CompareTo(right) > 0;
    public static bool operator <=(RoughDate left, RoughDate right) => left.CompareTo(right) <= 0;
    public static bool operator >=(RoughDate left, RoughDate right) => left.CompareTo(right) >= 0;

    public override string ToString() => Text;

    private static string Wrong(string text, int[] numbers) => numbers switch
    {
        [< FirstYear or > LastYear, ..] => $"\"{text}\": the year {numbers[0]:0000} is outside {FirstYear} to {LastYear}.",
        [_, < 1 or > 12, ..] => $"\"{text}\": there is no month {numbers[1]:00}; months are 01 to 12.",
        [var y, var m, var d] when d < 1 || d > DateTime.DaysInMonth(y, m) =>
            $"\"{text}\": month {m:00} of {y} has days 01 to {DateTime.DaysInMonth(y, m)}, not {d:00}.",
        _ => "",
    };

    private static RoughDate Span(string text, int[] numbers) => numbers switch
    {
        [var y] => new(text, new(y, 1, 1), new(y, 12, 31)),
        [var y, var m] => new(text, new(y, m, 1), new(y, m, DateTime.DaysInMonth(y, m))),
        [var y, var m, var d, ..] => new(text, new(y, m, d), new(y, m, d)),
        _ => throw new FormatException($"\"{text}\" is not a date."),
    };
}
