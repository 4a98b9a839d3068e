using System.Buffers;
using System.Collections.Concurrent;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using FuelHistory.Core.Inference;

namespace FuelHistory.Core.Assessment;

/// <summary>What networks of one fault model have in common: compiled shapes and tables.</summary>
internal sealed record NetworkCaches(TreeCache Trees, TableCache Tables);

/// <summary>Compiled trees by shape (states and scopes). Leave-one-outs, what-ifs and the next request mostly have a shape seen before.</summary>
internal sealed class TreeCache
{
    /// <summary>Bytes of the trees kept since the last turn; twice as many are kept in all, by all models together.</summary>
    private const long Kept = 12_000_000;

    private static readonly Lock Turn = new();
    private static readonly List<WeakReference<TreeCache>> All = [];
    private static long _bytes;

    private readonly long _allowed;

    /// <summary>Null: larger than allowed. What was asked for since the last turn, and what was before it.</summary>
    private volatile ConcurrentDictionary<Shape, JunctionTree?> _young = [], _old = [];

    /// <param name="allowed">Largest tree that is computed, in table entries.</param>
    public TreeCache(long allowed)
    {
        _allowed = allowed;
        lock (Turn)
        {
            All.Add(new WeakReference<TreeCache>(this));
        }
    }

    /// <summary>The tree of a network's shape; null where it would be larger than allowed.</summary>
    /// <param name="together">Variables wanted in one clique.</param>
    public JunctionTree? For(Network network, int[]? together = null)
    {
        var shape = Shape.Of(network, together ?? []);
        if (_young.TryGetValue(shape, out JunctionTree? tree))
        {
            return tree;
        }

        if (!_old.TryGetValue(shape, out tree))
        {
            tree = JunctionTree.Compile(network.States, [.. network.Factors.Select(f => f.Scope)], _allowed, together);
        }

        lock (Turn)
        {
            _bytes += Shape.Bytes + (tree?.Bytes ?? 0);
            if (_bytes > Kept)
            {
                _bytes = 0;
                All.RemoveAll(cache => !cache.TryGetTarget(out _));
                All.ForEach(cache => (cache.TryGetTarget(out TreeCache? living) ? living : null)?.Age());
            }

            _young[shape] = tree;
        }

        return tree;
    }

    /// <summary>What was young is old, and what was old is forgotten.</summary>
    private void Age() => (_old, _young) = (_young, []);

    /// <summary>States and scopes by their SHA-256: two shapes with one such number are not to be expected.</summary>
    private readonly record struct Shape(ulong A, ulong B, ulong C, ulong D)
    {
        public const long Bytes = 100;

        public static Shape Of(Network network, int[] together)
        {
            int length = together.Length + 1 + network.States.Count, at = 0;
            foreach (Factor factor in network.Factors)
            {
                length += factor.Scope.Length + 1;
            }

            int[] words = ArrayPool<int>.Shared.Rent(length);
            Add(together);
            words[at++] = -2;
            foreach (int states in network.States)
            {
                words[at++] = states;
            }

            foreach (Factor factor in network.Factors)
            {
                words[at++] = -1;
                Add(factor.Scope);
            }

            Span<ulong> hash = stackalloc ulong[4];
            SHA256.HashData(MemoryMarshal.AsBytes(words.AsSpan(0, length)), MemoryMarshal.AsBytes(hash));
            ArrayPool<int>.Shared.Return(words);
            return new Shape(hash[0], hash[1], hash[2], hash[3]);

            void Add(int[] some)
            {
                some.CopyTo(words, at);
                at += some.Length;
            }
        }
    }
}
