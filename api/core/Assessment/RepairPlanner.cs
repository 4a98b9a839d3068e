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
}
