using System.Numerics;

namespace FuelHistory.Core.Inference;

/// <summary>One step of an elimination: the variable that goes, and the neighbours that remain joined by it.</summary>
internal readonly record struct EliminationStep(int Variable, int[] Neighbours);

/// <summary>Greedy order of elimination by least fill-in, ties by least clique, then by number, so that the same network always gives the
/// same order. Neither way of counting is always better: a missing edge as 1, or as the product of its ends' ln(states).</summary>
internal sealed class EliminationOrder
{
    /// <summary>Entries up to which looking for a cheaper order costs more than it saves.</summary>
    private const double Small = 50_000;

    private readonly double[] _logStates;
    private readonly double[] _fillWeight;
    private readonly int _words;
    private readonly ulong[] _adjacent;
    private readonly ulong[] _touched;
    private readonly ulong[] _near;
    private readonly bool[] _gone;

    private EliminationOrder(IReadOnlyList<int> states, IEnumerable<int[]> scopes, bool weighted)
    {
        int n = states.Count;
        _words = (n + 63) / 64;
        _logStates = [.. states.Select(s => Math.Log(s))];
        _fillWeight = weighted ? _logStates : [.. Enumerable.Repeat(1.0, n)];
        _gone = new bool[n];
        _adjacent = new ulong[n * _words];
        _touched = new ulong[_words];
        _near = new ulong[_words];
        foreach (int[] scope in scopes)
        {
            Join(scope);
        }
    }

    /// <summary>The steps of the cheaper of the two ways.</summary>
    public static EliminationStep[] Find(IReadOnlyList<int> states, IReadOnlyList<int[]> scopes)
    {
        EliminationStep[] weighted = new EliminationOrder(states, scopes, true).Run();
        if (Entries(weighted) <= Small)
        {
            return weighted;
        }

        EliminationStep[] plain = new EliminationOrder(states, scopes, false).Run();
        return Entries(weighted) <= Entries(plain) ? weighted : plain;

        double Entries(EliminationStep[] steps) => steps.Sum(s => s.Neighbours.Aggregate((double)states[s.Variable], (size, v) => size * states[v]));
    }

    private EliminationStep[] Run()
    {
        int n = _gone.Length;
        var steps = new EliminationStep[n];
        var costs = new (double Fill, double Size)[n];
        for (int v = 0; v < n; v++)
        {
            costs[v] = Cost(v);
        }

        for (int i = 0; i < n; i++)
        {
            int best = Cheapest(costs);
            int[] neighbours = Members(Row(best));
            steps[i] = new EliminationStep(best, neighbours);
            bool filled = costs[best].Fill > 0;
            Remove(best, neighbours);

            // without fill-in only the neighbours' own cliques changed; with it also what is joined to both ends of a new edge
            _touched.AsSpan().Clear();
            _near.AsSpan().Clear();
            foreach (int u in neighbours)
            {
                _near[u >> 6] |= 1UL << (u & 63);
                if (filled)
                {
                    Row(u).CopyInto(_touched);
                }
            }

            _near.AsSpan().CopyInto(_touched);
            foreach (int v in Members(_touched))
            {
                if (IsNear(v) || JoinedToTwo(v))
                {
                    costs[v] = Cost(v);
                }
            }
        }

        return steps;
    }

    private bool IsNear(int v) => (_near[v >> 6] >> (v & 63) & 1) == 1;

    private bool JoinedToTwo(int v)
    {
        int joined = 0;
        Span<ulong> row = Row(v);
        for (int w = 0; w < _words; w++)
        {
            joined += BitOperations.PopCount(row[w] & _near[w]);
        }

        return joined > 1;
    }

    private int Cheapest((double Fill, double Size)[] costs)
    {
        int best = -1;
        for (int v = 0; v < costs.Length; v++)
        {
            if (!_gone[v] && (best < 0 || costs[v].Fill < costs[best].Fill || (costs[v].Fill == costs[best].Fill && costs[v].Size < costs[best].Size)))
            {
                best = v;
            }
        }

        return best;
    }

    private (double, double) Cost(int v)
    {
        double size = _logStates[v], fill = 0;
        Span<ulong> mine = Row(v);
        for (int w = 0; w < _words; w++)
        {
            for (ulong bits = mine[w]; bits != 0; bits &= bits - 1)
            {
                int u = (w * 64) + BitOperations.TrailingZeroCount(bits);
                size += _logStates[u];
                fill += _fillWeight[u] * Missing(mine, Row(u), u);
            }
        }

        return (Math.Round(fill, 9), Math.Round(size, 9));       // equal sums compare equal
    }

    /// <summary>Sum of weights over v's later neighbours that u is not joined to.</summary>
    private double Missing(Span<ulong> mine, Span<ulong> theirs, int u)
    {
        double sum = 0;
        for (int w = u >> 6; w < _words; w++)
        {
            ulong bits = mine[w] & ~theirs[w];
            if (w == u >> 6)
            {
                bits &= ulong.MaxValue << (u & 63) << 1;
            }

            for (; bits != 0; bits &= bits - 1)
            {
                sum += _fillWeight[(w * 64) + BitOperations.TrailingZeroCount(bits)];
            }
        }

        return sum;
    }

    private Span<ulong> Row(int v) => _adjacent.AsSpan(v * _words, _words);

    private static int[] Members(ReadOnlySpan<ulong> row)
    {
        int count = 0;
        foreach (ulong word in row)
        {
            count += BitOperations.PopCount(word);
        }

        var members = new int[count];
        int at = 0;
        for (int w = 0; w < row.Length; w++)
        {
            for (ulong bits = row[w]; bits != 0; bits &= bits - 1)
            {
                members[at++] = (w * 64) + BitOperations.TrailingZeroCount(bits);
            }
        }

        return members;
    }

    private void Join(int[] clique)
    {
        foreach (int u in clique)
        {
            Span<ulong> row = Row(u);
            foreach (int v in clique)
            {
                row[v >> 6] |= 1UL << (v & 63);
            }

            row[u >> 6] &= ~(1UL << (u & 63));
        }
    }

    private void Remove(int v, int[] neighbours)
    {
        _gone[v] = true;
        Join(neighbours);
        foreach (int u in neighbours)
        {
            Row(u)[v >> 6] &= ~(1UL << (v & 63));
        }
    }
}

file static class Bits
{
    public static void CopyInto(this Span<ulong> from, ulong[] into)
    {
        for (int w = 0; w < from.Length; w++)
        {
            into[w] |= from[w];
        }
    }
}
