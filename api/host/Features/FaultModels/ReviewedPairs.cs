using System.Text.Json;
using System.Text.Json.Serialization;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>What the authors of a fault model say of two faults that no check tells apart well: the `pairs` of the reviewed.json beside it.</summary>
internal static class ReviewedPairs
{
    public const string FileName = "reviewed.json";

    /// <returns>Reasons by both faults' names, "component.mode ~ component.mode".</returns>
    /// <exception cref="JsonException">It is not such a file.</exception>
    public static Dictionary<string, string> Of(string text) =>
        (JsonSerializer.Deserialize<Reviewed>(text, JsonSerializerOptions.Web)?.Pairs ?? []).DistinctBy(p => Key(p.A, p.B)).ToDictionary(p => Key(p.A, p.B), p => p.Why);

    public static string Key(string a, string b) => $"{a} ~ {b}";

    private sealed record Reviewed(IReadOnlyList<Pair>? Pairs);

    private sealed record Pair([property: JsonRequired] string A, [property: JsonRequired] string B, [property: JsonRequired] string Why);
}
