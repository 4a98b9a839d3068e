namespace FuelHistory.Core.Assessment;

/// <summary>Greedy repair order by gain in "complaint gone" per cost, ended by the specialist (MODEL.md 8; with one fault and perfect
/// repairs the known p/c order: Kalagnanam &amp; Henrion 1990, Heckerman, Breese &amp; Rommelse 1995).</summary>
internal static class RepairPlanner
{
    /// <summary>The order, and its expected cost: min over n of [ sum c_i (1 - K_{i-1}) + C_none (1 - K_n) ].</summary>
    /// <param name="candidates">Parts that may be put right.</param>
    /// <param name="gone">K of a set of repaired parts.</param>
    public static (int[] Order, double[] Gone, double Cost) Plan(
        IReadOnlyList<int> candidates, Func<int, double> cost, double specialist, int depth, Func<int[], double> gone)
    {
        var order = new List<int>();
        double before = gone([]), spent = 0, best = specialist * (1 - before);
        var goneAfter = new List<double>();
        int length = 0;
        while (order.Count < depth && order.Count < candidates.Count)
        {
            int[] rest = [.. candidates.Where(c => !order.Contains(c))];
            double[] after = [.. rest.Select(c => gone([.. order, c]))];
            int pick = Enumerable.Range(0, rest.Length).MaxBy(i => (after[i] - before) / cost(rest[i]));
            if (after[pick] - before <= 1e-9)
            {
                break;
            }

            spent += cost(rest[pick]) * (1 - before);
            before = after[pick];
            order.Add(rest[pick]);
            goneAfter.Add(before);
            double total = spent + (specialist * (1 - before));
            if (total < best)
            {
                (best, length) = (total, order.Count);
            }
        }

        return ([.. order.Take(length)], [.. goneAfter.Take(length)], best);
    }

    /// <summary>Standard deviation of what a plan costs: it ends after step i with the gain of that step, and with the specialist in what is left.</summary>
    public static double Spread(double already, IReadOnlyList<double> costs, IReadOnlyList<double> gone, double specialist)
    {
        double spent = 0, before = already, mean = 0, square = 0;
        for (int i = 0; i < costs.Count; i++)
        {
            spent += costs[i];
            Add(gone[i] - before, spent);
            before = gone[i];
        }

        Add(1 - before, spent + specialist);
        return Math.Sqrt(Math.Max(0, square - (mean * mean)));

        void Add(double p, double cost)
        {
            mean += p * cost;
            square += p * cost * cost;
        }
    }
}
