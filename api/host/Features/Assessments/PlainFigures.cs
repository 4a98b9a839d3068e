using System.Globalization;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>Figures as people say them.</summary>
internal static class PlainFigures
{
    private static readonly (double From, string Words)[] Chances =
    [
        (0.97, "almost certain"), (0.85, "very likely"), (0.65, "likely"), (0.42, "about even"), (0.29, "about one in three"), (0.22, "about one in four"),
        (0.15, "about one in six"), (0.08, "about one in ten"), (0.035, "about one in twenty"), (0.01, "less than one in twenty"),
    ];

    private static readonly string[] Numbers = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

    /// <summary>A probability, 0..1: "almost certain", "about one in three", "hardly possible".</summary>
    public static string Chance(double p) => Chances.FirstOrDefault(c => p >= c.From).Words ?? "hardly possible";

    /// <summary>As the settings have it (words, percent, odds): "about one in three", "a 35 % chance", "odds of 1 to 2".</summary>
    public static string Chance(double p, string figures) => figures switch
    {
        "percent" => Percent(p),
        "odds" => Odds(p),
        _ => Chance(p),
    };

    private static string Percent(double p) => p switch
    {
        < 0.01 => "a chance below 1 %",
        > 0.99 => "a chance above 99 %",
        _ => $"a {Math.Round(100 * p).ToString(CultureInfo.InvariantCulture)} % chance",
    };

    private static string Odds(double p)
    {
        var odds = Math.Clamp(p, 0.001, 0.999) is var q && q >= 0.5 ? q / (1 - q) : (1 - q) / q;
        var whole = Math.Round(odds).ToString(CultureInfo.InvariantCulture);
        return p >= 0.5 ? $"odds of {whole} to 1" : $"odds of 1 to {whole}";
    }

    /// <summary>How far a factor on the odds speaks, whichever way: "slightly", "clearly", "strongly".</summary>
    public static string Strength(double factor) => Math.Max(factor, 1 / factor) switch { < 2 => "slightly", < 6 => "clearly", _ => "strongly" };

    /// <summary>"half a minute", "2 minutes", "20 minutes", "about an hour".</summary>
    public static string Minutes(double minutes) => minutes switch
    {
        < 0.75 => "half a minute",
        < 1.5 => "a minute",
        < 10 => $"{Math.Round(minutes).ToString(CultureInfo.InvariantCulture)} minutes",
        < 50 => $"{(Math.Round(minutes / 5) * 5).ToString(CultureInfo.InvariantCulture)} minutes",
        < 90 => "about an hour",
        _ => $"{Math.Round(minutes / 60).ToString(CultureInfo.InvariantCulture)} hours",
    };

    /// <summary>When something was, seen from a day: "this year", "last year", "three years ago", "in 1998".</summary>
    public static string Since(DateOnly day, DateOnly asOf) => (asOf.Year - day.Year) switch
    {
        <= 0 => "this year",
        1 => "last year",
        var years and <= 10 => $"{Numbers[years]} years ago",
        _ => $"in {day.Year.ToString(CultureInfo.InvariantCulture)}",
    };
}
