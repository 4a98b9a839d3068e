namespace FuelHistory.Core.Inference;

/// <summary>A network's structure compiled for exact inference: cliques, separators and index maps. It depends on the states and
/// scopes only, so it serves every set of numbers of that shape. Lauritzen &amp; Spiegelhalter, J. R. Statist. Soc. B 50 (1988) 157.</summary>
public sealed class JunctionTree
{
    private JunctionTree(CliqueLayout[] layouts, IReadOnlyList<int> states, int[]? together)
    {
        States = [.. states];
        (Home, HomeStride) = Homes(layouts, states.Count);
        Factors = [.. layouts.SelectMany(l => l.Factors)];
        Cliques = new Clique[layouts.Length];
        int offset = 0, messages = 0, factors = 0;
        for (int c = 0; c < layouts.Length; c++)
        {
            CliqueLayout layout = layouts[c];
            EntryMap? map = layout.Parent < 0 ? null : layouts[layout.Parent].MapTo(layout.Separator, states);
            Cliques[c] = new Clique(layout.Size, layout.SeparatorSize, layout.Parent, offset, messages, map, (factors, factors + layout.Factors.Count));
            offset += layout.Size;
            messages += layout.SeparatorSize;
            factors += layout.Factors.Count;
        }

        (Entries, Separators, MostSeparator) = (offset, messages, Cliques.Max(c => c.SeparatorSize));
        if (together is not null)
        {
            int holder = Enumerable.Range(0, layouts.Length).Where(c => layouts[c].Covers(together)).MinBy(c => layouts[c].Size);
            Together = (holder, layouts[holder].MapTo(together, states), together.Aggregate(1, (size, v) => size * states[v]));
        }
    }

    /// <summary>Table entries of all cliques together: what one propagation costs.</summary>
    public long Entries { get; }

    /// <summary>About what the tree itself takes in memory, bytes, without the maps, which trees share.</summary>
    internal long Bytes => (48L * Cliques.Length) + (16L * Factors.Length) + (12L * States.Length) + 200;

    /// <summary>Entries of all messages together, and of the longest.</summary>
    internal long Separators { get; }

    internal int MostSeparator { get; }

    /// <summary>Children come before their parents.</summary>
    internal Clique[] Cliques { get; }

    /// <summary>Clique by clique: a factor, with the map from clique entry to factor entry.</summary>
    internal (int Factor, EntryMap Map)[] Factors { get; }

    /// <summary>Per variable: the smallest clique that holds it, and its stride there.</summary>
    internal int[] Home { get; }

    internal int[] HomeStride { get; }

    internal int[] States { get; }

    /// <summary>Of the variables wanted in one clique: that clique, the map to their own table, and its entries.</summary>
    internal (int Clique, EntryMap Map, int Entries)? Together { get; }

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
        CliqueLayout[] layouts = Array.ConvertAll(sketches, s => new CliqueLayout(s, states));

        // 6. give each factor to the smallest clique that covers it
        List<CliqueLayout>[] holders = Holders(layouts, states.Count);
        for (int f = 0; f < scopes.Count; f++)
        {
            CliqueLayout host = Smallest(holders, scopes[f], layouts);
            host.Factors.Add((f, host.MapTo(scopes[f], states)));
        }

        return new JunctionTree(layouts, states, together);
    }

    /// <summary>Both passes: probability of everything entered, and every marginal.</summary>
    public Propagation Propagate(IReadOnlyList<Factor> factors) => new(this, factors, both: true);

    /// <summary>The upward pass alone: natural logarithm of the total weight; minus infinity where it is zero.</summary>
    public double LogWeight(IReadOnlyList<Factor> factors)
    {
        using var upward = new Propagation(this, factors, both: false);
        return upward.LogWeight;
    }

    /// <summary>Per variable: the cliques that hold it.</summary>
    private static List<CliqueLayout>[] Holders(CliqueLayout[] layouts, int variables)
    {
        var holders = new List<CliqueLayout>[variables];
        foreach (CliqueLayout layout in layouts)
        {
            foreach (int v in layout.Variables)
            {
                (holders[v] ??= []).Add(layout);
            }
        }

        return holders;
    }

    /// <summary>The first of the smallest cliques that cover a scope.</summary>
    private static CliqueLayout Smallest(List<CliqueLayout>[] holders, int[] scope, CliqueLayout[] all)
    {
        CliqueLayout? best = null;
        foreach (CliqueLayout layout in scope.Length == 0 ? all : (IEnumerable<CliqueLayout>)holders[scope.MinBy(v => holders[v].Count)])
        {
            if ((best is null || layout.Size < best.Size) && layout.Covers(scope))
            {
                best = layout;
            }
        }

        return best!;
    }

    private static (int[] Home, int[] Strides) Homes(CliqueLayout[] layouts, int variables)
    {
        int[] home = new int[variables], strides = new int[variables];
        Array.Fill(home, -1);
        for (int c = 0; c < layouts.Length; c++)
        {
            for (int i = 0; i < layouts[c].Variables.Length; i++)
            {
                int v = layouts[c].Variables[i];
                if (home[v] < 0 || layouts[c].Size < layouts[home[v]].Size)
                {
                    (home[v], strides[v]) = (c, layouts[c].Strides[i]);
                }
            }
        }

        return (home, strides);
    }
}
