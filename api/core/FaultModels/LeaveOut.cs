using System.Text.Json.Nodes;

namespace FuelHistory.Core.FaultModels;

/// <summary>What a sign of a stop note names.</summary>
internal static class StopSigns
{
    private static readonly string[] Members = ["event", "check", "part", "work"];

    /// <summary>Such as "event no-start"; empty where it names nothing.</summary>
    public static string Key(JsonNode? sign) =>
        Members.Where(m => ModelEntries.Text(sign?[m]) is not null).Select(m => $"{m} {ModelEntries.Text(sign![m])}").FirstOrDefault("");
}

/// <summary>Takes an entry out of the joined pieces, with all that refers to it: "check:fuse-look", "mode:pump.noisy".</summary>
internal static class LeaveOut
{
    private static readonly (string List, string Rows)[] RowLists = [("conditions", "effects"), ("cells", "causes"), ("checks", "detects"), ("checks", "table")];

    /// <summary>What has tools, and what needs parts.</summary>
    private static readonly string[] Doings = ["checks", "trials"];

    public static void From(JsonObject whole, string what, Place asked)
    {
        string[] parts = what.Split(':', 2);
        string id = parts[^1];
        bool dropped = (parts.Length == 2 ? parts[0] : "") switch
        {
            "component" => Entry(whole, "components", id) && Faults(whole, of => of.StartsWith(id + ".", StringComparison.Ordinal), id) && Fitted(whole, id),
            "mode" => Mode(whole, id) && Faults(whole, of => of == id, null) && Signs(whole),
            "condition" => Entry(whole, "conditions", id) && Condition(whole, id) && Signs(whole),
            "event" => Entry(whole, "events", id) && Entry(whole, "cells", cell => ModelEntries.Text(cell["event"]) == id) && Unasked(whole, id) && Signs(whole),
            "cell" => Cell(whole, id) && Signs(whole),
            "check" => Entry(whole, "checks", id) && Signs(whole),
            "trial" => Entry(whole, "trials", id),
            "option" => Entry(whole, "options", id),
            "stop-note" => Entry(whole, "stopNotes", id),
            "tool" => Entry(whole, "tools", id) && Doings.All(list => Each(whole, list, e => ModelEntries.Drop(e["tools"], t => ModelEntries.Text(t) == id))),
            "incident" => Entry(whole, "incidents", id) && EachMode(whole, mode => (mode["incidents"] as JsonObject)?.Remove(id)),
            _ => throw new FaultModelException(
                $"{asked}: \"{what}\" cannot be left out. Write component:, mode:, condition:, event:, cell:, check:, trial:, tool:, incident:, option: or stop-note: and an id."),
        };
        if (!dropped)
        {
            throw new FaultModelException($"{asked}: \"{what}\" is left out, but no included piece has it.");
        }
    }

    private static bool Entry(JsonObject whole, string list, string id) => ModelEntries.Drop(whole[list], e => ModelEntries.Key(e) == id) > 0;

    private static bool Entry(JsonObject whole, string list, Func<JsonObject, bool> gone) => ModelEntries.Drop(whole[list], e => e is JsonObject o && gone(o)) > 0;

    /// <summary>A cell goes, and with the last of its cells the event; what an event's formerly says of the cell goes too.</summary>
    private static bool Cell(JsonObject whole, string id)
    {
        string? source = ModelEntries.In(whole, "cells").Where(c => ModelEntries.Key(c) == id).Select(c => ModelEntries.Text(c["event"])).FirstOrDefault();
        bool dropped = Entry(whole, "cells", id);
        Each(whole, "events", e => (e["formerly"] as JsonObject)?.Remove(id));
        if (source is not null && !ModelEntries.In(whole, "cells").Any(c => ModelEntries.Text(c["event"]) == source))
        {
            Entry(whole, "events", source);
            Unasked(whole, source);
        }

        return dropped;
    }

    /// <summary>No check is answered by an event that is not there.</summary>
    private static bool Unasked(JsonObject whole, string id) => Each(whole, "checks", c => ModelEntries.Drop(c["answeredBy"], e => ModelEntries.Text(e) == id));

