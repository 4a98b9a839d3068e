using FuelHistory.Contracts;

namespace FuelHistory.Host.Sqlite;

/// <summary>Money as whole minor units (cents). How many decimals a currency has: ISO 4217, from memory.</summary>
public static class Amounts
{
    private static readonly HashSet<string> NoDecimals =
        ["BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV", "XAF", "XOF", "XPF"];

    private static readonly HashSet<string> ThreeDecimals = ["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"];

    public static byte Decimals(string currency) =>
        NoDecimals.Contains(currency) ? (byte)0 : ThreeDecimals.Contains(currency) ? (byte)3 : (byte)2;

    /// <summary>Whether the amount is a whole number of minor units.</summary>
    public static bool IsWhole(decimal amount, string currency) => decimal.Round(amount, Decimals(currency)) == amount;

    public static long ToMinor(decimal amount, string currency) =>
        decimal.ToInt64(amount * (decimal)Math.Pow(10, Decimals(currency)));

    /// <summary>With all decimals of the currency: 1.10, not 1.1.</summary>
    public static decimal FromMinor(long minor, string currency)
    {
        var size = Math.Abs((decimal)minor);
        return decimal.Round(size / (decimal)Math.Pow(10, Decimals(currency)), Decimals(currency)) * Math.Sign(minor)
            + new decimal(0, 0, 0, false, Decimals(currency));
    }

    public static Money? Read(long? minor, string? currency) =>
        minor is { } m && currency is not null ? new Money(FromMinor(m, currency), currency) : null;
}
