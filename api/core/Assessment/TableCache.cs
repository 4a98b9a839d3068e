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
        copy is { Standard: false } ? make() : _tables.TryGetValue(key, out double[]? table) ? table : _tables[key] = make();
}
