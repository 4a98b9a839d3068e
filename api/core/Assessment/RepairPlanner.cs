namespace FuelHistory.Core.Assessment;

/// <summary>Greedy repair order by gain in "complaint gone" per cost, ended by the specialist (MODEL.md 8; with one fault and perfect
/// repairs the known p/c order: Kalagnanam &amp; Henrion 1990, Heckerman, Breese &amp; Rommelse 1995).</summary>
internal static class RepairPlanner
{
    /// <summary>Less than this gained is nothing.</summary>
    private const double Least = 1e-9;

    /// <summary>The order, and its expected cost: min over n of [ sum c_i (1 - K_{i-1}) + C_none (1 - K_n) ].</summary>
    /// <param name="options">Work that may be done; several kinds on one part may follow one another.</param>
    /// <param name="depth">So many parts at most.</param>
    /// <param name="gone">P(complaint gone) with a set of parts ok.</param>
    public static (RepairOption[] Order, double[] Gone, double Cost) Plan(IReadOnlyList<RepairOption> options, double specialist, int depth, Func<int[], double> gone)
    {
        var order = new List<RepairOption>();
        var parts = new List<(int Part, double Right)>();
        var goneAfter = new List<double>();
        double before = gone([]), spent = 0, best = specialist * (1 - before);
        int length = 0;
        while (true)
        {
            // 1. what gains most for its cost
            RepairOption? pick = null;
            double most = 0, after = 0;
            foreach (RepairOption option in options)
            {
                bool known = parts.Exists(p => p.Part == option.Part);
                if (order.Contains(option) || (!known && parts.Count == depth))
                {
                    continue;
                }

                double then = Expected([], With(parts, option), gone);
                if (then - before > Least && (then - before) / option.Cost > most)
                {
                    (pick, most, after) = (option, (then - before) / option.Cost, then);
                }
            }

            if (pick is null)
            {
                return ([.. order.Take(length)], [.. goneAfter.Take(length)], best);
            }

            // 2. paid by who still has the complaint
            spent += pick.Cost * (1 - before);
            before = after;
            parts = [.. With(parts, pick)];
            order.Add(pick);
            goneAfter.Add(before);
            double total = spent + (specialist * (1 - before));
            if (total < best)
            {
                (best, length) = (total, order.Count);
            }
        }
    }

    /// <summary>Parts worked on, each with the probability that it was put right if it was bad.</summary>
    private static (int Part, double Right)[] With(List<(int Part, double Right)> parts, RepairOption option)
    {
        int known = parts.FindIndex(p => p.Part == option.Part);
        double right = known < 0 ? option.Success : 1 - ((1 - parts[known].Right) * (1 - option.Success));
        (int, double)[] with = known < 0 ? [.. parts, (option.Part, right)] : [.. parts];
        with[known < 0 ? parts.Count : known] = (option.Part, right);
        return with;
    }

    /// <summary>K of work that may fail: the mean of "gone" over which parts it did put right, each by itself.</summary>
    private static double Expected(int[] right, ReadOnlySpan<(int Part, double Right)> open, Func<int[], double> gone)
    {
        if (open.Length == 0)
        {
            return gone(right);
        }

        (int part, double p) = open[0];
        double done = p * Expected([.. right, part], open[1..], gone);
        return p >= 1 ? done : done + ((1 - p) * Expected(right, open[1..], gone));
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
