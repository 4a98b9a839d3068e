namespace FuelHistory.Core.LeakDown;

/// <summary>A stretch of ln(tau) with its probability.</summary>
internal readonly record struct Cell(double From, double To, double Weight);

/// <summary>Quantiles of a time constant that is known at points with weights.</summary>
internal static class Quantiles
{
    /// <summary>Spreads the weight of each point over its surroundings, law by law: up to halfway to its law's next points.</summary>
    /// <param name="nodes">Those of one law and time constant follow each other, as the integral leaves them.</param>
    public static void Spread(IReadOnlyList<LeakNode> nodes, LeakLaw law, double share, List<Cell> into)
    {
        var points = new List<(double Tau, double Weight)>();
        foreach (LeakNode n in nodes)
        {
            if (n.Law == law && points.Count > 0 && points[^1].Tau == n.Tau)
            {
                points[^1] = (n.Tau, points[^1].Weight + n.Weight);
            }
            else if (n.Law == law)
            {
                points.Add((n.Tau, n.Weight));
            }
        }

        points.Sort((p, q) => p.Tau.CompareTo(q.Tau));
        double[] x = [.. points.Select(p => Math.Log(p.Tau))];
        for (int i = 0; i < x.Length; i++)
        {
            into.Add(new Cell(i == 0 ? x[0] : (x[i - 1] + x[i]) / 2, i == x.Length - 1 ? x[^1] : (x[i] + x[i + 1]) / 2, share * points[i].Weight));
        }
    }

    /// <summary>Median and the interval that holds 95 %.</summary>
    public static TimeConstant Of(List<Cell> cells) => new(At(cells, 0.5), At(cells, 0.025), At(cells, 0.975));

    private static double At(List<Cell> cells, double share)
    {
        double low = cells.Min(c => c.From), high = cells.Max(c => c.To), whole = cells.Sum(c => c.Weight);
        for (int i = 0; i < 40; i++)
        {
            double middle = (low + high) / 2, below = 0;
            foreach (Cell c in cells)
            {
                below += c.To <= middle ? c.Weight : c.From >= middle ? 0 : c.Weight * (middle - c.From) / (c.To - c.From);
            }

            (low, high) = below < share * whole ? (middle, high) : (low, middle);
        }

        return Math.Exp((low + high) / 2);
    }
}