    private static bool Mode(JsonObject whole, string id)
    {
        string[] parts = id.Split('.');
        return ModelEntries.In(whole, "components").Where(c => ModelEntries.Key(c) == parts[0])
            .Sum(c => ModelEntries.Drop(c["modes"], m => ModelEntries.Key(m) == parts[^1])) > 0;
    }

    private static bool Faults(JsonObject whole, Func<string, bool> gone, string? component)
    {
        Rows(whole, gone);
        if (component is not null)
        {
            Each(whole, "components", c => ModelEntries.Drop(c["includes"], i => ModelEntries.Text(i) == component));
            Each(whole, "components", c => ModelEntries.Drop(c["moves"], i => ModelEntries.Text(i) == component));
            EachMode(whole, m => ModelEntries.Drop(m["together"], i => ModelEntries.Text(i) == component));
            Each(whole, "trials", t => ModelEntries.Drop(t["moves"], i => ModelEntries.Text(i) == component));
            Entry(whole, "trials", t => ModelEntries.Text(t["component"]) == component);
        }

        return EachMode(whole, mode => ModelEntries.Drop(mode["causedBy"], c => ModelEntries.Text(c) is { } of && gone(of)));
    }

    /// <summary>Options and needs no longer name the component; what needed nothing else is told by its causes again.</summary>
    private static bool Fitted(JsonObject whole, string component)
    {
        Each(whole, "options", option => ModelEntries.In(option, "choices").ToList()
            .TrueForAll(choice => ModelEntries.Drop(choice["absent"], c => ModelEntries.Text(c) == component) >= 0));
        _ = Doings.All(list => Each(whole, list, entry => ModelEntries.Drop(entry["needs"], c => ModelEntries.Text(c) == component) > 0
            && entry["needs"] is JsonArray { Count: 0 } && entry.Remove("needs")));
        return Signs(whole);
    }

    /// <summary>Signs of what is no longer there go; a stop note that nothing can bring up goes with them.</summary>
    private static bool Signs(JsonObject whole)
    {
        HashSet<string> known = [.. Known(whole)];
        Each(whole, "stopNotes", note =>
            ModelEntries.Drop(note["endedBy"], sign => !known.Contains(StopSigns.Key(sign))) + ModelEntries.Drop(note["when"], sign => !known.Contains(StopSigns.Key(sign))));
        ModelEntries.Drop(whole["stopNotes"], note => note!["when"] is JsonArray { Count: 0 });
        return true;
    }

    private static IEnumerable<string> Known(JsonObject whole)
    {
        IEnumerable<string> components = ModelEntries.In(whole, "components").SelectMany(c =>
            ModelEntries.In(c, "modes").Select(m => $"part {ModelEntries.Key(c)}.{ModelEntries.Key(m)}").Append($"part {ModelEntries.Key(c)}").Append($"work {ModelEntries.Key(c)}"));
        return components
            .Concat(ModelEntries.In(whole, "cells").SelectMany(c => new[] { ModelEntries.Key(c), ModelEntries.Text(c["event"]) }.OfType<string>().Select(id => $"event {id}")))
            .Concat(ModelEntries.In(whole, "checks").Select(c => $"check {ModelEntries.Key(c)}"));
    }

    private static bool Condition(JsonObject whole, string id)
    {
        Rows(whole, of => of == id);
        Each(whole, "checks", check => ModelEntries.Drop(check["watches"], c => ModelEntries.Text(c) == id));
        Each(whole, "checks", check => ModelEntries.Text(check["store"]) == id && check.Remove("store"));
        List<JsonObject> unchanged = [.. ModelEntries.In(whole, "trials").Where(t =>
            ModelEntries.Drop(t["right"], c => ModelEntries.Text(c) == id) > 0 && t["right"] is JsonArray { Count: 0 } && t["component"] is null)];
        ModelEntries.Drop(whole["trials"], unchanged.Contains); // a trial that made nothing else right tries nothing
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
