using System.Text.Json.Nodes;

namespace FuelHistory.Core.FaultModels;

/// <summary>Puts the shared pieces that a model includes into it (MODEL.md 10). Lists are joined in the order of the includes, the model's own last.</summary>
public static class FaultModelComposer
{
    private const string PieceSchema = "fuelhistory/fault-piece/1";

    private static readonly string[] Lists = ["tools", "incidents", "components", "conditions", "symptoms", "checks"];

    private static readonly string[] PieceMembers = ["schema", "id", "about", "sources", .. Lists];

    /// <param name="model">The model's own text.</param>
    /// <param name="pieces">All that may be included, by id.</param>
    /// <exception cref="FaultModelException">A text cannot be read, or cannot be joined; the message names file and line.</exception>
    public static ComposedModel Compose(ModelText model, IReadOnlyDictionary<string, ModelText> pieces)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(pieces);
        var placed = new PlacedJson();
        JsonObject own = placed.Read(model);
        var includes = Taken(own, "include", placed);
        var leftOut = Taken(own, "leaveOut", placed);

        // step one: the pieces, in their order
        JsonObject whole = [];
        foreach ((string id, Place place) in includes)
        {
            Join(whole, Piece(id, place, pieces, placed), placed);
        }

        // step two: less what the model leaves out; before its own entries, which may take the same ids
        foreach ((string what, Place place) in leftOut)
        {
            LeaveOut.From(whole, what, place);
        }

        // step three: the model's own entries and figures
        Join(whole, own, placed);
        return new ComposedModel(model.Name, whole, placed);
    }

    private static List<(string Text, Place Place)> Taken(JsonObject own, string member, PlacedJson placed)
    {
        JsonNode? list = own[member];
        if (!own.Remove(member))
        {
            return [];
        }

        Place place = placed.Of(list) ?? placed.Of(own)!;
        return list is JsonArray entries && entries.All(e => ModelEntries.Text(e) is not null)
            ? [.. entries.Select(e => (ModelEntries.Text(e)!, placed.Of(e)!))]
            : throw new FaultModelException($"{place}: \"{member}\" must be a list of texts.");
    }

    private static JsonObject Piece(string id, Place asked, IReadOnlyDictionary<string, ModelText> pieces, PlacedJson placed)
    {
        if (!pieces.TryGetValue(id, out ModelText? text))
        {
            throw new FaultModelException($"{asked}: There is no shared piece \"{id}\"; there are: {string.Join(", ", pieces.Keys.Order(StringComparer.Ordinal))}.");
        }

        JsonObject piece = placed.Read(text);
        Place place = placed.Of(piece)!;
        if (ModelEntries.Text(piece["schema"]) != PieceSchema || ModelEntries.Text(piece["id"]) != id)
        {
            throw new FaultModelException($"{place}: A shared piece begins with \"schema\": \"{PieceSchema}\" and \"id\": \"{id}\", the name of its file.");
        }

        if (piece.Select(m => m.Key).FirstOrDefault(name => !PieceMembers.Contains(name)) is { } unknown)
        {
            throw new FaultModelException($"{placed.Of(piece[unknown]) ?? place}: A shared piece has no member \"{unknown}\"; it may have {string.Join(", ", PieceMembers)}.");
        }

        foreach (string name in PieceMembers[..3])
        {
            piece.Remove(name);
        }

        return piece;
    }

    private static void Join(JsonObject whole, JsonObject more, PlacedJson placed)
    {
        var merge = new EntryMerge(placed);
        foreach ((string name, JsonNode? value) in more.ToList())
        {
            more.Remove(name);
            switch (value)
            {
                case JsonObject sources when name == "sources" && whole[name] is JsonObject known: merge.Sources(known, sources); break;
                case JsonArray entries when Lists.Contains(name): merge.Entries(EntryMerge.ListOf(whole, name), entries, name); break;
                default: whole[name] = value; break;
            }
        }
    }
}
