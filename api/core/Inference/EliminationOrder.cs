using System.Numerics;

namespace FuelHistory.Core.Inference;

/// <summary>One step of an elimination: the variable that goes, and the neighbours that remain joined by it.</summary>
internal readonly record struct EliminationStep(int Variable, int[] Neighbours);

/// <summary>Greedy order of elimination by least fill-in, ties by least clique, then by number, so that the same network always gives the
/// same order. Neither way of counting is always better: a missing edge as 1, or as the product of its ends' ln(states). What each variable
/// would cost is kept up edge by edge, in whole numbers, so that nothing is lost to rounding.</summary>
internal sealed class EliminationOrder
{
    /// <summary>Entries up to which looking for a cheaper order costs more than it saves.</summary>
    private const double Small = 50_000;

    /// <summary>Whole numbers per ln(states) of 1.</summary>
    private const double Scale = 1 << 16;

    private readonly long[] _logStates;

    /// <summary>Weight of an edge's end, above 0, so that a fill of 0 means that nothing is missing.</summary>
    private readonly long[] _weight;

    /// <summary>Per variable: weight of the edges that are missing among its neighbours; sum of logarithms of its clique's states.</summary>
    private readonly long[] _fill;
    private readonly long[] _size;
    private readonly int _words;
    private readonly ulong[] _adjacent;
    private readonly bool[] _gone;

    private EliminationOrder(IReadOnlyList<int> states, IEnumerable<int[]> scopes, bool weighted)
    {
        int n = states.Count;
        _words = (n + 63) / 64;
        _logStates = [.. states.Select(s => (long)Math.Round(Scale * Math.Log(s)))];
        _weight = [.. _logStates.Select(log => weighted ? Math.Max(1, log) : 1)];
        _gone = new bool[n];
        _adjacent = new ulong[n * _words];
        foreach (int[] scope in scopes)
        {
            Join(scope);
        }

        (_fill, _size) = (new long[n], new long[n]);
        for (int v = 0; v < n; v++)
        {
            Count(v);
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

        double Entries(EliminationStep[] steps)
        {
            double sum = 0;
            foreach (EliminationStep step in steps)
            {
                double size = states[step.Variable];
                foreach (int v in step.Neighbours)
                {
                    size *= states[v];
                }

                sum += size;
            }

            return sum;
        }
    }

    private EliminationStep[] Run()
    {
        var steps = new EliminationStep[_gone.Length];
        for (int i = 0; i < steps.Length; i++)
        {
            int best = Cheapest();
            int[] neighbours = Members(best);
            steps[i] = new EliminationStep(best, neighbours);
            for (int a = 0; a < neighbours.Length && _fill[best] > 0; a++)
            {
                for (int b = a + 1; b < neighbours.Length; b++)
                {
                    if (!Joined(neighbours[a], neighbours[b]))
                    {
                        AddEdge(neighbours[a], neighbours[b]);
                    }
                }
            }

            Remove(best, neighbours);
        }

        return steps;
    }

    private int Cheapest()
    {
        int best = -1;
        for (int v = 0; v < _gone.Length; v++)
        {
            if (!_gone[v] && (best < 0 || _fill[v] < _fill[best] || (_fill[v] == _fill[best] && _size[v] < _size[best])))
            {
                best = v;
            }
        }

        return best;
    }

    /// <summary>What the variable costs at the beginning.</summary>
    private void Count(int v)
    {
        (_fill[v], _size[v]) = (0, _logStates[v]);
        foreach (int u in Members(v))
        {
            _size[v] += _logStates[u];
            _fill[v] += _weight[u] * Apart(v, u);                // each missing edge is met from both its ends
        }

        _fill[v] /= 2;
    }

    /// <summary>Sum of weights over a variable's neighbours that another one is not joined to.</summary>
    private long Apart(int of, int from)
    {
        ReadOnlySpan<ulong> mine = Row(of), theirs = Row(from);
        long sum = 0;
        for (int w = 0; w < mine.Length; w++)
        {
            ulong bits = mine[w] & ~theirs[w];
            if (w == from >> 6)
            {
                bits &= ~(1UL << (from & 63));
            }

            for (; bits != 0; bits &= bits - 1)
            {
                sum += _weight[(w * 64) + BitOperations.TrailingZeroCount(bits)];
            }
        }

        return sum;
    }

    private void AddEdge(int a, int b)
    {
        Span<ulong> one = Row(a), other = Row(b);
        long edge = _weight[a] * _weight[b];
        for (int w = 0; w < one.Length; w++)
        {
            for (ulong both = one[w] & other[w]; both != 0; both &= both - 1)
            {
                _fill[(w * 64) + BitOperations.TrailingZeroCount(both)] -= edge;
            }
        }

        _fill[a] += _weight[b] * Apart(a, b);
        _fill[b] += _weight[a] * Apart(b, a);
        _size[a] += _logStates[b];
        _size[b] += _logStates[a];
        one[b >> 6] |= 1UL << (b & 63);
        other[a >> 6] |= 1UL << (a & 63);
    }

    private void Remove(int v, int[] neighbours)
    {
        _gone[v] = true;
        foreach (int u in neighbours)
        {
            _fill[u] -= _weight[v] * Apart(u, v);
            _size[u] -= _logStates[v];
            Row(u)[v >> 6] &= ~(1UL << (v & 63));
        }
    }

    private bool Joined(int a, int b) => (_adjacent[(a * _words) + (b >> 6)] >> (b & 63) & 1) == 1;

    private Span<ulong> Row(int v) => _adjacent.AsSpan(v * _words, _words);

    private int[] Members(int v)
    {
        ReadOnlySpan<ulong> row = Row(v);
        int count = 0, at = 0;
        foreach (ulong word in row)
        {
            count += BitOperations.PopCount(word);
        }

        var members = new int[count];
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
}
