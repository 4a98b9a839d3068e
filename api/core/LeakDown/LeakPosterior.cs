using FuelHistory.Core.Readings;

namespace FuelHistory.Core.LeakDown;

/// <summary>All that could have fallen as watched, weighed: points of the integral with their probabilities, and what was a slip.</summary>
internal sealed class LeakPosterior
{
    /// <summary>From here on the share that a slip explains is drawn too, from what was believed before.</summary>
    private const double SlipCounts = 5e-4;

    private readonly WatchedPressure _run;
    private readonly LeakLimit _limit;
    private readonly LeakPrior _prior;
    private readonly LeakNode[] _nodes;
    private readonly RunDensity _density;

    /// <summary>A run before its first look.</summary>
    public static WatchedPressure Unwatched { get; } = new([], [], new ReadingError(0, 1e-4, 1, 1));

    private LeakPosterior(WatchedPressure run, LeakLimit limit, LeakPrior prior)
    {
        (_run, _limit, _prior) = (run, limit, prior);
        LeakIntegral integral = LeakIntegral.Of([run], 0, limit, nodes: true);
        _density = integral.Run;
        double[] levels = new double[LeakLimit.Levels];
        double lost = 0, whole = 0;
        var nodes = new List<LeakNode>();
        foreach ((int level, bool storeLost, double weight) in Beliefs(prior))
        {
            double value = weight * integral.At(level, storeLost);
            levels[level] += value;
            lost += storeLost ? value : 0;
            whole += value;
            nodes.AddRange(integral.Nodes(level, storeLost).Select(n => n with { Weight = weight * n.Weight }));
        }

        Levels = [.. levels.Select(l => l / whole)];
        StoreLost = lost / whole;
        Slip = Math.Min(1, _density.Slip / whole);
        double total = nodes.Sum(n => n.Weight);
        _nodes = [.. nodes.Where(n => n.Weight > 1e-9 * total).OrderBy(n => n.Form).ThenBy(n => n.Soak).ThenBy(n => n.Tau).Select(n => n with { Weight = n.Weight / total })];
    }

    public IReadOnlyList<double> Levels { get; }

    public double StoreLost { get; }

    /// <summary>Probability that hand or hook-up slipped.</summary>
    public double Slip { get; }

    public static LeakPosterior Of(WatchedPressure run, LeakLimit limit, LeakPrior prior) => new(run, limit, prior);

    public LeakCurves Curves()
    {
        LeakCurves curves = LeakCurves.Draw(_nodes, _density, 1 - (_run.Minutes.Length == 0 ? 0 : Slip));
        return _run.Minutes.Length == 0 || Slip < SlipCounts ? curves : curves.And(Before().Curves(), Slip);
    }

    /// <summary>Median and 95 % interval of the time constant.</summary>
    public TimeConstant Tau()
    {
        IEnumerable<(double Tau, double Weight)> all = _nodes.Select(n => (n.Tau, n.Weight));
        if (_run.Minutes.Length > 0 && Slip >= SlipCounts)
        {
            all = all.Select(n => (n.Tau, n.Weight * (1 - Slip))).Concat(Before()._nodes.Select(n => (n.Tau, n.Weight * Slip)));
        }

        return Quantiles.Of([.. all.GroupBy(n => n.Tau).Select(g => (Math.Log(g.Key), g.Sum(n => n.Weight))).OrderBy(n => n.Item1)]);
    }

    /// <param name="asOf">Minutes watched: a store that would run empty later has not yet shown it.</param>
    public IReadOnlyList<ShapeShare> Shapes(double asOf)
    {
        double slip = _run.Minutes.Length == 0 ? 0 : Slip;
        return [.. _nodes.GroupBy(n => Shape(n, asOf)).Select(g => (Id: g.Key, P: (1 - slip) * g.Sum(n => n.Weight))).Append((Id: LeakWords.Slip, P: slip))
            .Where(s => s.P > 0).OrderByDescending(s => s.P).Select(s => new ShapeShare(s.Id, LeakWords.Shape(s.Id), s.P))];
    }

    private string Shape(LeakNode node, double asOf) => node.Form switch
    {
        LeakForm.Settle => LeakWords.Lost,
        LeakForm.EmptyFromStart => LeakWords.RunsEmpty,
        LeakForm.RunsEmpty when node.A * node.Tau < asOf => LeakWords.RunsEmpty,
        _ when node.Tau >= _limit.ShortestTau => LeakWords.Holds,
        LeakForm.Orifice => LeakWords.Hole,
        _ => LeakWords.Seep,
    };

    private LeakPosterior Before() => new(Unwatched with { Error = _run.Error }, _limit, _prior);

    private static IEnumerable<(int Level, bool Lost, double Weight)> Beliefs(LeakPrior prior) => new[] { false, true }
        .SelectMany(lost => Enumerable.Range(0, LeakLimit.Levels).Select(level => (level, lost, lost ? prior.Lost[level] : prior.Sound[level]))).Where(b => b.Item3 > 0);
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
