namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    private static readonly string[] EventKinds = ["starting", "idling", "driving", "stopping", "other"];

    private static IEnumerable<LintNote> EventRules(ModelMap map)
    {
        FaultModel model = map.Model;
        ILookup<string, EventCell> cells = model.Cells.Where(c => c.Event is not null).ToLookup(c => c.Event!);
        return
        [
            .. FacetIds(model),
            .. model.Events.SelectMany(e => EventRules(model, e, [.. cells[e.Id]])),
        ];
    }

    private static IEnumerable<LintNote> FacetIds(FaultModel model)
    {
        HashSet<string> events = [.. model.Events.Select(e => e.Id)];
        HashSet<string> when = [.. model.When.Select(f => f.Id)];
        HashSet<string> then = [.. model.Then.Select(f => f.Id)];
        HashSet<string> cells = [.. model.Cells.Select(c => c.Id)];
        return
        [
            .. model.Cells.SelectMany(c => Missing(One(c.Event), events.Contains, $"cells[{c.Id}].event", "an event")),
            .. model.Cells.SelectMany(c => Missing(One(c.When), when.Contains, $"cells[{c.Id}].when", "one of the facets under when")),
            .. model.Cells.SelectMany(c => Missing(One(c.Then), then.Contains, $"cells[{c.Id}].then", "one of the facets under then")),
            .. model.Events.SelectMany(e => Missing(e.Formerly.Keys, cells.Contains, $"events[{e.Id}].formerly", "a cell of an event")),
            .. model.Events.SelectMany(e => e.Formerly.SelectMany(f => Missing(f.Value.When, when.Contains, $"events[{e.Id}].formerly[{f.Key}].when", "one of the facets under when"))),
            .. model.Events.SelectMany(e => e.Formerly.SelectMany(f => Missing(f.Value.Then, then.Contains, $"events[{e.Id}].formerly[{f.Key}].then", "one of the facets under then"))),
        ];
    }

    private static IEnumerable<string> One(string? id) => id is null ? [] : [id];

    private static IEnumerable<LintNote> EventRules(FaultModel model, Event e, EventCell[] cells)
    {
        string path = $"events[{e.Id}]";
        if (!EventKinds.Contains(e.Kind))
        {
            yield return new LintNote("event-kind", $"{path}.kind", $"'{e.Kind}' is none of {string.Join(", ", EventKinds)}.");
        }

        if (cells.Length is 0 or > Event.MaxCells)
        {
            yield return new LintNote("event-cells", path, $"It has {cells.Length} cells. Give it 1 to {Event.MaxCells}, or leave it out.");
        }

        foreach (IGrouping<(string?, string?), EventCell> alike in cells.GroupBy(c => (c.When, c.Then)).Where(g => g.Count() > 1))
        {
            EventCell last = alike.Last();
            yield return new LintNote("cells-alike", $"cells[{last.Id}]",
                $"{string.Join(", ", alike.Select(c => c.Id))} have the same facets, so that nothing told could tell them apart. Give each its own, or join them.");
        }

        foreach ((string old, Facets meant) in e.Formerly.Where(f => !cells.Any(c => c.Agrees(f.Value.When, f.Value.Then))))
        {
            yield return new LintNote("formerly-empty", $"{path}.formerly[{old}]", "No cell of the event has these facets, so that what was recorded would mean nothing. Correct them.");
        }

        // a finding of the old id is read as one of the event, every facet open
        if (!cells.Any(c => c.Id == e.Id) && model.Cells.Any(c => c.Id == e.Id))
        {
            yield return new LintNote("event-named-cell", path, "Its id is that of a cell of another event. Give the event another id.");
        }
    }
}
