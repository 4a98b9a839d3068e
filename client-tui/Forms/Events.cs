using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>What a driver may notice, as one list: each event, and where it has several cells each of them by its own id.</summary>
internal static class Events
{
    public static IReadOnlyList<NamedThing> Of(FaultModelView? model) =>
    [
        .. (model?.Events ?? []).SelectMany(told => told.Cells.Count == 1
            ? [new NamedThing(told.Id, told.Title)]
            : told.Cells.Where(cell => cell.Id != told.Id).Select(cell => new NamedThing(cell.Id, cell.Title)).Prepend(new NamedThing(told.Id, $"{told.Title}, whenever it is"))),
    ];

    /// <summary>The question behind each of them.</summary>
    public static IReadOnlyDictionary<string, string> Questions(FaultModelView? model) =>
        (model?.Events ?? []).SelectMany(told => told.Cells.Where(cell => cell.Id != told.Id).Select(cell => (cell.Id, cell.Ask)).Prepend((told.Id, told.Ask)))
            .DistinctBy(each => each.Item1).ToDictionary(each => each.Item1, each => each.Item2);

    public static IReadOnlyList<NamedThing> Titles(FaultModelView? model) => [.. (model?.Events ?? []).Select(told => new NamedThing(told.Id, told.Title))];

    /// <summary>The times that can be named of one event; of none picked yet those of any. An event picked by one of its cells leaves
    /// nothing to name.</summary>
    public static IReadOnlyList<NamedThing> When(FaultModelView? model, string? id) =>
        id is null ? When(model) : Told(model, id)?.When ?? [];

    /// <summary>What can follow one event at the times named.</summary>
    public static IReadOnlyList<NamedThing> Then(FaultModelView? model, string? id, IReadOnlyList<string> when)
    {
        if (id is null) return Then(model);
        if (Told(model, id) is not { } told) return [];
        var cells = told.Cells.Where(cell => when.Count == 0 || when.Contains(cell.When)).ToList();
        return [.. told.Then.Where(facet => cells.Any(cell => cell.Then == facet.Id))];
    }

    private static EventView? Told(FaultModelView? model, string id) => model?.Events.FirstOrDefault(told => told.Id == id);

    /// <summary>Facets that any event has, once each.</summary>
    public static IReadOnlyList<NamedThing> When(FaultModelView? model) => [.. (model?.Events ?? []).SelectMany(told => told.When).DistinctBy(facet => facet.Id)];

    public static IReadOnlyList<NamedThing> Then(FaultModelView? model) => [.. (model?.Events ?? []).SelectMany(told => told.Then).DistinctBy(facet => facet.Id)];
}
