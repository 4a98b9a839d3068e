using System.Text.Json.Nodes;

namespace FuelHistory.Core.FaultModels;

/// <summary>Figures that several writers of the trade judged apart, in short form: mode to [p, spread] for a cell and a yes-or-no check, mode to
/// figures by outcome for the others (MODEL.md 10). They take the place of what the pieces say of the same mode; 0 takes the arrow away.</summary>
internal static class Judged
{
    private const string Name = "judged", Spread = "spread";

    /// <exception cref="FaultModelException">The short form is not kept; the message names file and line.</exception>
    public static void Into(JsonObject whole, PlacedJson placed)
    {
        foreach (JsonObject cell in ModelEntries.In(whole, "cells").Where(c => c.ContainsKey(Name)))
        {
            Rows(cell, "causes", placed, Figure);
        }

        foreach (JsonObject check in ModelEntries.In(whole, "checks").Where(c => c.ContainsKey(Name)))
        {
            bool yesNo = check.ContainsKey("detects");
            Rows(check, yesNo ? "detects" : "table", placed, yesNo ? Figure : Outcomes);
        }
    }

    private static void Rows(JsonObject entry, string list, PlacedJson placed, Func<JsonNode, Place, JsonObject?> row)
    {
        JsonNode? judged = entry[Name];
        entry.Remove(Name);
        if (judged is not JsonObject byMode)
        {
            throw Refused(placed.Of(judged) ?? placed.Of(entry)!, "must be an object from modes to figures.");
        }

        JsonArray rows = EntryMerge.ListOf(entry, list);
        foreach ((string mode, JsonNode? figures) in byMode)
        {
            Place place = placed.Of(figures) ?? placed.Of(byMode)!;
            JsonObject? made = figures is null ? throw Refused(place, $"has no figures for \"{mode}\".") : row(figures, place);
            ModelEntries.Drop(rows, r => ModelEntries.Key(r) == mode);
            if (made is not null)
            {
                made.Insert(0, "of", mode);
                made["source"] = Name;
                placed.Put(made, place);
                rows.Add((JsonNode)made);
            }
        }
    }

    private static JsonObject? Figure(JsonNode figures, Place place) => figures is JsonArray { Count: 2 } pair
        ? Number(pair[0]) == 0 ? null : new JsonObject { ["p"] = pair[0]!.DeepClone(), [Spread] = pair[1]!.DeepClone() }
        : throw Refused(place, "wants [p, spread] for each mode.");

    private static JsonObject? Outcomes(JsonNode figures, Place place)
    {
        if (figures is not JsonObject byOutcome)
        {
            throw Refused(place, "wants figures by outcome, and spread, for each mode.");
        }

        JsonObject p = [];
        foreach ((string outcome, JsonNode? figure) in byOutcome.Where(o => o.Key != Spread))
        {
            p[outcome] = figure?.DeepClone();
        }

        return p.Count == 0 ? null : new JsonObject { ["p"] = p, [Spread] = byOutcome[Spread]?.DeepClone() };
    }

    private static double? Number(JsonNode? node) => node is JsonValue value && value.TryGetValue(out double number) ? number : null;

    private static FaultModelException Refused(Place place, string why) => new($"{place}: \"{Name}\" {why}");
}
