using System.Runtime.CompilerServices;
using System.Text.Json.Nodes;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Library;

namespace FuelHistory.Tests.Library;

/// <summary>The limits library as it stands in the tree, and single limits to break on purpose.</summary>
internal static class LibraryFiles
{
    public static string Folder => Path.Combine(Root(), "api", "limits-library");

    public static IReadOnlyList<(string Name, string Text)> All { get; } =
        [.. Directory.EnumerateFiles(Folder, "*.json").Where(p => !p.EndsWith(".schema.json", StringComparison.Ordinal)).Order(StringComparer.Ordinal).Select(p => (Path.GetFileName(p), File.ReadAllText(p)))];

    public static LimitsLibrary Library { get; } = LibraryReader.Read(All);

    public static IReadOnlyDictionary<string, FaultModel> Models { get; } = Directory
        .EnumerateFiles(Path.Combine(Root(), "api", "fault-models"), "model.json", SearchOption.AllDirectories)
        .Select(p => FaultModels.ModelFile.Composed(Path.GetFileName(Path.GetDirectoryName(p)!)).Read()).ToDictionary(m => m.Id);

    /// <summary>One sound limit, with a member replaced; the member's name is taken away where the value is null.</summary>
    public static LimitsLibrary With(string member, string? value)
    {
        var limit = JsonNode.Parse("""
            { "id": "one-1", "title": "One", "quantity": "pressure", "systems": ["continuous-mechanical"], "checks": ["system-pressure"],
              "given": { "source": "book" }, "printed": "4.5-5.5 bar", "unit": "bar", "low": 4.5, "high": 5.5 }
            """)!.AsObject();
        if (value is null)
        {
            limit.Remove(member);
        }
        else
        {
            limit[member] = JsonNode.Parse(value);
        }

        return Of(limit.ToJsonString());
    }

    public static LimitsLibrary Of(params string[] limits) => LibraryReader.Read(
    [
        ("a.json", $$"""{ "schema": "fuelhistory/limits/1", "limits": [{{string.Join(',', limits)}}] }"""),
        ("sources.json", """{ "schema": "fuelhistory/limit-sources/1", "sources": { "book": { "kind": "published", "cite": "A book" } } }"""),
    ]);

    private static string Root([CallerFilePath] string here = "") => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));
}
