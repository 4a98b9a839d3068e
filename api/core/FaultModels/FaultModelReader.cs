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

    /// <summary>A text as <see cref="ComposedModel.Json"/> gave it, of a model that was read and linted then: nothing has to be joined, and no line to be named.</summary>
    /// <exception cref="JsonException">It is not such a text.</exception>
    public static FaultModel ReadComposed(ReadOnlySpan<byte> utf8) => JsonSerializer.Deserialize<FaultModel>(utf8, Strict) ?? throw new JsonException("null is no fault model.");
}

/// <summary>A fault model that cannot be used; the message says where and why.</summary>
public sealed class FaultModelException(string message) : Exception(message);
