using System.Runtime.CompilerServices;
using System.Text.Json.Nodes;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.FaultModels;

/// <summary>The model file as it stands in the tree, as text, as a record, or as JSON to break on purpose.</summary>
internal static class ModelFile
{
    public static string Folder => Path.Combine(Root(), "api", "fault-models");

    public static string Text { get; } = File.ReadAllText(Path.Combine(Folder, "continuous-mechanical", "model.json"));

    public static FaultModel Model { get; } = FaultModelReader.Read(Text);

    public static JsonObject Json() => JsonNode.Parse(Text)!.AsObject();

    private static string Root([CallerFilePath] string here = "") => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));
}
