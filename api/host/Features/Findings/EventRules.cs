using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Findings;

/// <summary>What may be said of events: which there are, with which facets, and that one session does not contradict itself.</summary>
internal sealed class EventRules(FaultModel model)
{
    private readonly Dictionary<string, List<(string Cell, bool Present, string Where)>> _told = [];

    /// <summary>Events, their cells, and ids of earlier revisions: all are taken.</summary>
    public static IEnumerable<string> Ids(FaultModel model) =>
        model.Events.Select(e => e.Id).Concat(model.Cells.Select(c => c.Id)).Concat(model.Events.SelectMany(e => e.Formerly.Keys)).Distinct();

    /// <summary>What may be answered.</summary>
    public static readonly string[] Answers = ["present", "absent", "only", "always"];

    /// <param name="at">Pointer of the answer; its members are event, when, then and the outcome's name.</param>
    public void Check(Faults faults, string at, string outcome, EventAnswer said)
    {
        if (!faults.Known($"{at}/event", "event", said.Event, Ids(model)))
        {
            return;
        }

        IReadOnlyList<EventCell> all = CellsOf(said.Event), meant = Meant(all, said.Event, said.When ?? [], said.Then ?? []);
        var before = faults.None;
        Facets(faults, $"{at}/when", "when", said.When, all.Select(c => c.When), model.When);
        Facets(faults, $"{at}/then", "then", said.Then, all.Select(c => c.Then), model.Then);
        if (meant.Count == 0 && before && faults.None)
        {
            faults.Add($"{at}/when", Problems.Unsuitable,
                $"These facets do not go together for \"{said.Event}\". There are: {string.Join("; ", all.Select(c => c.Title))}. Leave one side open, or choose one of these.");
        }
        else if (said.Answer == "only" && meant.Count == all.Count)
        {
            faults.Add($"{at}/{outcome}", Problems.Unsuitable, "\"only\" says that it happens at no other time, so say when it happens, or answer present.");
        }

        Contradiction(faults, at, said, all, meant);
    }

    private void Contradiction(Faults faults, string at, EventAnswer said, IReadOnlyList<EventCell> all, IReadOnlyList<EventCell> meant)
    {
        var name = all[0].Event ?? all[0].Id;
        var told = _told.TryGetValue(name, out var known) ? known : _told[name] = [];
        List<(string Cell, bool Present)> now =
        [
            .. said.Answer == "present" && meant.Count > 1 ? [] : meant.Select(c => (c.Id, said.Answer != "absent")),
            .. said.Answer == "only" ? all.Except(meant).Select(c => (c.Id, false)) : [],
        ];
        foreach (var (cell, present) in now)
        {
            if (told.FirstOrDefault(t => t.Cell == cell && t.Present != present) is { Where: { } other })
            {
                faults.Add($"{at}/event", Problems.Unsuitable,
                    $"\"{all.First(c => c.Id == cell).Title}\" is {(present ? "present" : "absent")} here and {(present ? "absent" : "present")} at {other}; say which of them is right.");
                return;
            }
        }

        told.AddRange(now.Select(n => (n.Cell, n.Present, at)));
    }

    private static void Facets(Faults faults, string at, string side, IReadOnlyList<string>? said, IEnumerable<string?> has, IReadOnlyList<Facet> titles)
    {
        string[] known = [.. has.OfType<string>().Distinct()];
        foreach (var facet in (said ?? []).Where(f => !known.Contains(f)))
        {
            var there = known.Length == 0 ? "it has none, so leave it out" : "there are " + string.Join(", ", known.Select(k => $"{k} ({titles.FirstOrDefault(t => t.Id == k)?.Title ?? k})"));
            faults.Add(at, Problems.Unknown, $"\"{facet}\" is no {side} of this event; {there}.");
        }
    }

    private IReadOnlyList<EventCell> CellsOf(string id)
    {
        var name = model.Events.FirstOrDefault(e => e.Id == id || e.Formerly.ContainsKey(id))?.Id ?? model.Cells.FirstOrDefault(c => c.Id == id)?.Event ?? id;
        return [.. model.Cells.Where(c => (c.Event ?? c.Id) == name)];
    }

    private IReadOnlyList<EventCell> Meant(IReadOnlyList<EventCell> all, string id, IReadOnlyList<string> when, IReadOnlyList<string> then)
    {
        if (model.Events.All(e => e.Id != id))
        {
            if (model.Events.FirstOrDefault(e => e.Formerly.ContainsKey(id)) is { } formerly)
            {
                (when, then) = (formerly.Formerly[id].When, formerly.Formerly[id].Then);
            }
            else if (all.Any(c => c.Id == id))
            {
                return [.. all.Where(c => c.Id == id)];
            }
        }

        return [.. all.Where(c => c.Agrees([.. when], [.. then]))];
    }
}
