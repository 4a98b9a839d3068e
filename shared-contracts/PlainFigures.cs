using System.Globalization;

namespace FuelHistory.Contracts;

/// <summary>Figures as people say them, the same in host and client. The settings choose how chances are said: words, percent or odds.</summary>
public static class PlainFigures
{
    public const string Words = "words", Percent = "percent", Odds = "odds";

    private static readonly (double From, string Words)[] Chances =
    [
        (0.97, "almost certain"), (0.88, "about nine in ten"), (0.78, "about four in five"), (0.62, "about two in three"), (0.56, "about three in five"),
        (0.45, "about one in two"), (0.37, "about two in five"), (0.29, "about one in three"), (0.22, "about one in four"), (0.15, "about one in six"), (0.08, "about one in ten"), (0.04, "about one in twenty"),
        (0.015, "about one in fifty"),
    ];

    private static readonly (double From, string Words)[] Shares =
    [
        (0.97, "all"), (0.82, "most"), (0.7, "about three quarters"), (0.58, "about two thirds"), (0.42, "about half"), (0.29, "about a third"),
        (0.22, "about a quarter"), (0.15, "about a sixth"), (0.07, "about a tenth"), (0.01, "little"),
    ];

    private static readonly string[] Numbers = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

    /// <summary>How chances may be said.</summary>
    public static IReadOnlyList<string> Styles { get; } = [Words, Percent, Odds];

    /// <summary>A probability, to be followed by "that ...": "about one in three", "a 35 % chance", "odds of 1 to 2".</summary>
    public static string Chance(double p, string style) => style switch
    {
        Percent => p < 0.01 ? "a chance below 1 %" : p > 0.99 ? "a chance above 99 %" : $"a {Whole(100 * p)} % chance",
        Odds => $"odds of {Ratio(p, " to ")}",
        _ => Said(Chances, p, "hardly possible"),
    };

    /// <summary>The same where there is room for a few letters only: "35 %", or "1:2" where odds are wanted.</summary>
    public static string Brief(double p, string style) => style == Odds ? Ratio(p, ":") : p is > 0 and < 0.005 ? "<1 %" : p is < 1 and > 0.995 ? ">99 %" : $"{Whole(100 * p)} %";

    /// <summary>A share, to be followed by "of ...": "about a third", or "35 %". A share has no odds.</summary>
    public static string Share(double share, string style) => style == Words ? Said(Shares, share, "nothing") : Brief(share, Percent);

    /// <summary>How far a factor on the odds speaks, whichever way: "slightly", "clearly", "strongly". Own observations of these names have
    /// the factors 2, 5 and 20.</summary>
    public static string Strength(double factor) => Math.Max(factor, 1 / factor) switch { < 3 => "slightly", < 10 => "clearly", _ => "strongly" };

    /// <summary>"a few seconds", "half a minute", "2 minutes", "20 minutes", "about an hour".</summary>
    public static string Minutes(double minutes) => minutes switch
    {
        < 0.25 => "a few seconds",
        < 0.75 => "half a minute",
        < 1.25 => "a minute",
        < 10 when Math.Abs(minutes - Math.Round(minutes)) < 0.25 => $"{Whole(minutes)} minutes",
        < 10 => $"{Math.Floor(minutes).ToString(CultureInfo.InvariantCulture)} and a half minutes",
        < 20 => $"{Whole(minutes)} minutes",
        < 50 => $"{Whole(minutes / 5, 5)} minutes",
        < 90 => "about an hour",
        < 1440 => $"{Whole(minutes / 60)} hours",
        _ => "more than a day",
    };

    /// <summary>When something was, seen from a day: "this year", "last year", "three years ago", "in 1998".</summary>
    public static string Ago(DateOnly day, DateOnly asOf) => (asOf.Year - day.Year) switch
    {
        <= 0 => "this year",
        1 => "last year",
        var years and <= 10 => $"{Numbers[years]} years ago",
        _ => $"in {day.Year.ToString(CultureInfo.InvariantCulture)}",
    };

    private static string Said((double From, string Words)[] words, double p, string least) => words.FirstOrDefault(w => p >= w.From).Words ?? least;

    private static string Ratio(double p, string between)
    {
        const double Most = 99;
        var odds = p >= 0.5 ? p / (1 - p) : (1 - p) / p;
        var whole = odds > Most ? $">{Most.ToString(CultureInfo.InvariantCulture)}" : odds < 2.5 ? odds.ToString("0.#", CultureInfo.InvariantCulture) : Whole(odds);
        return p >= 0.5 ? $"{whole}{between}1" : $"1{between}{whole}";
    }

    private static string Whole(double value, int times = 1) => (Math.Round(value, MidpointRounding.AwayFromZero) * times).ToString(CultureInfo.InvariantCulture);
}
