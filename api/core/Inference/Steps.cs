using System.Runtime.InteropServices;

namespace FuelHistory.Core.Inference;

/// <summary>Lists of steps, by the states and steps they follow from. The networks of one model are hundreds that differ by one repair or one
/// finding, so the same lists come up again and again; they take most of a compiled tree's room, and are never changed.</summary>
internal static class Steps
{
    /// <summary>Entries kept together, of 4 bytes; beyond them it starts anew.</summary>
    private const int Kept = 3_000_000;

    private static readonly Dictionary<Words, int[]> Known = [];
    private static int _entries;

    public static int[] Of(ReadOnlySpan<int> sizes, ReadOnlySpan<int> steps)
    {
        Words key = Words.Of(sizes, steps);
        lock (Known)
        {
            if (Known.TryGetValue(key, out int[]? known))
            {
                return known;
            }
        }

        int[] grown = Grown(sizes, steps);
        lock (Known)
        {
            _entries += grown.Length + key.Length;
            if (_entries > Kept)
            {
                Known.Clear();
                _entries = grown.Length + key.Length;
            }

            Known[key] = grown;
        }

        return grown;
    }

    /// <summary>Grown variable by variable from the fastest: each block repeats the one before, shifted by the step.</summary>
    private static int[] Grown(ReadOnlySpan<int> sizes, ReadOnlySpan<int> steps)
    {
        int size = 1, filled = 1;
        foreach (int states in sizes)
        {
            size *= states;
        }

        var map = new int[size];
        for (int i = sizes.Length - 1; i >= 0; i--)
        {
            int block = filled;
            for (int s = 1; s < sizes[i]; s++)
            {
                for (int j = 0; j < block; j++)
                {
                    map[filled++] = map[j] + (s * steps[i]);
                }
            }
        }

        return map;
    }

    /// <summary>States and steps, neighbours that run on in one go taken together.</summary>
    private readonly struct Words : IEquatable<Words>
    {
        private readonly int[] _words;
        private readonly int _hash;

        private Words(ReadOnlySpan<int> words)
        {
            _words = words.ToArray();
            var hash = new HashCode();
            hash.AddBytes(MemoryMarshal.AsBytes(words));
            _hash = hash.ToHashCode();
        }

        public int Length => _words.Length;

        public static Words Of(ReadOnlySpan<int> sizes, ReadOnlySpan<int> steps)
        {
            Span<int> words = stackalloc int[2 * sizes.Length];
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

            return new Words(words[..(at + 2)]);
        }

        public bool Equals(Words other) => _words.AsSpan().SequenceEqual(other._words);

        public override bool Equals(object? obj) => obj is Words other && Equals(other);

        public override int GetHashCode() => _hash;
    }
}
