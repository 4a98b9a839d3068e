using System.Text.Json;
using System.Text.Json.Serialization;

namespace FuelHistory.Core.FaultModels;

/// <summary>JSON text to <see cref="FaultModel"/>. Unknown, duplicate and missing members are refused with path and line.</summary>
public static class FaultModelReader
{
    internal static readonly JsonSerializerOptions Strict = new(JsonSerializerDefaults.Web)
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
    public static FaultModel Read(string json) => FaultModelComposer.Compose(new ModelText("model", json), new Dictionary<string, ModelText>()).Read();
}

/// <summary>A fault model that cannot be used; the message says where and why.</summary>
public sealed class FaultModelException(string message) : Exception(message);
