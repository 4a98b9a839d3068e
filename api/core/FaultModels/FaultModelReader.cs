using System.Text.Json;
using System.Text.Json.Serialization;

namespace FuelHistory.Core.FaultModels;

/// <summary>JSON text to <see cref="FaultModel"/>. Unknown, duplicate and missing members are refused with path and line.</summary>
public static class FaultModelReader
{
    private static readonly JsonSerializerOptions Strict = new(JsonSerializerDefaults.Web)
    {
        PropertyNameCaseInsensitive = false,
        NumberHandling = JsonNumberHandling.Strict,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        AllowDuplicateProperties = false,
        ReadCommentHandling = JsonCommentHandling.Disallow,
    };

    /// <exception cref="FaultModelException">The text is not a fault model; the message names line and member.</exception>
    public static FaultModel Read(string json)
    {
        try
        {
            return JsonSerializer.Deserialize<FaultModel>(json, Strict) ?? throw new FaultModelException("The file holds null instead of a fault model.");
        }
        catch (JsonException e)
        {
            throw new FaultModelException($"Line {(e.LineNumber ?? 0) + 1}, {e.Path}: {e.Message}");
        }
    }
}

/// <summary>A fault model that cannot be used; the message says where and why.</summary>
public sealed class FaultModelException(string message) : Exception(message);
