using System.Globalization;
using System.Text.RegularExpressions;

namespace FuelHistory.Client.Forms;

/// <summary>A date as it goes to the API, and as it is said back. Wrong: what cannot be, such as a thirtieth of February; it is not sent then.</summary>
internal sealed record DateRead(string Sent, string Said, string? Wrong = null);

/// <summary>Reads dates as people know and write them: days, months and years, the day before the month; about, before, after, between;
/// unknown. What it does not know is left to the API as it stands.</summary>
internal static partial class DateText
{
    public const string Forms = "14.10.2022, 10.2022, 2022, about 1995, before 1995, between 1990 and 1995, unknown";

    /// <returns>Null where the text is no date in any form that is known here.</returns>
    public static DateRead? Read(string text, DateOnly today)
    {
        var plain = Blanks().Replace(text.Trim(), " ");
        if (NumberText.IsUnknown(plain)) return new("unknown", "not known");
        if (Relative(plain, today) is { } day) return Day(day);
        if (Between().Match(plain) is { Success: true } between) return Span(between.Groups[1].Value, between.Groups[2].Value);
        if (Decade().Match(plain) is { Success: true } decade) return Span(decade.Groups[1].Value, decade.Groups[1].Value[..3] + "9");
        if (About().Match(plain) is { Success: true } about) return Worded(about.Groups[1].Value, "about {0}", "about {0}");
        if (AboutAfter().Match(plain) is { Success: true } tilde) return Worded(tilde.Groups[1].Value, "{0}~", "about {0}");
        if (Side().Match(plain) is { Success: true } side)
        {
            var word = side.Groups[1].Value.StartsWith('a') || side.Groups[1].Value.StartsWith('A') ? "after" : "before";
            return Worded(side.Groups[2].Value, word + " {0}", word + " {0}");
        }
        return PartOf(plain);
    }

    private static DateOnly? Relative(string text, DateOnly today) => text.ToUpperInvariant() switch
    {
        "TODAY" => today,
        "YESTERDAY" => today.AddDays(-1),
        var other when DaysAgo().IsMatch(other) => today.AddDays(int.Parse(other, CultureInfo.InvariantCulture)),
        _ => null,
    };

    private static DateRead Day(DateOnly day) =>
        new(day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture));

    private static DateRead? Span(string from, string to)
    {
        if (PartOf(from) is not { } first || PartOf(to) is not { } last) return null;
        var wrong = first.Wrong ?? last.Wrong;
        if (wrong is null && string.CompareOrdinal(first.Sent, last.Sent) > 0) (first, last) = (last, first);
        return new($"between {first.Sent} and {last.Sent}", $"between {first.Said} and {last.Said}", wrong);
    }

    private static DateRead? Worded(string date, string sent, string said) => PartOf(date) is { } part
        ? new(string.Format(CultureInfo.InvariantCulture, sent, part.Sent), string.Format(CultureInfo.InvariantCulture, said, part.Said), part.Wrong)
        : null;

    /// <summary>A day, a month or a year without any word around it.</summary>
    private static DateRead? PartOf(string text)
    {
        if (YearFirst().Match(text) is { Success: true } iso) return Of(iso.Groups[1].Value, iso.Groups[2].Value, iso.Groups[3].Value);
        if (DayFirst().Match(text) is { Success: true } figures)
        {
            var (day, month, year) = (figures.Groups[1].Value, figures.Groups[2].Value, figures.Groups[3].Value);
            // no year has fourteen months: then it was the month that was written first
            return Number(month) > 12 && Number(day) is > 0 and <= 12 ? Of(year, day, month) : Of(year, month, day);
        }
        if (MonthFirst().Match(text) is { Success: true } m) return Of(m.Groups[2].Value, m.Groups[1].Value, "");
        if (DayNamed().Match(text) is { Success: true } named && Month(named.Groups[2].Value) is { } second) return Of(named.Groups[3].Value, second, named.Groups[1].Value);
        if (NamedDay().Match(text) is { Success: true } turned && Month(turned.Groups[1].Value) is { } first) return Of(turned.Groups[3].Value, first, turned.Groups[2].Value);
        return null;
    }

    private static DateRead Of(string yearText, string monthText, string dayText)
    {
        var (year, month, day) = (Number(yearText), Number(monthText), Number(dayText));
        var sent = string.Join('-', new[] { $"{year:0000}", month is { } m ? $"{m:00}" : null, day is { } d ? $"{d:00}" : null }.OfType<string>());
        // which years can be is the API's to say
        if (year is null or 0) return new(sent, sent, $"there is no year {year}");
        if (month is < 1 or > 12) return new(sent, sent, $"there is no month {month}");
        if (month is null) return new(sent, sent);
        var name = CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(month.Value);
        if (day is null) return new(sent, $"{name} {year}");
        var most = DateTime.DaysInMonth(year.Value, month.Value);
        return new(sent, $"{day} {name} {year}", day < 1 || day > most ? $"{name} {year} has {most} days, not {day}" : null);
    }

    /// <summary>The number of a month by its name or the first three letters or more of it.</summary>
    private static string? Month(string name)
    {
        var names = CultureInfo.InvariantCulture.DateTimeFormat.MonthNames;
        var at = Array.FindIndex(names, each => each.Length > 0 && name.Length >= 3 && each.StartsWith(name, StringComparison.OrdinalIgnoreCase));
        return at < 0 ? null : (at + 1).ToString(CultureInfo.InvariantCulture);
    }

    private static int? Number(string digits) => digits.Length == 0 ? null : int.Parse(digits, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();

    [GeneratedRegex(@"^-\d{1,5}$")]
    private static partial Regex DaysAgo();

    [GeneratedRegex(@"^(\d{4})(?:-(\d{1,2})(?:-(\d{1,2}))?)?$")]
    private static partial Regex YearFirst();

    [GeneratedRegex(@"^(\d{1,2})[./-] ?(\d{1,2})[./-] ?(\d{4})$")]
    private static partial Regex DayFirst();

    [GeneratedRegex(@"^(\d{1,2})[./-] ?(\d{4})$")]
    private static partial Regex MonthFirst();

    [GeneratedRegex(@"^(?:(\d{1,2})(?:st|nd|rd|th|\.)? )?([A-Za-z]{3,9})\.?,? (\d{4})$", RegexOptions.IgnoreCase)]
    private static partial Regex DayNamed();

    [GeneratedRegex(@"^([A-Za-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})$", RegexOptions.IgnoreCase)]
    private static partial Regex NamedDay();

    [GeneratedRegex(@"^(?:between|from) (.+?) (?:and|to) (.+)$|^(?<1>\d{4}) ?(?:-|\.\.|–|to) ?(?<2>\d{4})$", RegexOptions.IgnoreCase)]
    private static partial Regex Between();

    [GeneratedRegex(@"^(?:the )?(\d{3}0)'?s$", RegexOptions.IgnoreCase)]
    private static partial Regex Decade();

    [GeneratedRegex(@"^(?:about|around|roughly|circa|approx\.?|ca\.?|c\.|~) ?(.+)$", RegexOptions.IgnoreCase)]
    private static partial Regex About();

    [GeneratedRegex(@"^(.+?) ?~$")]
    private static partial Regex AboutAfter();

    [GeneratedRegex(@"^(before|after) (.+)$", RegexOptions.IgnoreCase)]
    private static partial Regex Side();
}
