using System.Globalization;

namespace FuelHistory.Core.Life;

/// <summary>Reads a day as far as people know it.</summary>
internal static class RoughDateReader
{
    /// <summary>How far "about" reaches either way: three years, months or days, by what was given (judgement).</summary>
    private const int About = 3;

    private const string Forms = "write a year (1987), a month (1987-06) or a day (1987-06-03), with about, before or after in front of it, " +
        "between 1987 and 1989, or unknown";

    public static bool TryRead(string text, out RoughDate date, out string why)
    {
        date = null!;
        if (text.Any(char.IsLetter))
        {
            return Worded(text.ToLowerInvariant().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries), text, out date, out why);
        }

        if (text.EndsWith('~'))
        {
            return Plain(text[..^1], text, out int[] about, out why) && Made(out date, Around(text, about));
        }

        return Plain(text, text, out int[] numbers, out why) && Made(out date, new RoughDate(text, Start(numbers), End(numbers)));
    }

    private static bool Worded(string[] words, string text, out RoughDate date, out string why)
    {
        (date, why) = (null!, "");
        string normal = string.Join(' ', words);
        switch (words)
        {
            case ["unknown"]:
                return Made(out date, RoughDate.Unknown(normal));
            case ["about", var day]:
                return Plain(day, text, out int[] about, out why) && Made(out date, Around(normal, about));
            case ["before", var day]:
                return Plain(day, text, out int[] end, out why) && Left(Start(end) > new DateOnly(RoughDate.FirstYear, 1, 1), text, ref why)
                    && Made(out date, RoughDate.Until(normal, Start(end).AddDays(-1)));
            case ["after", var day]:
                return Plain(day, text, out int[] start, out why) && Left(End(start) < new DateOnly(RoughDate.LastYear, 12, 31), text, ref why)
                    && Made(out date, RoughDate.From(normal, End(start).AddDays(1)));
            case ["between", var one, "and", var other]:
                return Between(normal, text, one, other, out date, out why);
            default:
                why = $"\"{text}\" is not a date; {Forms}.";
                return false;
        }
    }

    private static bool Between(string normal, string text, string one, string other, out RoughDate date, out string why)
    {
        date = null!;
        if (!Plain(one, text, out int[] from, out why) || !Plain(other, text, out int[] to, out why))
        {
            return false;
        }

        if (Start(from) > End(to))
        {
            why = $"\"{text}\": {one} lies after {other}; write the earlier one first.";
            return false;
        }

        return Made(out date, new RoughDate(normal, Start(from), End(to)));
    }

    private static bool Left(bool some, string text, ref string why)
    {
        why = some ? "" : $"\"{text}\": no day is left, dates run from {RoughDate.FirstYear} to {RoughDate.LastYear}.";
        return some;
    }

    private static bool Made(out RoughDate date, RoughDate made)
    {
        date = made;
        return true;
    }

    /// <summary>Year, month and day as far as they are there.</summary>
    private static bool Plain(string day, string text, out int[] numbers, out string why)
    {
        (numbers, why) = ([], "");
        string[] parts = day.Split('-');
        if (parts.Length > 3 || parts[0].Length != 4 || parts.Skip(1).Any(p => p.Length != 2) || !parts.All(p => p.All(char.IsAsciiDigit)))
        {
            why = $"\"{text}\" is not a date; {Forms}.";
            return false;
        }

        numbers = Array.ConvertAll(parts, p => int.Parse(p, CultureInfo.InvariantCulture));
        why = Wrong(text, numbers);
        return why.Length == 0;
    }

    private static string Wrong(string text, int[] numbers) => numbers switch
    {
        [< RoughDate.FirstYear or > RoughDate.LastYear, ..] => $"\"{text}\": the year {numbers[0]:0000} is outside {RoughDate.FirstYear} to {RoughDate.LastYear}.",
        [_, < 1 or > 12, ..] => $"\"{text}\": there is no month {numbers[1]:00}; months are 01 to 12.",
        [var y, var m, var d] when d < 1 || d > DateTime.DaysInMonth(y, m) =>
            $"\"{text}\": month {m:00} of {y} has days 01 to {DateTime.DaysInMonth(y, m)}, not {d:00}.",
        _ => "",
    };

    private static DateOnly Start(int[] numbers) => new(numbers[0], numbers.Length > 1 ? numbers[1] : 1, numbers.Length > 2 ? numbers[2] : 1);

    private static DateOnly End(int[] numbers) => numbers switch
    {
        [var y] => new(y, 12, 31),
        [var y, var m] => new(y, m, DateTime.DaysInMonth(y, m)),
        _ => Start(numbers),
    };

    private static RoughDate Around(string text, int[] numbers)
    {
        (DateOnly start, DateOnly end) = (Start(numbers), End(numbers));
        return numbers.Length switch
        {
            1 => new RoughDate(text, start.AddYears(-About), end.AddYears(About)),
            2 => new RoughDate(text, start.AddMonths(-About), start.AddMonths(About + 1).AddDays(-1)),
            _ => new RoughDate(text, start.AddDays(-About), end.AddDays(About)),
        };
    }
}
