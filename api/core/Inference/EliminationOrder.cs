using System.Numerics;

namespace FuelHistory.Core.Inference;

/// <summary>One step of an elimination: the variable that goes, and the neighbours that remain joined by it.</summary>
internal readonly record struct EliminationStep(int Variable, int[] Neighbours);

/// <summary>Greedy order of elimination: least weight of the new clique, ties by fewest fill-in edges, then by number, so that
/// the same network always gives the same order.</summary>
internal sealed class EliminationOrder
{
    private readonly double[] _logStates;
    private readonly ulong[][] _adjacent;
    private readonly bool[] _gone;
    private readonly bool _fillFirst;

    private EliminationOrder(IReadOnlyList<int> states, IEnumerable<int[]> scopes, bool fillFirst)
    {
        int n = states.Count, words = (n + 63) / 64;
        _fillFirst = fillFirst;
        _logStates = [.. states.Select(s => Math.Log(s))];
        _gone = new bool[n];
        _adjacent = new ulong[n][];
        for (int v = 0; v < n; v++)
        {
            _adjacent[v] = new ulong[words];
        }

        foreach (int[] scope in scopes)
        {
            Join(scope);
        }
    }

    /// <summary>The steps of the cheaper of two greedy rules (least weight first, fewest fill-ins first).</summary>
    public static EliminationStep[] Find(IReadOnlyList<int> states, IReadOnlyList<int[]> scopes)
    {
        EliminationStep[] light = new EliminationOrder(states, scopes, false).Run(), sparse = new EliminationOrder(states, scopes, true).Run();
        return Entries(light, states) <= Entries(sparse, states) ? light : sparse;
    }

    private static double Entries(EliminationStep[] steps, IReadOnlyList<int> states) =>
        steps.Sum(s => s.Neighbours.Aggregate((double)states[s.Variable], (size, v) => size * states[v]));

    private EliminationStep[] Run()
    {
        int n = _gone.Length;
        var steps = new EliminationStep[n];
        var costs = new (double First, double Second)[n];
        for (int v = 0; v < n; v++)
        {
            costs[v] = Cost(v);
        }

        for (int i = 0; i < n; i++)
        {
            int best = Cheapest(costs);
            int[] neighbours = Neighbours(best);
            steps[i] = new EliminationStep(best, neighbours);
            Remove(best, neighbours);
            foreach (int v in Touched(neighbours))
            {
                costs[v] = Cost(v);
            }
        }

        return steps;
    }

    private int Cheapest((double First, double Second)[] costs)
    {
        int best = -1;
        for (int v = 0; v < costs.Length; v++)
        {
            if (!_gone[v] && (best < 0 || costs[v].CompareTo(costs[best]) < 0))
            {
                best = v;
            }
        }

        return best;
    }

    private (double, double) Cost(int v)
    {
        double weight = _logStates[v];
        int missing = 0;
        foreach (int u in Neighbours(v))
        {
            weight += _logStates[u];
            ulong[] a = _adjacent[v], b = _adjacent[u];
            for (int w = 0; w < a.Length; w++)
            {
                missing += BitOperations.PopCount(a[w] & ~b[w]);
            }

            missing--;                                   // u is not its own neighbour
        }

        double rounded = Math.Round(weight, 9);          // equal products compare equal
        return _fillFirst ? (missing, rounded) : (rounded, missing);
    }

    private int[] Neighbours(int v)
    {
        ulong[] row = _adjacent[v];
        int count = 0;
        foreach (ulong word in row)
        {
            count += BitOperations.PopCount(word);
        }

        var result = new int[count];
        int at = 0;
        for (int w = 0; w < row.Length; w++)
        {
            for (ulong bits = row[w]; bits != 0; bits &= bits - 1)
            {
                result[at++] = (w * 64) + BitOperations.TrailingZeroCount(bits);
            }
        }

        return result;
    }

    private void Join(int[] clique)
    {
        foreach (int u in clique)
        {
            foreach (int v in clique)
            {
                if (u != v)
                {
                    _adjacent[u][v >> 6] |= 1UL << (v & 63);
                }
            }
        }
    }

    private void Remove(int v, int[] neighbours)
    {
        _gone[v] = true;
        Join(neighbours);
        foreach (int u in neighbours)
        {
            _adjacent[u][v >> 6] &= ~(1UL << (v & 63));
        }
    }

    private HashSet<int> Touched(int[] neighbours)
    {
        var touched = new HashSet<int>(neighbours);
        foreach (int u in neighbours)
        {
            touched.UnionWith(Neighbours(u));
        }

        return touched;
    }
}
