using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;

namespace FuelHistory.Host.Http;

/// <summary>Instants on the wire: RFC 3339 with an offset, to the millisecond. Without an offset nobody can know which instant
/// is meant, so it is refused instead of being read in the server's zone. Seconds run to 59: a leap second is refused.</summary>
public sealed partial class Instants : JsonConverter<DateTimeOffset>
{
    public const string Hint = "write it as 2026-05-01T14:30:00+02:00 or 2026-05-01T12:30:00Z";

    public static bool TryRead(string text, out DateTimeOffset instant)
    {
        instant = default;
        return Form().IsMatch(text)
            && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.None, out instant)
            && Math.Abs(instant.Offset.TotalHours) <= 14;
    }

    public static string Write(DateTimeOffset instant) =>
        instant.ToString(instant.Offset == TimeSpan.Zero ? "yyyy-MM-dd'T'HH:mm:ss.fff'Z'" : "yyyy-MM-dd'T'HH:mm:ss.fffzzz", CultureInfo.InvariantCulture);

    public override DateTimeOffset Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        TryRead(reader.GetString() ?? "", out var instant) ? instant : throw new JsonException($"Not a date-time with an offset; {Hint}.");

    public override void Write(Utf8JsonWriter writer, DateTimeOffset value, JsonSerializerOptions options) => writer.WriteStringValue(Write(value));

    [GeneratedRegex(@"\A\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d{1,7})?(Z|[+-]\d{2}:\d{2})\z", RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
