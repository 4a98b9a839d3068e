using System.Globalization;

namespace FuelHistory.Core.Life;

/// <summary>A day as far as it is known: "1987", "1987-06", "1987-06-03"; "about 1987" or "1987~", "before 1987", "after 1987",
/// "between 1987 and 1989-06", "unknown". Kept as entered. Sorts by its middle day; of two with one middle day the more exact comes first.</summary>
public sealed record RoughDate : IComparable<RoughDate>
{
    /// <summary>Before this year there was no car to keep a record of; a smaller number is a slip.</summary>
    public const int FirstYear = 1885;
    public const int LastYear = 2200;

    /// <summary>Stand for "nobody knows how early" and "how late": no date that is written out reaches them.</summary>
    private static readonly DateOnly First = new(FirstYear - 1, 12, 31), Last = new(LastYear + 1, 1, 1);

    internal RoughDate(string text, DateOnly earliest, DateOnly latest)
    {
        Text = text;
        Earliest = earliest;
        Latest = latest;
    }

    public string Text { get; }
    public DateOnly Earliest { get; }
    public DateOnly Latest { get; }

    /// <summary>Nothing says how early ("before 1987", "unknown").</summary>
    public bool OpenBefore => Earliest == First;

    /// <summary>Nothing says how late ("after 1987", "unknown").</summary>
    public bool OpenAfter => Latest == Last;

    /// <summary>Neither how early nor how late.</summary>
    public bool IsUnknown => OpenBefore && OpenAfter;

    /// <summary>The day that stands for the whole where one day is needed and nothing is known of the car; of an even number of days the
    /// later of the two middle ones. Where one end is open the other end; of a day not known at all the first there is.</summary>
    public DateOnly Middle =>
        IsUnknown ? First
        : OpenBefore ? Latest
        : OpenAfter ? Earliest
        : MiddleOf(Earliest, Latest);

    public bool IsDay => Earliest == Latest;

    internal static RoughDate Unknown(string text) => new(text, First, Last);

    internal static RoughDate Until(string text, DateOnly latest) => new(text, First, latest);

    internal static RoughDate From(string text, DateOnly earliest) => new(text, earliest, Last);

    public static RoughDate Of(DateOnly day) => new(day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), day, day);

    /// <exception cref="FormatException">Not a date; the message says which part is wrong.</exception>
    public static RoughDate Parse(string text) =>
        TryParse(text, out var date, out var why) ? date : throw new FormatException(why);

    /// <param name="why">Empty, or what is wrong and how a date is written.</param>
    public static bool TryParse(string text, out RoughDate date, out string why) => RoughDateReader.TryRead(text, out date, out why);

    /// <summary>The text as it is kept: words in small letters, one space between them.</summary>
    public static string Normal(string text) => Parse(text).Text;

    /// <summary>What is left of it between two days, both included; where nothing is left, the nearer of them.</summary>
    public DaySpan Within(DateOnly first, DateOnly last) => new DaySpan(Earliest, Latest).Cut(first, last);

    public static DateOnly MiddleOf(DateOnly from, DateOnly to) => from.AddDays((to.DayNumber - from.DayNumber + 1) / 2);

    public int CompareTo(RoughDate? other) =>
        other is null ? 1
        : Middle != other.Middle ? Middle.CompareTo(other.Middle)
        : Days.CompareTo(other.Days);

    public static bool operator <(RoughDate left, RoughDate right) => left.CompareTo(right) < 0;
    public static bool operator >(RoughDate left, RoughDate right) => left.CompareTo(right) > 0;
    public static bool operator <=(RoughDate left, RoughDate right) => left.CompareTo(right) <= 0;
    public static bool operator >=(RoughDate left, RoughDate right) => left.CompareTo(right) >= 0;

    public override string ToString() => Text;

    private int Days => Latest.DayNumber - Earliest.DayNumber;
}
