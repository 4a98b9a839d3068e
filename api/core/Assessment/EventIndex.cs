using System.Collections.Concurrent;
using System.Numerics;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>All arrows from one part or one condition into the cells of an event; an arrow has one threshold for all cells.</summary>
/// <param name="P">Per cell, then state (mode, or level from the lowest).</param>
internal sealed class EventGroup(int part, int condition, double[][] p)
{
    private readonly ConcurrentDictionary<ulong, GateGroup?> _known = new(1, 3);

    public int Part => part;

    public int Condition => condition;

    /// <summary>"One of these cells": by shared thresholds the largest p; null where no arrow leads there.</summary>
    public GateGroup? For(ulong cells) => _known.GetOrAdd(cells, _ =>
    {
        double[] most = [.. Enumerable.Range(0, p[0].Length).Select(s => Enumerable.Range(0, p.Length).Where(c => (cells >> c & 1) == 1).Max(c => p[c][s]))];
        return Array.TrueForAll(most, x => x == 0) ? null : new GateGroup(part, condition, most);
    });
}

/// <summary>An event with its cells as bits: the first cell is bit 0.</summary>
internal sealed class EventIndex
{
    private EventIndex(ModelIndex index, int number, string id, Event? source, EventCell[] cells)
    {
        (Index, Id, Source, Cells) = (number, id, source, cells);
        All = cells.Length == Event.MaxCells ? ulong.MaxValue : (1UL << cells.Length) - 1;
        var groups = new Dictionary<(int Part, int Condition), double[][]>();
        for (int c = 0; c < cells.Length; c++)
        {
            foreach (GateGroup group in index.Gate(cells[c].Causes).Append(ElsewhereGate(index, cells[c])))
            {
                if (!groups.TryGetValue((group.Part, group.Condition), out double[][]? p))
                {
                    groups[(group.Part, group.Condition)] = p = [.. cells.Select(_ => new double[group.P.Length])];
                }

                p[c] = group.P;
            }
        }

        Groups = [.. groups.Select(g => new EventGroup(g.Key.Part, g.Key.Condition, g.Value))];
    }

    public int Index { get; }

    public string Id { get; }

    /// <summary>Null where a single cell is an event of its own.</summary>
    public Event? Source { get; }

    public EventCell[] Cells { get; }

    public EventGroup[] Groups { get; }

    /// <summary>All cells: "always", or no facet told.</summary>
    public ulong All { get; }

    public string Title => Source?.Title ?? Cells[0].Title;

    public double Background(ulong cells) => Each(cells).Max(c => Cells[c].Background);

    /// <summary>The event's title, with that of the cell where only one is meant.</summary>
    public string TitleOf(ulong cells) => Cells.Length > 1 && BitOperations.PopCount(cells) == 1 ? Cells[BitOperations.TrailingZeroCount(cells)].Title : Title;

    /// <summary>An arrow that raises a part's whole path to these cells to at least <paramref name="least"/>, mode by mode (MODEL.md 4).</summary>
    public EventGroup Hidden(ModelIndex index, int part, ulong cells, double least)
    {
        double[] p = [.. Enumerable.Range(0, index.Parts[part].Source.Modes.Count).Select(mode =>
        {
            double path = index.Path(part, mode, this, cells);
            return path >= least ? 0 : 1 - ((1 - least) / (1 - path));
        })];
        return new EventGroup(part, -1, [.. Cells.Select(_ => p)]);
    }

    /// <summary>Numbers of the cells in a bit set.</summary>
    public static IEnumerable<int> Each(ulong cells)
    {
        for (; cells != 0; cells &= cells - 1)
        {
            yield return BitOperations.TrailingZeroCount(cells);
        }
    }

    public static IEnumerable<EventIndex> Of(ModelIndex index)
    {
        var sources = index.Model.Events.ToDictionary(e => e.Id);
        return index.Model.Cells.GroupBy(c => c.Event ?? c.Id)
            .Select((g, i) => new EventIndex(index, i, g.Key, sources.GetValueOrDefault(g.Key), [.. g]));
    }

    /// <summary>What <see cref="ToldEvent"/> makes of it, as bits; null where the model has no such event, or no such cell of it.</summary>
    public static (EventIndex, ulong)? Told(ModelIndex index, string id, IReadOnlyCollection<string> when, IReadOnlyCollection<string> then) =>
        ToldEvent.Of(index.Model, id, when, then) is { Meant.Count: > 0 } told && index.Event(told.Event) is EventIndex found ? (found, found.Bits(told.Meant)) : null;

    private ulong Bits(IReadOnlyList<EventCell> meant)
    {
        ulong cells = 0;
        foreach (EventCell cell in meant)
        {
            cells |= 1UL << Array.IndexOf(Cells, cell);
        }

        return cells;
    }

    private static GateGroup ElsewhereGate(ModelIndex index, EventCell cell)
    {
        Elsewhere elsewhere = index.Model.Elsewhere;
        return new GateGroup(index.Part(ModelIndex.Elsewhere), -1, [elsewhere.Cells.GetValueOrDefault(cell.Id, elsewhere.P)]);
    }
}
