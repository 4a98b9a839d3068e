using System.Text.Json.Nodes;

namespace FuelHistory.Core.FaultModels;

/// <summary>Puts the shared pieces that a model includes into it (MODEL.md 10). Lists are joined in the order of the includes, the model's own last.</summary>
public static class FaultModelComposer
{
    private const string PieceSchema = "fuelhistory/fault-piece/1", ModelSchema = "fuelhistory/fault-model/1";

    private static readonly string[] Lists =
        ["tools", "incidents", "when", "then", "components", "conditions", "events", "cells", "checks", "trials", "options", "stopNotes"];

    private static readonly string[] PieceMembers = ["schema", "id", "about", "sources", .. Lists];

    /// <summary>What a model says of itself; it does not go over to one that includes it.</summary>
    private static readonly string[] HeadMembers = ["$schema", "schema", "id", "title", "revision", "about"];

    /// <param name="model">The model's own text.</param>
    /// <param name="pieces">All that may be included, by id; among them whole models, of which one may be the base of another.</param>
    /// <exception cref="FaultModelException">A text cannot be read, or cannot be joined; the message names file and line.</exception>
    public static ComposedModel Compose(ModelText model, IReadOnlyDictionary<string, ModelText> pieces)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(pieces);
        var placed = new PlacedJson();
        string? baseId = null;
        JsonObject whole = Whole(placed.Read(model), pieces, placed, isBase: false, ref baseId);
        Judged.Into(whole, placed);
        return new ComposedModel(model.Name, whole, placed) { BaseId = baseId };
    }

    /// <summary>The form of before events had cells; each entry of it is what an entry of cells is now.</summary>
    internal static JsonObject Today(JsonObject text, PlacedJson placed)
    {
        foreach (JsonObject holder in new[] { text, text["elsewhere"] as JsonObject }.OfType<JsonObject>())
        {
            if (holder["symptoms"] is JsonNode old)
            {
                throw new FaultModelException($"{placed.Of(old) ?? placed.Of(holder)!}: \"symptoms\" is called \"cells\" now. Rename it, also under \"elsewhere\", and write \"cell:\" for \"symptom:\" under \"leaveOut\"; the entries may stay as they are, each is then an event of its own.");
            }
        }

        return text;
    }

    private static JsonObject Whole(JsonObject own, IReadOnlyDictionary<string, ModelText> pieces, PlacedJson placed, bool isBase, ref string? baseId)
    {
        var includes = Taken(own, "include", placed);
        var leftOut = Taken(own, "leaveOut", placed);
        var judged = Taken(own, "judged", placed);

        // step one: the pieces, in their order
        JsonObject whole = [];
        foreach ((string id, Place place) in includes)
        {
            JsonObject piece = Today(placed.Read(Asked(id, place, pieces)), placed);
            if (ModelEntries.Text(piece["schema"]) != ModelSchema)
            {
                Join(whole, Piece(id, piece, placed), placed);
                continue;
            }

            // a whole model under this one: at most one, and none below it, so that nothing goes round
            if (isBase || baseId is not null)
            {
                throw new FaultModelException($"{place}: \"{id}\" is a whole fault model; one alone can be the base of another, and its own base cannot be a model again.");
            }

            baseId = id;
            string? none = null;
            JsonObject below = Whole(piece, pieces, placed, isBase: true, ref none);
            HeadMembers.ToList().ForEach(name => below.Remove(name));
            Join(whole, below, placed);
        }

        // step two: less what the model leaves out; before its own entries, which may take the same ids
        foreach ((string what, Place place) in leftOut)
        {
            LeaveOut.From(whole, what, place);
        }

        // step three: the model's own entries and figures
        Join(whole, own, placed);

        // step four: what writers judged of all of them
        foreach ((string id, Place place) in judged)
        {
            Join(whole, Piece(id, placed.Read(Asked(id, place, pieces)), placed), placed);
        }

        return whole;
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

    private static ModelText Asked(string id, Place asked, IReadOnlyDictionary<string, ModelText> pieces) => pieces.TryGetValue(id, out ModelText? text) ? text
        : throw new FaultModelException($"{asked}: There is no shared piece \"{id}\"; there are: {string.Join(", ", pieces.Keys.Order(StringComparer.Ordinal))}.");

    private static JsonObject Piece(string id, JsonObject piece, PlacedJson placed)
    {
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
