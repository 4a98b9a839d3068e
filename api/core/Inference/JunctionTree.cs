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
        Separators = cliques.Sum(c => (long)c.SeparatorSize);
        MostSeparator = cliques.Max(c => c.SeparatorSize);
    }

    /// <summary>Table entries of all cliques together: what one propagation costs.</summary>
    public long Entries { get; }

    /// <summary>About what the tree itself takes in memory, bytes, without the maps, which trees share.</summary>
    internal long Bytes => Cliques.Sum(c => 350L + (12 * c.Variables.Length) + (24 * c.Factors.Count)) + (12L * States.Length);

    /// <summary>Entries of all messages together, and of the longest.</summary>
    internal long Separators { get; }

    internal int MostSeparator { get; }

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

        // 4. gather small messages on their way into large cliques
        sketches = CliqueSketch.Gathered(sketches, states);

        // 5. lay out each clique with its separator first, so that a message is a sum over runs of neighbouring entries
        Clique[] cliques = [.. sketches.Select(s => new Clique(s, states))];
        for (int i = 0; i < cliques.Length; i++)
        {
            if (cliques[i].Parent is int parent)
            {
                cliques[i].ParentMap = cliques[parent].MapTo(cliques[i].Separator, states);
            }
        }

        // 6. give each factor to the smallest clique that covers it
        List<Clique>[] holders = Holders(cliques, states.Count);
        for (int f = 0; f < scopes.Count; f++)
        {
            Clique host = Smallest(holders, scopes[f], cliques);
            host.Factors.Add((f, host.MapTo(scopes[f], states)));
        }

        return new JunctionTree(cliques, Homes(cliques, states, out int[] strides), strides, states);
    }

    /// <summary>Per variable: the cliques that hold it.</summary>
    private static List<Clique>[] Holders(Clique[] cliques, int variables)
    {
        var holders = new List<Clique>[variables];
        foreach (Clique clique in cliques)
        {
            foreach (int v in clique.Variables)
            {
                (holders[v] ??= []).Add(clique);
            }
        }

        return holders;
    }

    /// <summary>The first of the smallest cliques that cover a scope.</summary>
    private static Clique Smallest(List<Clique>[] holders, int[] scope, Clique[] all)
    {
        Clique? best = null;
        int rarest = scope.Length == 0 ? -1 : scope.MinBy(v => holders[v].Count);
        foreach (Clique clique in rarest < 0 ? all : (IEnumerable<Clique>)holders[rarest])
        {
            if ((best is null || clique.Size < best.Size) && clique.Covers(scope))
            {
                best = clique;
            }
        }

        return best!;
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
        int offset = 0, messages = 0;
        for (int c = 0; c < cliques.Length; c++)
        {
            cliques[c].Offset = offset;
            offset += cliques[c].Size;
            cliques[c].MessageOffset = messages;
            messages += cliques[c].SeparatorSize;
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
