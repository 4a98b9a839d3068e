using System.Collections.Concurrent;

namespace FuelHistory.Core.Assessment;

/// <summary>Tables that follow from the fault model alone, made once: hundreds of networks differ by one repair or one finding. Tables are
/// never changed once made, so networks share them.</summary>
internal sealed class TableCache
{
    private readonly ConcurrentDictionary<Key, double[]> _tables = [];

    /// <summary>What a table is made from: whose arrows (compared by identity), over which states, and how they are used.</summary>
    internal readonly record struct Key(object Arrows, int States, int First, int Last, int Pattern);

    /// <param name="copy">The part that the table is over, if any; one that is not standard gets a table of its own.</param>
    public double[] For(Key key, PartCopy? copy, Func<double[]> make) =>
        Known(key, copy) ?? Keep(key, copy, make());

    /// <summary>Null where it has not been made yet.</summary>
    public double[]? Known(Key key, PartCopy? copy) => copy is { Standard: false } ? null : _tables.GetValueOrDefault(key);

    public double[] Keep(Key key, PartCopy? copy, double[] table) => copy is { Standard: false } ? table : _tables[key] = table;
}
