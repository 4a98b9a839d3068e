using System.Text.Json;
using System.Text.Json.Serialization;

namespace FuelHistory.Host.Sqlite;

/// <summary>Small lists and maps that belong to one entry and are only ever read with it: JSON text in a column.</summary>
internal static class Lists
{
    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web)
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static string Write<T>(T value) => JsonSerializer.Serialize(value, Form);

    public static string? WriteOrNull<T>(T? value) where T : class => value is null ? null : Write(value);

    public static T Read<T>(string text) => JsonSerializer.Deserialize<T>(text, Form)!;

    public static T? ReadOrNull<T>(string? text) where T : class => text is null ? null : Read<T>(text);
}
