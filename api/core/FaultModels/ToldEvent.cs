namespace FuelHistory.Core.FaultModels;

/// <summary>An event as it was told: by its own id, by an id that it had in an earlier revision, or by the id of one cell.</summary>
/// <param name="Event">Its id today; that of the cell where a single cell is an event of its own.</param>
/// <param name="Title">Title of the event.</param>
/// <param name="All">Every cell of the event.</param>
/// <param name="Meant">Those that agree with what was told; empty where the event has no such cell.</param>
public sealed record ToldEvent(string Event, string Title, IReadOnlyList<EventCell> All, IReadOnlyList<EventCell> Meant)
{
    /// <summary>Null where the model has no such event.</summary>
    public static ToldEvent? Of(FaultModel model, string id, IReadOnlyCollection<string> when, IReadOnlyCollection<string> then)
    {
        ArgumentNullException.ThrowIfNull(model);
        if (model.Events.FirstOrDefault(e => e.Id == id) is Event named)
        {
            return Of(model, named, when, then);
        }

        EventCell? cell = model.Cells.FirstOrDefault(c => c.Id == id);
        if (cell is { Event: null })
        {
            return new ToldEvent(cell.Id, cell.Title, [cell], cell.Agrees(when, then) ? [cell] : []);
        }

        // an id of an earlier revision says its facets itself, and so does that of a cell
        if (model.Events.FirstOrDefault(e => e.Formerly.ContainsKey(id)) is Event renamed)
        {
            return Of(model, renamed, renamed.Formerly[id].When, renamed.Formerly[id].Then);
        }

        return cell is not null && model.Events.FirstOrDefault(e => e.Id == cell.Event) is Event owner ? Of(model, owner, [], []) with { Meant = [cell] } : null;
    }

    private static ToldEvent Of(FaultModel model, Event source, IReadOnlyCollection<string> when, IReadOnlyCollection<string> then)
    {
        EventCell[] all = [.. model.Cells.Where(c => c.Event == source.Id)];
        return new ToldEvent(source.Id, source.Title, all, [.. all.Where(c => c.Agrees(when, then))]);
    }
}
