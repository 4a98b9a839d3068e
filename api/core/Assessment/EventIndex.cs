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

    /// <summary>Cells that agree with what was told; a side left open agrees with all.</summary>
    public ulong With(IReadOnlyCollection<string> when, IReadOnlyCollection<string> then)
    {
        ulong cells = 0;
        for (int c = 0; c < Cells.Length; c++)
        {
            cells |= Cells[c].Agrees(when, then) ? 1UL << c : 0;
        }

        return cells;
    }

    public static IEnumerable<EventIndex> Of(ModelIndex index)
    {
        var sources = index.Model.Events.ToDictionary(e => e.Id);
        return index.Model.Cells.GroupBy(c => c.Event ?? c.Id)
            .Select((g, i) => new EventIndex(index, i, g.Key, sources.GetValueOrDefault(g.Key), [.. g]));
    }

    public static (EventIndex, ulong)? Told(ModelIndex index, string id, IReadOnlyCollection<string> when, IReadOnlyCollection<string> then)
    {
        if (index.Event(id) is EventIndex named)
        {
            ulong cells = named.With(when, then);
            return cells == 0 ? null : (named, cells);
        }

        foreach (EventIndex source in index.Events)
        {
            if (source.Source?.Formerly.GetValueOrDefault(id) is Facets meant)
            {
                return (source, source.With(meant.When, meant.Then));
            }

            int cell = Array.FindIndex(source.Cells, c => c.Id == id);
            if (cell >= 0)
            {
                return (source, 1UL << cell);
            }
        }

        return null;
    }

    private static GateGroup ElsewhereGate(ModelIndex index, EventCell cell)
    {
        Elsewhere elsewhere = index.Model.Elsewhere;
        return new GateGroup(index.Part(ModelIndex.Elsewhere), -1, [elsewhere.Cells.GetValueOrDefault(cell.Id, elsewhere.P)]);
    }
}
