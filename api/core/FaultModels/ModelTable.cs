namespace FuelHistory.Core.FaultModels;

/// <summary>Ways of being bad by events: what a mode, alone on a car that is otherwise sound, makes of each cell, by its own arrow and by conditions.</summary>
public static class ModelTable
{
    /// <summary>Less than this beside the background is no entry.</summary>
    public const double Least = 0.005;

    /// <summary>A mode whose every event is below this is not noticed.</summary>
    public const double Noticed = 0.1;

    /// <summary>All entries, by cell in the order of the file, then the likeliest first. Only a model that the linter does not refuse has a table.</summary>
    public static IReadOnlyList<TableEntry> Of(FaultModel model)
    {
        ArgumentNullException.ThrowIfNull(model);
        var map = new ModelMap(model);
        (string Id, ModeTrace Trace)[] traces = [.. map.Modes.Values.Where(m => !m.Component.Instrument).Select(m => (m.Id, ModeTrace.Of(map, m.Id)))];
        return [.. model.Cells.SelectMany(cell => traces.Select(t => Entry(cell, t.Id, t.Trace)).OfType<TableEntry>().OrderByDescending(e => e.Total))];
    }

    /// <summary>Modes without an event that is told of in one case of ten.</summary>
    internal static IEnumerable<string> Unheard(ModelMap map, ModelStudy study) => study.Modes.Select(m => (Id: $"{m.Component}.{m.Mode}", m.Cells))
        .Where(m => !map.Modes[m.Id].Component.Instrument && map.Model.Cells.All(c => m.Cells[c.Id] - c.Background < Noticed)).Select(m => m.Id);

    private static TableEntry? Entry(EventCell cell, string mode, ModeTrace trace)
    {
        double total = trace.Cells[cell.Id];
        Cause? own = cell.Causes.FirstOrDefault(c => c.Of == mode);
        return total - cell.Background < Least ? null : new TableEntry(
            cell.Id, mode, total, own?.P ?? 0, own?.Spread, [.. trace.Shares(cell.Id).Where(s => s.Of != mode && s.P >= Least)]);
    }
}

/// <param name="Total">P(the cell shows), with its background.</param>
/// <param name="Own">By the mode's own arrow.</param>
/// <param name="Spread">Of the writers' figures for that arrow; null: one source.</param>
/// <param name="Paths">By conditions that the mode moves: each alone.</param>
public sealed record TableEntry(string Cell, string Mode, double Total, double Own, double? Spread, IReadOnlyList<(string Of, double P)> Paths);
