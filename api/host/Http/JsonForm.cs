using System.Text.Json;
using System.Text.Json.Serialization;

namespace FuelHistory.Host.Http;

/// <summary>JSON as it is read and written: nothing guessed, nothing dropped.</summary>
internal static class JsonForm
{
    public static void Set(JsonSerializerOptions options)
    {
        options.NumberHandling = JsonNumberHandling.Strict;
        options.PropertyNameCaseInsensitive = false;
        options.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
        options.AllowDuplicateProperties = false;
        options.RespectRequiredConstructorParameters = true;
        options.RespectNullableAnnotations = true;
        // answers are JSON only, never pasted into HTML: ° and ² stay readable
        options.Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping;
        options.Converters.Add(new Instants());
    }
}
