using FuelHistory.Core.Readings;

namespace FuelHistory.Core.LeakDown;

/// <summary>All that could have fallen as watched, weighed: points of the integral with their probabilities, and what was a slip.</summary>
internal sealed class LeakPosterior
{
    /// <summary>From here on the share that a slip explains is drawn too, from what was believed before.</summary>
    private const double SlipCounts = 5e-4;

    private readonly LeakLimit _limit;
    private readonly LeakNode[] _nodes;
    private readonly RunDensity _density;
    private readonly LeakPosterior? _before;

    private LeakPosterior(LeakLimit limit, RunDensity density, LeakNode[] nodes, double[,] levels, double slip, LeakPosterior? before)
    {
        (_limit, _density, _nodes, Slip, _before) = (limit, density, nodes, slip, before);
        double whole = levels.Cast<double>().Sum();
        Levels = [.. Enumerable.Range(0, LeakLimit.Levels).Select(l => (levels[0, l] + levels[1, l]) / whole)];
        StoreLost = Enumerable.Range(0, LeakLimit.Levels).Sum(l => levels[1, l]) / whole;
    }

    public IReadOnlyList<double> Levels { get; }

    public double StoreLost { get; }

    /// <summary>Probability that hand or hook-up slipped.</summary>
    public double Slip { get; }

    /// <summary>Before the first look.</summary>
    public static LeakPosterior Before(LeakLimit limit, LeakPrior prior, ReadingError error)
    {
        var levels = new double[2, LeakLimit.Levels];
        foreach ((int level, bool lost, double weight) in prior.Beliefs())
        {
            levels[lost ? 1 : 0, level] = weight;
        }

        return new LeakPosterior(limit, new RunDensity(new WatchedPressure([], [], error), 0, limit), PriorNodes.Of(limit, prior), levels, 0, null);
    }

    public static LeakPosterior Of(WatchedPressure run, LeakLimit limit, LeakPrior prior)
    {
        if (run.Minutes.Length == 0)
        {
            return Before(limit, prior, run.Error);
        }

        // 1. levels from the integrals, points with what their level was believed to weigh
        LeakIntegral integral = LeakIntegral.Of([run], 0, limit, nodes: true);
        var levels = new double[2, LeakLimit.Levels];
        var nodes = new List<LeakNode>();
        foreach ((int level, bool lost, double weight) in prior.Beliefs())
        {
            levels[lost ? 1 : 0, level] = weight * integral.At(level, lost);
            integral.AddNodes(nodes, level, lost, weight);
        }

        // 2. in order, so that evenly spread draws are even in each
        double total = nodes.Sum(n => n.Weight), slip = Math.Min(1, integral.Run.Slip / levels.Cast<double>().Sum());
        LeakNode[] kept = [.. nodes.Where(n => n.Weight > 1e-8 * total)];
        Array.Sort(kept, (a, b) => (a.Form, a.Soak, a.Tau).CompareTo((b.Form, b.Soak, b.Tau)));
        total = kept.Sum(n => n.Weight);
        for (int i = 0; i < kept.Length; i++)
        {
            kept[i] = kept[i] with { Weight = kept[i].Weight / total };
        }

        return new LeakPosterior(limit, integral.Run, kept, levels, slip, slip < SlipCounts ? null : Before(limit, prior, run.Error));
    }

    public LeakCurves Curves()
    {
        LeakCurves curves = LeakCurves.Draw(_nodes, _density, _before is null ? 1 : 1 - Slip);
        return _before is null ? curves : curves.And(_before.Curves(), Slip);
    }

    /// <summary>Median and 95 % interval of the time constant.</summary>
    public TimeConstant Tau()
    {
        IEnumerable<(double Tau, double Weight)> all = _nodes.Select(n => (n.Tau, n.Weight));
        if (_before is not null)
        {
            all = all.Select(n => (n.Tau, n.Weight * (1 - Slip))).Concat(_before._nodes.Select(n => (n.Tau, n.Weight * Slip)));
        }

        return Quantiles.Of([.. all.GroupBy(n => n.Tau).Select(g => (Math.Log(g.Key), g.Sum(n => n.Weight))).OrderBy(n => n.Item1)]);
    }

    /// <param name="asOf">Minutes watched: a store that would run empty later has not yet shown it.</param>
    public IReadOnlyList<ShapeShare> Shapes(double asOf) =>
        [.. _nodes.GroupBy(n => Shape(n, asOf)).Select(g => (Id: g.Key, P: (1 - Slip) * g.Sum(n => n.Weight))).Append((Id: LeakWords.Slip, P: Slip))
            .Where(s => s.P > 0).OrderByDescending(s => s.P).Select(s => new ShapeShare(s.Id, LeakWords.Shape(s.Id), s.P))];

    private string Shape(LeakNode node, double asOf) => node.Form switch
    {
        LeakForm.Settle => LeakWords.Lost,
        LeakForm.EmptyFromStart => LeakWords.RunsEmpty,
        LeakForm.RunsEmpty when node.A * node.Tau < asOf => LeakWords.RunsEmpty,
        _ when node.Tau >= _limit.ShortestTau => LeakWords.Holds,
        LeakForm.Orifice => LeakWords.Hole,
        _ => LeakWords.Seep,
    };
}

/// <summary>Quantiles of a distribution that is known at points with weights: each weight is spread over its point's surroundings.</summary>
internal static class Quantiles
{
    public static TimeConstant Of((double LogTau, double Weight)[] points)
    {
        double total = points.Sum(p => p.Weight);
        return new TimeConstant(At(points, 0.5 * total), At(points, 0.025 * total), At(points, 0.975 * total));
    }

    private static double At((double LogTau, double Weight)[] points, double target)
    {
        double sum = 0;
        for (int i = 0; i < points.Length; i++)
        {
            (double x, double weight) = points[i];
            if (sum + weight >= target)
            {
                double from = i == 0 ? x : (points[i - 1].LogTau + x) / 2, to = i == points.Length - 1 ? x : (x + points[i + 1].LogTau) / 2;
                return Math.Exp(from + ((to - from) * (target - sum) / weight));
            }

            sum += weight;
        }

        return Math.Exp(points[^1].LogTau);
    }
}
