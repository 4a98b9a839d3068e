namespace FuelHistory.Core.LeakDown;

/// <summary>A stretch of ln(tau) with its probability.</summary>
internal readonly record struct Cell(double From, double To, double Weight);

/// <summary>Quantiles of a time constant that is known at points with weights.</summary>
internal static class Quantiles
{
    /// <summary>Spreads the weight of each point over its surroundings, law by law: up to halfway to its law's next points.</summary>
    public static void Spread(IEnumerable<LeakNode> nodes, double share, List<Cell> into)
    {
        foreach (var law in nodes.GroupBy(n => n.Law))
        {
            (double X, double Weight)[] points = [.. law.GroupBy(n => n.Tau).Select(g => (Math.Log(g.Key), share * g.Sum(n => n.Weight))).OrderBy(p => p.Item1)];
            for (int i = 0; i < points.Length; i++)
            {
                double from = i == 0 ? points[0].X : (points[i - 1].X + points[i].X) / 2, to = i == points.Length - 1 ? points[^1].X : (points[i].X + points[i + 1].X) / 2;
                into.Add(new Cell(from, to, points[i].Weight));
            }
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
