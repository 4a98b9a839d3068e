namespace FuelHistory.Core.Inference;

/// <summary>A clique before it is laid out: its variables, its parent and what it shares with it.</summary>
internal sealed record CliqueSketch(int[] Variables, int[] Separator, int? Parent)
{
    public double Size(IReadOnlyList<int> states) => Variables.Aggregate(1.0, (size, v) => size * states[v]);

    /// <summary>Puts a smaller clique between a large one and several of its children whose separators fit into it together: their messages
    /// are then multiplied there first, and pass over the large table once.</summary>
    public static CliqueSketch[] Gathered(CliqueSketch[] cliques, IReadOnlyList<int> states)
    {
        var result = cliques.Select(c => (c.Variables, c.Separator, Parent: c.Parent ?? -1)).ToList();
        foreach (IGrouping<int, int> family in Enumerable.Range(0, cliques.Length).Where(c => cliques[c].Parent is not null).GroupBy(c => cliques[c].Parent!.Value).OrderBy(f => f.Key))
        {
            if (family.Skip(1).FirstOrDefault(-1) < 0)
            {
                continue;
            }

            int p = family.Key;
            double room = cliques[p].Size(states) / Smaller;
            var groups = new List<(int[] Variables, List<int> Children)>();
            foreach ((int child, double weight) in family.Select(c => (c, Weight(cliques[c].Separator))).OrderByDescending(c => c.Item2))
            {
                if (weight > room)
                {
                    continue;
                }

                int fits = groups.FindIndex(g => Weight([.. g.Variables.Union(cliques[child].Separator)]) <= room);
                if (fits >= 0)
                {
                    groups[fits].Children.Add(child);
                    groups[fits] = ([.. groups[fits].Variables.Union(cliques[child].Separator)], groups[fits].Children);
                }
                else
                {
                    groups.Add((cliques[child].Separator, [child]));
                }
            }

            foreach ((int[] variables, List<int> children) in groups.Where(g => g.Children.Count > 1))
            {
                children.ForEach(c => result[c] = result[c] with { Parent = result.Count });
                result.Add((variables, variables, p));
            }
        }

        return Ordered([.. result]);

        double Weight(int[] variables) => variables.Aggregate(1.0, (size, v) => size * states[v]);
    }

    /// <summary>How many times smaller the clique in between must be.</summary>
    private const double Smaller = 4;

    private static CliqueSketch[] Ordered((int[] Variables, int[] Separator, int Parent)[] cliques)
    {
        int Depth(int c)
        {
            int depth = 0;
            for (; cliques[c].Parent >= 0; c = cliques[c].Parent)
            {
                depth++;
            }

            return depth;
        }

        int[] order = [.. Enumerable.Range(0, cliques.Length).OrderByDescending(Depth).ThenBy(c => c)];
        var place = new int[order.Length];
        for (int k = 0; k < order.Length; k++)
        {
            place[order[k]] = k;
        }

        return [.. order.Select(c => new CliqueSketch(cliques[c].Variables, cliques[c].Separator, cliques[c].Parent < 0 ? null : place[cliques[c].Parent]))];
    }

    /// <summary>The cliques of an elimination, children before parents. A clique that lies wholly inside its child is merged into it.</summary>
    public static CliqueSketch[] From(EliminationStep[] steps)
    {
        int n = steps.Length;
        var stepOf = new int[n];
        for (int i = 0; i < n; i++)
        {
            stepOf[steps[i].Variable] = i;
        }

        int[] parent = [.. steps.Select(s => s.Neighbours.Length == 0 ? -1 : s.Neighbours.Min(v => stepOf[v]))];
        int[][] separator = [.. steps.Select(s => s.Neighbours)];
        int[] into = [.. Enumerable.Range(0, n)];
        for (int i = 0; i < n; i++)
        {
            // the separator always lies inside the parent; where it has the parent's size, the parent lies inside this clique
            while (into[i] == i && parent[i] is int p and >= 0 && into[p] == p && separator[i].Length == steps[p].Neighbours.Length + 1)
            {
                into[p] = i;
                (separator[i], parent[i]) = (steps[p].Neighbours, parent[p]);
            }
        }

        int[] kept = [.. Enumerable.Range(0, n).Where(i => into[i] == i)];
        var place = new int[n];
        for (int k = 0; k < kept.Length; k++)
        {
            place[kept[k]] = k;
        }

        return Ordered([.. kept.Select(i => ((int[])[steps[i].Variable, .. steps[i].Neighbours], separator[i], parent[i] < 0 ? -1 : place[Standing(parent[i])]))]);

        int Standing(int i)
        {
            while (into[i] != i)
            {
                i = into[i];
            }

            return i;
        }
    }
}
