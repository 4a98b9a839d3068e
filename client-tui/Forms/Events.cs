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

    /// <summary>Facets that any event has, once each.</summary>
    public static IReadOnlyList<NamedThing> When(FaultModelView? model) => [.. (model?.Events ?? []).SelectMany(told => told.When).DistinctBy(facet => facet.Id)];

    public static IReadOnlyList<NamedThing> Then(FaultModelView? model) => [.. (model?.Events ?? []).SelectMany(told => told.Then).DistinctBy(facet => facet.Id)];
}
