using System.Text.Json.Nodes;

namespace FuelHistory.Core.FaultModels;

/// <summary>How entries of a model's lists are told apart.</summary>
internal static class ModelEntries
{
    private static readonly string[] KeyMembers = ["id", "of", "action"];

    /// <summary>What the entry is found by: its id, what it is an effect of, or its action; null where it has none of them.</summary>
    public static string? Key(JsonNode? entry) =>
        entry is JsonObject members ? KeyMembers.Select(name => Text(members[name])).FirstOrDefault(text => text is not null) : null;

    public static string? Text(JsonNode? node) => node is JsonValue value && value.TryGetValue(out string? text) ? text : null;

    /// <summary>The list under a member, empty where it is absent or something else; what is something else is refused by the strict reader.</summary>
    public static IEnumerable<JsonObject> In(JsonObject owner, string list) => (owner[list] as JsonArray ?? []).OfType<JsonObject>();

    /// <summary>Takes out of a list what fits.</summary>
    public static int Drop(JsonNode? list, Func<JsonNode?, bool> fits)
    {
        if (list is not JsonArray entries)
        {
            return 0;
        }

        int before = entries.Count;
        for (int i = before - 1; i >= 0; i--)
        {
            if (fits(entries[i]))
            {
                entries.RemoveAt(i);
            }
        }

        return before - entries.Count;
    }
}
