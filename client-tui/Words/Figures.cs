using System.Globalization;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Words;

/// <summary>Numbers and times as text, the same everywhere.</summary>
internal static class Figures
{
    /// <summary>A share as whole percent; what is not zero never shows as zero, what is not certain never as certain.</summary>
    public static string Percent(double share) => share switch
    {
        double.NaN => "?",
        > 0 and < 0.005 => "<1 %",
        < 1 and > 0.995 => ">99 %",
        _ => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0} %"),
    };

    /// <summary>A bar of <paramref name="cells"/> cells, to the half cell.</summary>
    public static string Bar(double share, int cells, Signs signs)
    {
        var halves = (int)Math.Round(Math.Clamp(share, 0, 1) * cells * 2, MidpointRounding.AwayFromZero);
        if (share > 0 && halves == 0) halves = 1;
        var full = halves / 2;
        var half = halves % 2;
        return string.Concat(Enumerable.Repeat(signs.Full, full)) + (half == 1 ? signs.Half : "")
            + string.Concat(Enumerable.Repeat(signs.Empty, cells - full - half));
    }

    /// <summary>"clearly"; where figures are wanted above 1 as "x3.2", below as "/5": how many times likelier or less likely.</summary>
    public static string Factor(double factor, string style, Signs signs) => style is PlainFigures.Words && !double.IsNaN(factor) ? PlainFigures.Strength(factor) : factor switch
    {
        double.NaN => "?",
        >= 1000 => $">{signs.Times}999",
        <= 0.001 => "</999",
        >= 1 => signs.Times + Short(factor),
        _ => "/" + Short(1 / factor),
    };

    public static string Short(double value) => value.ToString(Math.Abs(value) >= 9.95 ? "0" : "0.#", CultureInfo.InvariantCulture);

    public static string Plain(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);

    public static string Of(Measured measured) => $"{Plain(measured.Value)} {measured.Unit}";

    public static string Minutes(double minutes) => $"{minutes.ToString("0.#", CultureInfo.InvariantCulture)} min";

    public static string Cost(double amount, string currency) => $"{(amount is > 0 and < 0.5 ? "<1" : amount.ToString("0", CultureInfo.InvariantCulture))} {currency}";

    public static string Day(DateTimeOffset at) => at.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static string Moment(DateTimeOffset at) => at.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
