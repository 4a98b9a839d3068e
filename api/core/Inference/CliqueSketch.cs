namespace FuelHistory.Core.Inference;

/// <summary>A clique before it is laid out: its variables, its parent and what it shares with it.</summary>
internal sealed record CliqueSketch(int[] Variables, int[] Separator, int? Parent)
{
    public double Size(IReadOnlyList<int> states) => Variables.Aggregate(1.0, (size, v) => size * states[v]);

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

        int[] order = [.. Enumerable.Range(0, n).Where(i => into[i] == i).OrderByDescending(Depth).ThenBy(i => i)];
        int[] place = new int[n];
        for (int k = 0; k < order.Length; k++)
        {
            place[order[k]] = k;
        }

        return [.. order.Select(i => new CliqueSketch(
            [steps[i].Variable, .. steps[i].Neighbours],
            separator[i],
            parent[i] < 0 ? null : place[Standing(parent[i])]))];

        int Standing(int i)
        {
            while (into[i] != i)
            {
                i = into[i];
            }

            return i;
        }

        int Depth(int i)
        {
            int depth = 0;
            for (; parent[i] >= 0; i = Standing(parent[i]))
            {
                depth++;
            }

            return depth;
        }
    }
}
