namespace FuelHistory.Core.Inference;

/// <summary>A network's structure compiled for exact inference: cliques, separators and index maps. It depends on the states and
/// scopes only, so it serves every set of numbers of that shape. Lauritzen &amp; Spiegelhalter, J. R. Statist. Soc. B 50 (1988) 157.</summary>
public sealed class JunctionTree
{
    private JunctionTree(Clique[] cliques, int[] home, int[] homeStride, IReadOnlyList<int> states)
    {
        Cliques = cliques;
        Home = home;
        HomeStride = homeStride;
        States = [.. states];
        Entries = cliques.Sum(c => (long)c.Size);
    }

    /// <summary>Table entries of all cliques together: what one propagation costs.</summary>
    public long Entries { get; }

    /// <summary>Children come before their parents.</summary>
    internal Clique[] Cliques { get; }

    /// <summary>Per variable: the smallest clique that holds it, and its stride there.</summary>
    internal int[] Home { get; }

    internal int[] HomeStride { get; }

    internal int[] States { get; }

    /// <summary>Compiles, or returns null where the tree would need more than <paramref name="most"/> entries.</summary>
    /// <param name="together">Variables that shall be in one clique, so that their joint distribution can be read.</param>
    public static JunctionTree? Compile(IReadOnlyList<int> states, IReadOnlyList<int[]> scopes, long most = long.MaxValue, int[]? together = null)
    {
        // 1. eliminate, 2. join each step's variables into cliques, 3. drop cliques inside others
        CliqueSketch[] sketches = CliqueSketch.From(EliminationOrder.Find(states, together is null ? scopes : [.. scopes, together]));
        if (sketches.Sum(s => s.Size(states)) > most)
        {
            return null;
        }

        // 4. lay out each clique with its separator first, so that a message is a sum over runs of neighbouring entries
        Clique[] cliques = [.. sketches.Select(s => new Clique(s, states))];
        for (int i = 0; i < cliques.Length; i++)
        {
            if (cliques[i].Parent is int parent)
            {
                cliques[i].ParentMap = cliques[parent].MapTo(cliques[i].Separator, states);
            }
        }

        // 5. give each factor to the smallest clique that covers it
        for (int f = 0; f < scopes.Count; f++)
        {
            Clique host = cliques.Where(c => c.Covers(scopes[f])).MinBy(c => c.Size)!;
            host.Factors.Add((f, host.MapTo(scopes[f], states)));
        }

        return new JunctionTree(cliques, Homes(cliques, states, out int[] strides), strides, states);
    }

    /// <summary>Both passes: probability of everything entered, and every marginal.</summary>
    public Propagation Propagate(IReadOnlyList<Factor> factors) => new(this, factors, both: true);

    /// <summary>The upward pass alone: natural logarithm of the total weight; minus infinity where it is zero.</summary>
    public double LogWeight(IReadOnlyList<Factor> factors)
    {
        using var upward = new Propagation(this, factors, both: false);
        return upward.LogWeight;
    }

    private static int[] Homes(Clique[] cliques, IReadOnlyList<int> states, out int[] strides)
    {
        int[] home = new int[states.Count];
        strides = new int[states.Count];
        Array.Fill(home, -1);
        int offset = 0;
        for (int c = 0; c < cliques.Length; c++)
        {
            cliques[c].Offset = offset;
            offset += cliques[c].Size;
            for (int i = 0; i < cliques[c].Variables.Length; i++)
            {
                int v = cliques[c].Variables[i];
                if (home[v] < 0 || cliques[c].Size < cliques[home[v]].Size)
                {
                    home[v] = c;
                    strides[v] = cliques[c].Strides[i];
                }
            }
        }

        return home;
    }
}
