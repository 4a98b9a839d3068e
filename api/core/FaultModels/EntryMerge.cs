using System.Text.Json.Nodes;

namespace FuelHistory.Core.FaultModels;

/// <summary>Joins one file's entries to those of the files before it. An entry with "extends" in place of its key adds to the entry of that key.</summary>
internal sealed class EntryMerge(PlacedJson placed)
{
    /// <summary>Objects whose members are figures by name: joined member by member. Every other object is given anew as a whole.</summary>
    private static readonly string[] ByName = ["background", "incidents", "curedBy", "otherwise", "formerly", "onset", "judged"];

    /// <summary>What several pieces may bring along word for word.</summary>
    private static readonly string[] Repeatable = ["tools", "incidents", "when", "then"];

    public static JsonArray ListOf(JsonObject owner, string name)
    {
        if (owner[name] is not JsonArray list)
        {
            owner[name] = list = [];
        }

        return list;
    }

    public void Sources(JsonObject known, JsonObject more)
    {
        foreach ((string key, JsonNode? source) in more.ToList())
        {
            more.Remove(key);
            if (!known.TryGetPropertyValue(key, out JsonNode? there))
            {
                known[key] = source;
            }
            else if (!JsonNode.DeepEquals(there, source))
            {
                throw Refused(source, $"The source \"{key}\" says something else in {placed.Of(there)}. Give one of them another key.");
            }
        }
    }

    public void Entries(JsonArray list, JsonArray more, string name)
    {
        // what one file says twice is for the linter; what two files say is for here
        Dictionary<string, JsonNode> earlier = list.Where(e => ModelEntries.Key(e) is not null).GroupBy(e => ModelEntries.Key(e)!).ToDictionary(g => g.Key, g => g.First()!);
        foreach (JsonNode? entry in more.ToList())
        {
            more.Remove(entry);
            if (entry is JsonObject members && members.ContainsKey("extends"))
            {
                Extend(earlier, members, name);
            }
            else if (ModelEntries.Key(entry) is not { } key || !earlier.TryGetValue(key, out JsonNode? there))
            {
                list.Add(entry);
            }
            else if (!Repeatable.Contains(name) || !JsonNode.DeepEquals(there, entry))
            {
                throw Refused(entry, $"{name} has \"{key}\" already, from {placed.Of(there)}. Write \"extends\": \"{key}\" to add to it, or leave that one out.");
            }
        }
    }

    private void Extend(Dictionary<string, JsonNode> earlier, JsonObject more, string name)
    {
        string? key = ModelEntries.Text(more["extends"]);
        if (ModelEntries.Key(more) is { } own)
        {
            throw Refused(more, $"\"{own}\" and \"extends\" in one entry. A new entry has a name of its own, one that adds has \"extends\" alone.");
        }

        if (key is null || earlier.GetValueOrDefault(key) is not JsonObject there)
        {
            throw Refused(more, $"extends \"{key}\", but no file before this one has it in {name}. Include the piece that has it, or write it whole.");
        }

        more.Remove("extends");
        foreach ((string member, JsonNode? value) in more.ToList())
        {
            more.Remove(member);
            Member(there, member, value);
        }
    }

    private void Member(JsonObject there, string member, JsonNode? value)
    {
        switch (value)
        {
            case JsonArray more when more.Any(e => e is JsonObject):
                Entries(ListOf(there, member), more, member);
                break;
            case JsonArray more when more.All(e => ModelEntries.Text(e) is not null):
                Texts(ListOf(there, member), more);
                break;
            case JsonObject more when ByName.Contains(member) && there[member] is JsonObject known:
                more.ToList().ForEach(m =>
                {
                    more.Remove(m.Key);
                    known[m.Key] = m.Value;
                });
                break;
            default:
                there[member] = value;
                break;
        }
    }

    private static void Texts(JsonArray list, JsonArray more)
    {
        foreach (JsonNode? text in more.ToList())
        {
            more.Remove(text);
            if (!list.Any(t => JsonNode.DeepEquals(t, text)))
            {
                list.Add(text);
            }
        }
    }

    private FaultModelException Refused(JsonNode? at, string why) => new($"{placed.Of(at)}: {why}");
}
