namespace FuelHistory.Core.Assessment;

/// <summary>Tables that every network of one situation has alike: hundreds of networks differ by one repair or one finding. Tables are
/// never changed once made, so networks share them.</summary>
internal sealed class TableCache
{
    private readonly Dictionary<Key, double[]> _tables = [];

    /// <summary>What a table is made from: whose arrows, whose states, and how they are used. Objects are compared by identity.</summary>
    internal readonly record struct Key(object Arrows, object? States, int Kind, int First, int Last, int Pattern);

    public double[] For(Key key, Func<double[]> make)
    {
        if (!_tables.TryGetValue(key, out double[]? table))
        {
            _tables[key] = table = make();
        }

        return table;
    }
}
