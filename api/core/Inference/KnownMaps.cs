using System.Runtime.InteropServices;

namespace FuelHistory.Core.Inference;

/// <summary>Entry maps by what they follow from. The networks of one model are hundreds that differ by one repair or one finding, so the same
/// maps come up again and again; they would take most of a compiled tree's room, and are never changed.</summary>
internal static class KnownMaps
{
    /// <summary>Entries kept together, of 4 bytes; beyond them it starts anew, and trees keep what they have.</summary>
    private const int Kept = 2_500_000;

    /// <summary>Words of 4 bytes that a map takes beside its lists.</summary>
    private const int Around = 40;

    private static readonly Dictionary<MapKey, EntryMap> Known = [];
    private static int _entries;

    public static EntryMap? Find(MapKey key)
    {
        lock (Known)
        {
            return Known.GetValueOrDefault(key);
        }
    }

    public static EntryMap Keep(MapKey key, EntryMap map)
    {
        lock (Known)
        {
            _entries += map.Length + Around;
            if (_entries > Kept)
            {
                Known.Clear();
                _entries = map.Length + Around;
            }

            Known[key] = map;
        }

        return map;
    }
}

/// <summary>States and steps of a map, neighbours that run on in one go taken together.</summary>
internal readonly struct MapKey : IEquatable<MapKey>
{
    private readonly int[] _words;
    private readonly int _hash;

    private MapKey(ReadOnlySpan<int> words)
    {
        _words = words.ToArray();
        var hash = new HashCode();
        hash.AddBytes(MemoryMarshal.AsBytes(words));
        _hash = hash.ToHashCode();
    }

    public static MapKey Of(ReadOnlySpan<int> sizes, ReadOnlySpan<int> steps, Span<int> words)
    {
        int at = -2;
        for (int i = 0; i < sizes.Length; i++)
        {
            if (at >= 0 && words[at + 1] == steps[i] * sizes[i])
            {
                (words[at], words[at + 1]) = (words[at] * sizes[i], steps[i]);
            }
            else
            {
                at += 2;
                (words[at], words[at + 1]) = (sizes[i], steps[i]);
            }
        }

        return new MapKey(words[..(at + 2)]);
    }

    public bool Equals(MapKey other) => _words.AsSpan().SequenceEqual(other._words);

    public override bool Equals(object? obj) => obj is MapKey other && Equals(other);

    public override int GetHashCode() => _hash;
}
