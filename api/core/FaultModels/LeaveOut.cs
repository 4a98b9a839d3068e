using System.Text.Json.Nodes;

namespace FuelHistory.Core.FaultModels;

/// <summary>Takes an entry out of the joined pieces, with all that refers to it: "check:fuse-look", "mode:pump.noisy".</summary>
internal static class LeaveOut
{
    private static readonly (string List, string Rows)[] RowLists = [("conditions", "effects"), ("cells", "causes"), ("checks", "detects"), ("checks", "table")];

    public static void From(JsonObject whole, string what, Place asked)
    {
        string[] parts = what.Split(':', 2);
        string id = parts[^1];
        bool dropped = (parts.Length == 2 ? parts[0] : "") switch
        {
            "component" => Entry(whole, "components", id) && Faults(whole, of => of.StartsWith(id + ".", StringComparison.Ordinal), id),
            "mode" => Mode(whole, id) && Faults(whole, of => of == id, null),
            "condition" => Entry(whole, "conditions", id) && Condition(whole, id),
            "cell" => Entry(whole, "cells", id),
            "check" => Entry(whole, "checks", id),
            "tool" => Entry(whole, "tools", id) && Each(whole, "checks", check => ModelEntries.Drop(check["tools"], t => ModelEntries.Text(t) == id)),
            "incident" => Entry(whole, "incidents", id) && EachMode(whole, mode => (mode["incidents"] as JsonObject)?.Remove(id)),
            _ => throw new FaultModelException($"{asked}: \"{what}\" cannot be left out. Write component:, mode:, condition:, cell:, check:, tool: or incident: and an id."),
        };
        if (!dropped)
        {
            throw new FaultModelException($"{asked}: \"{what}\" is left out, but no included piece has it.");
        }
    }

    private static bool Entry(JsonObject whole, string list, string id) => ModelEntries.Drop(whole[list], e => ModelEntries.Key(e) == id) > 0;

    private static bool Mode(JsonObject whole, string id)
    {
        string[] parts = id.Split('.');
        return ModelEntries.In(whole, "components").Where(c => ModelEntries.Key(c) == parts[0])
            .Sum(c => ModelEntries.Drop(c["modes"], m => ModelEntries.Key(m) == parts[^1])) > 0;
    }

    private static bool Faults(JsonObject whole, Func<string, bool> gone, string? component)
    {
        Rows(whole, gone);
        Each(whole, "components", c => ModelEntries.Drop(c["includes"], i => ModelEntries.Text(i) == component && component is not null));
        return EachMode(whole, mode => ModelEntries.Drop(mode["causedBy"], c => ModelEntries.Text(c) is { } of && gone(of)));
    }

    private static bool Condition(JsonObject whole, string id)
    {
        Rows(whole, of => of == id);
        Each(whole, "checks", check => ModelEntries.Drop(check["watches"], c => ModelEntries.Text(c) == id));
        Each(whole, "checks", check => ModelEntries.Text(check["store"]) == id && check.Remove("store"));
        ModelEntries.Drop(whole["checks"], check => ModelEntries.Text(check!["measures"]) == id || ModelEntries.Text(check["byLevel"]?["of"]) == id);
        return true;
    }

    /// <summary>Rows go; a check that looked at nothing else goes with them.</summary>
    private static void Rows(JsonObject whole, Func<string, bool> gone)
    {
        foreach ((string list, string rows) in RowLists)
        {
            List<JsonObject> emptied = [.. ModelEntries.In(whole, list).Where(e =>
                ModelEntries.Drop(e[rows], r => ModelEntries.Key(r) is { } of && gone(of)) > 0 && e[rows] is JsonArray { Count: 0 })];
            if (list == "checks")
            {
                ModelEntries.Drop(whole[list], emptied.Contains);
            }
        }
    }

    private static bool Each<T>(JsonObject whole, string list, Func<JsonObject, T> change)
    {
        foreach (JsonObject entry in ModelEntries.In(whole, list))
        {
            change(entry);
        }

        return true;
    }

    private static bool EachMode<T>(JsonObject whole, Func<JsonObject, T> change) =>
        Each(whole, "components", component => Each(component, "modes", change));
}
