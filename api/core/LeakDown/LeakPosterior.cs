using FuelHistory.Core.Readings;

namespace FuelHistory.Core.LeakDown;

/// <summary>All that could have fallen as watched, weighed: points of the integral with their probabilities, and what was a slip.</summary>
internal sealed class LeakPosterior
{
    /// <summary>From here on the share that a slip explains is drawn too, from what was believed before.</summary>
    private const double SlipCounts = 5e-4;

    /// <summary>Points below this share of all are left out.</summary>
    private const double Least = 1e-8;

    private readonly LeakLimit _limit;
    private readonly LeakNode[] _nodes;
    private readonly RunDensities _density;
    private readonly LeakPosterior? _before;

    private LeakPosterior(LeakLimit limit, RunDensities density, LeakNode[] nodes, double[,] levels, double slip, LeakPosterior? before)
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

        return new LeakPosterior(limit, new RunDensities(new WatchedPressure([], [], error), 0, limit), PriorNodes.Of(limit, prior), levels, 0, null);
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
        foreach ((int level, bool lost, double weight) in prior.Beliefs())
        {
            levels[lost ? 1 : 0, level] = weight * integral.At(level, lost);
        }

        // 2. what weighs nothing is not drawn
        List<LeakNode> nodes = [.. integral.Nodes(prior)];
        double total = nodes.Sum(n => n.Weight), slip = Math.Min(1, integral.Run.Slip / levels.Cast<double>().Sum());
        LeakNode[] kept = [.. nodes.Where(n => n.Weight > Least * total)];
        if (kept.Length == 0)
        {
            // no law comes near: all of it is a slip, and what was believed before stands
            LeakPosterior before = Before(limit, prior, run.Error);
            return new LeakPosterior(limit, before._density, before._nodes, levels, 1, before);
        }

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

    /// <summary>Median and 95 % interval of the time constant: whatever the law, and for each if that is the law.</summary>
    public (TimeConstant Any, IReadOnlyList<LawShare> Laws) Tau()
    {
        (LeakLaw Law, List<Cell> Cells, double Weight)[] laws = [.. LeakLaws.All.Select(law => (law, Cells(law))).Select(l => (l.law, l.Item2, l.Item2.Sum(c => c.Weight))).Where(l => l.Item3 > 0)];
        double whole = laws.Sum(l => l.Weight);
        return (
            Quantiles.Of([.. laws.SelectMany(l => l.Cells)]),
            [.. laws.Select(l => new LawShare(LeakWords.Law(l.Law).Id, LeakWords.Law(l.Law).Words, l.Weight / whole, Quantiles.Of(l.Cells))).OrderByDescending(l => l.Probability)]);
    }

    private List<Cell> Cells(LeakLaw law)
    {
        var cells = new List<Cell>();
        Quantiles.Spread(_nodes, law, 1 - (_before is null ? 0 : Slip), cells);
        if (_before is not null)
        {
            Quantiles.Spread(_before._nodes, law, Slip, cells);
        }

        return cells;
    }

    /// <param name="asOf">Minutes watched: a store that would run empty later has not yet shown it.</param>
    public IReadOnlyList<ShapeShare> Shapes(double asOf)
    {
        var shares = new Dictionary<string, double> { [LeakWords.Slip] = Slip };
        foreach (LeakNode node in _nodes)
        {
            string shape = Shape(node, asOf);
            shares[shape] = shares.GetValueOrDefault(shape) + ((1 - Slip) * node.Weight);
        }

        return [.. shares.Where(s => s.Value > 0).OrderByDescending(s => s.Value).Select(s => new ShapeShare(s.Key, LeakWords.Shape(s.Key), s.Value))];
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
}
