namespace FuelHistory.Core.Assessment;

/// <summary>Greedy repair order by gain in the share relieved per cost, ended by the specialist (MODEL.md 8; with one fault and perfect
/// repairs the known p/c order: Kalagnanam &amp; Henrion 1990, Heckerman, Breese &amp; Rommelse 1995).</summary>
internal static class RepairPlanner
{
    /// <summary>Less than this gained is nothing.</summary>
    private const double NegligibleGain = 1e-9;

    /// <summary>The order, and its expected cost: min over n of [ sum c_i (1 - G_{i-1}) + C_none (1 - S_n) ].</summary>
    /// <param name="options">Work that may be done; several kinds on one part may follow one another.</param>
    /// <param name="depth">So many parts at most.</param>
    /// <param name="relieved">With a set of parts ok: G, P(all items right), and S, the share of the items that is right.</param>
    /// <param name="first">The first step; null: what gains most.</param>
    public static Planned Plan(IReadOnlyList<RepairOption> options, double specialist, int depth, Func<int[], Relieved> relieved, RepairOption? first = null)
    {
        var order = new List<RepairOption>();
        var parts = new List<(int Part, double Right)>();
        var after = new List<Relieved>();
        Relieved before = relieved([]);
        double spent = 0, best = specialist * (1 - before.Share);
        int length = 0;
        while (Pick(first is not null && order.Count == 0 ? [first] : options, order, parts, depth, before, relieved) is (RepairOption pick, Relieved then))
        {
            // paid by who still has the complaint
            spent += pick.Cost * (1 - before.All);
            before = then;
            parts = [.. With(parts, pick)];
            order.Add(pick);
            after.Add(before);
            double total = spent + (specialist * (1 - before.Share));
            if (total < best)
            {
                (best, length) = (total, order.Count);
            }
        }

        return new Planned([.. order.Take(length)], [.. after.Take(length)], best);
    }

    /// <summary>As <see cref="Plan"/>, and where several parts are put right in one labour also with that as the first step: the cheapest of them.
    /// A part alone may gain most for its cost, and yet the others that go bad with it follow one by one.</summary>
    public static Planned WithBundles(IReadOnlyList<RepairOption> options, double specialist, int depth, Func<int[], Relieved> relieved) =>
        options.Where(o => o.With.Count > 0).Select(o => Plan(options, specialist, depth, relieved, o))
            .Prepend(Plan(options, specialist, depth, relieved)).MinBy(p => p.Cost)!;

    /// <summary>What relieves most for its cost; null where nothing relieves anything more.</summary>
    private static (RepairOption, Relieved)? Pick(
        IReadOnlyList<RepairOption> options,
        List<RepairOption> order,
        List<(int Part, double Right)> parts,
        int depth,
        Relieved before,
        Func<int[], Relieved> relieved)
    {
        (RepairOption, Relieved)? pick = null;
        double most = 0;
        foreach (RepairOption option in options)
        {
            int more = option.Pieces.Count(o => !parts.Exists(p => p.Part == o.Part));
            if (order.Contains(option) || (parts.Count > 0 && more > 0 && parts.Count + more > depth))
            {
                continue;
            }

            Relieved then = Expected([], With(parts, option), relieved);
            double gain = then.Share - before.Share;
            if (gain > NegligibleGain && gain / option.Cost > most)
            {
                (pick, most) = ((option, then), gain / option.Cost);
            }
        }

        return pick;
    }

    /// <summary>Parts worked on, each with the probability that it was put right if it was bad.</summary>
    private static (int Part, double Right)[] With(List<(int Part, double Right)> parts, RepairOption option)
    {
        List<(int Part, double Right)> with = [.. parts];
        foreach (RepairOption piece in option.Pieces)
        {
            int known = with.FindIndex(p => p.Part == piece.Part);
            if (known < 0)
            {
                with.Add((piece.Part, piece.Success));
            }
            else
            {
                with[known] = (piece.Part, 1 - ((1 - with[known].Right) * (1 - piece.Success)));
            }
        }

        return [.. with];
    }

    /// <summary>Work that may fail: the mean over which parts it did put right, each by itself.</summary>
    private static Relieved Expected(int[] right, ReadOnlySpan<(int Part, double Right)> open, Func<int[], Relieved> relieved)
    {
        if (open.Length == 0)
        {
            return relieved(right);
        }

        (int part, double p) = open[0];
        Relieved done = Expected([.. right, part], open[1..], relieved);
        if (p >= 1)
        {
            return done;
        }

        Relieved not = Expected(right, open[1..], relieved);
        return new Relieved((p * done.All) + ((1 - p) * not.All), (p * done.Share) + ((1 - p) * not.Share));
    }

    /// <summary>Standard deviation of what a plan costs: it ends after step i with the gain of that step, and with the specialist in what is left.</summary>
    public static double Spread(Relieved already, Planned plan, double specialist)
    {
        double spent = 0, mean = 0, square = 0;
        Relieved before = already;
        for (int i = 0; i < plan.Order.Length; i++)
        {
            spent += plan.Order[i].Cost;
            Add(plan.After[i].All - before.All, spent);
            before = plan.After[i];
        }

        Add(1 - before.All, spent + (before.All < 1 ? specialist * (1 - before.Share) / (1 - before.All) : 0));
        return Math.Sqrt(Math.Max(0, square - (mean * mean)));

        void Add(double p, double cost)
        {
            mean += p * cost;
            square += p * cost * cost;
        }
    }
}

/// <summary>What a set of repairs does: P(all items right), and the expected share of the items that is right, by weight; 0..1.</summary>
internal readonly record struct Relieved(double All, double Share);

/// <summary>Work in its order, what stands after each, and the expected cost of the whole.</summary>
internal sealed record Planned(RepairOption[] Order, Relieved[] After, double Cost);
