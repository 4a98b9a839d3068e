using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace FuelHistory.Core.FaultModels;

/// <summary>A model with its pieces put in: one whole JSON object, of which every part knows the file and line it came from.</summary>
public sealed partial class ComposedModel
{
    private static readonly JsonSerializerOptions Written = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private readonly string _name;
    private readonly JsonObject _whole;
    private readonly PlacedJson _placed;

    internal ComposedModel(string name, JsonObject whole, PlacedJson placed) => (_name, _whole, _placed) = (name, whole, placed);

    /// <summary>What the file calls itself, where it says so.</summary>
    public string? Id => ModelEntries.Text(_whole["id"]);

    /// <summary>The whole model that this one builds on; null where it builds on pieces only.</summary>
    public string? BaseId { get; init; }

    /// <summary>The whole model as one text without pieces.</summary>
    public string Json => _whole.ToJsonString(Written);

    /// <exception cref="FaultModelException">The whole is not a fault model; the message names file, line and member.</exception>
    public FaultModel Read()
    {
        try
        {
            return FaultModelComposer.Today(_whole, _placed).Deserialize<FaultModel>(FaultModelReader.Strict)!;
        }
        catch (JsonException e)
        {
            string path = e.Path ?? "$";
            throw new FaultModelException($"{Nearest(JsonSteps().Matches(path).Select(Step), Member)}, {path}: {PlacedJson.Plain(e)}");
        }
    }

    /// <summary>Where the thing was written that a note of the linter names by ids, such as checks[system-pressure].limits; the start of the file where it is nowhere.</summary>
    public Place PlaceOf(string notePath) => Nearest(NoteSteps().Matches(notePath).Select(Step), Named);

    private Place Nearest(IEnumerable<string> steps, Func<JsonNode, string, JsonNode?> next)
    {
        JsonNode? node = _whole;
        Place nearest = new(_name, 1);
        foreach (string step in steps)
        {
            node = next(node, step);
            if (node is null)
            {
                break;
            }

            nearest = _placed.Of(node) ?? nearest;
        }

        return nearest;
    }

    private static string Step(Match match) => match.Groups.Values.Skip(1).First(g => g.Success).Value;

    private static JsonNode? Member(JsonNode node, string step) => node switch
    {
        JsonArray list => int.TryParse(step, out int index) && index < list.Count ? list[index] : null,
        JsonObject members => members[step],
        _ => null,
    };

    private static JsonNode? Named(JsonNode node, string step) => node switch
    {
        JsonArray list => list.FirstOrDefault(e => ModelEntries.Key(e) == step) ?? list.FirstOrDefault(e => ModelEntries.Text(e) == step) ?? Member(list, step),
        JsonObject members => members[step] ?? (ModelEntries.Key(members) == step ? members : null), // a row that stands alone, byLevel[spark]
        _ => null,
    };

    [GeneratedRegex("""\.([^.\[]+)|\[(\d+)\]|\['([^']*)'\]""")]
    private static partial Regex JsonSteps();

    [GeneratedRegex("""([^.\[\]]+)\.?|\[([^\]]+)\]\.?""")]
    private static partial Regex NoteSteps();
}
