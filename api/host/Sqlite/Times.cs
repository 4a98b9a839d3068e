using System.Globalization;

namespace FuelHistory.Host.Sqlite;

/// <summary>The one text form of an instant in the database: UTC, T, three decimals, Z. It sorts as text in the order of time.</summary>
public static class Times
{
    private const string Form = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";

    /// <summary>Later than any instant that can be stored.</summary>
    public const string End = "9999-12-31T23:59:59.999Z";

    public static string Write(DateTimeOffset instant) => instant.ToUniversalTime().ToString(Form, CultureInfo.InvariantCulture);

    public static DateTimeOffset Read(string text) =>
        DateTimeOffset.ParseExact(text, Form, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal);

    /// <summary>The instant on the clock of the place where it was noted, so that its day does not move with the reader.</summary>
    public static DateTimeOffset Read(string text, long offsetMinutes) => Read(text).ToOffset(TimeSpan.FromMinutes(offsetMinutes));

    public static DateTimeOffset? Read(string? text, long? offsetMinutes) =>
        text is null ? null : Read(text, offsetMinutes ?? 0);

    public static long Offset(DateTimeOffset instant) => (long)instant.Offset.TotalMinutes;
}
