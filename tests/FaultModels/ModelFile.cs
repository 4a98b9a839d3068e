using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text.Json.Nodes;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>The model file as it stands in the tree, as text, as a record, or as JSON to break on purpose.</summary>
internal static class ModelFile
{
    public static string Folder => Path.Combine(Root(), "api", "fault-models");

    public static IReadOnlyDictionary<string, ModelText> Pieces { get; } =
        PieceFiles.In(Folder).ToDictionary(path => Path.GetFileNameWithoutExtension(path), Read);

    /// <summary>The whole text, with the shared pieces in it.</summary>
    public static string Text { get; } = Composed("continuous-mechanical").Json;

    public static FaultModel Model { get; } = FaultModelReader.Read(Text);

    public static ComposedModel Composed(string id) => FaultModelComposer.Compose(Read(Path.Combine(Folder, id, "model.json")), Pieces);

    public static ModelText Read(string path) => new(Path.GetRelativePath(Folder, path), File.ReadAllText(path));

    /// <summary>A model on its own, as a file with lines.</summary>
    public static ComposedModel Composed(JsonNode json) => FaultModelComposer.Compose(new ModelText("broken.json", Indented(json)), Pieces);

    /// <summary>The line of a place with the one after it: an entry begins with a brace, its id stands below.</summary>
    public static string LinesAt(JsonNode json, Place place) => string.Join('\n', Indented(json).Split('\n').Skip(place.Line - 1).Take(2));

    public static JsonObject Json() => JsonNode.Parse(Text)!.AsObject();

    /// <summary>Sets the value at a slash-separated path. Entries of a list go by index, id, of or action; "+" adds one; a null value takes the member away.</summary>
    public static void Set(JsonNode json, string path, JsonNode? value)
    {
        string[] names = path.Split('/');
        JsonNode node = names[..^1].Aggregate(json, (n, name) => n is JsonArray list ? list[Index(list, name)]! : n[name]!);
        switch (node)
        {
            case JsonArray list when names[^1] == "+": list.Add(value); break;
            case JsonArray list when value is null: list.RemoveAt(Index(list, names[^1])); break;
            case JsonArray list: list[Index(list, names[^1])] = value; break;
            default: SetMember(node.AsObject(), names[^1], value); break;
        }
    }

    /// <summary>Takes away all that the mode does in this part of the file.</summary>
    public static void Drop(JsonNode json, string of)
    {
        foreach (JsonArray list in Lists(json).ToList())
        {
            list.RemoveAll(e => Names(e, of));
        }
    }

    /// <summary>What the one mode does, the other does too.</summary>
    public static void Double(JsonNode json, string of, string other)
    {
        foreach (JsonArray list in Lists(json).Where(l => l.Any(e => Names(e, of))).ToList())
        {
            JsonNode entry = list.Single(e => Names(e, of))!.DeepClone();
            entry["of"] = other;
            list.Add(entry);
        }
    }

    private static bool Names(JsonNode? entry, string of) => entry is JsonObject o && o["of"] is JsonValue named && named.GetValue<string>() == of;

    private static IEnumerable<JsonArray> Lists(JsonNode? node) => node switch
    {
        JsonArray list => list.SelectMany(Lists).Prepend(list),
        JsonObject o => o.SelectMany(m => Lists(m.Value)),
        _ => [],
    };

    private static string Indented(JsonNode json) => json.ToJsonString(new() { WriteIndented = true });

    private static void SetMember(JsonObject node, string name, JsonNode? value)
    {
        if (value is null)
        {
            Assert.True(node.Remove(name), $"no {name} to take away");
        }
        else
        {
            node[name] = value;
        }
    }

    private static int Index(JsonArray list, string name)
    {
        if (int.TryParse(name, CultureInfo.InvariantCulture, out int index))
        {
            return index;
        }

        JsonNode entry = list.Single(e => e is JsonObject o && (o["id"] ?? o["of"] ?? o["action"])?.GetValue<string>() == name)!;
        return list.IndexOf(entry);
    }

    private static string Root([CallerFilePath] string here = "") => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));
}
