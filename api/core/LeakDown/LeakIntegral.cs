using FuelHistory.Core.Assessment;

namespace FuelHistory.Core.LeakDown;

/// <summary>Density of leak-downs at every leak level with the store sound and lost: per law one integral over ln(tau), cut where levels
/// begin and end (MODEL.md 6).</summary>
internal sealed class LeakIntegral
{
    /// <summary>A level worth less than this of the best need not be known better: where other findings may speak for it, and where what
    /// is believed of the run is all that is wanted.</summary>
    private const double Negligible = 1e-8, NegligibleAlone = 1e-5;

    /// <summary>Points below this share of the best level's are not kept.</summary>
    private const double Faintest = 1e-8;

    /// <summary>Good to about 1e-5, and to about 1e-4 where no other finding depends on it.</summary>
    private static readonly Adaptive Fine = new(GaussKronrod.Large, 1e-3), FineAlone = new(GaussKronrod.Large, 5e-3);

    /// <summary>First panel in ln(tau), in widths of the sharpest peak that the looks could give: wide enough to be quick, narrow enough
    /// that no peak falls between two points unseen.</summary>
    private const double PanelWidths = 200;

    /// <summary>Below this (logarithm) densities are taken again in other units.</summary>
    private const double Faint = -300;

    private readonly LeakLimit _limit;
    private readonly double[] _cuts;
    private readonly double[,] _values;
    private readonly List<LeakNode>[,]? _nodes;
    private readonly double _panel;
    private readonly double _negligible;
    private readonly Adaptive _rule;
    private readonly RunDensities[] _runs;

    private LeakIntegral(RunDensities[] runs, LeakLimit limit, bool nodes)
    {
        (_runs, _limit) = (runs, limit);
        (_negligible, _rule) = nodes ? (NegligibleAlone, FineAlone) : (Negligible, Fine);
        _cuts = [.. Edges(limit).Distinct().Order()];
        _values = new double[LeakLaws.All.Length, _cuts.Length - 1];
        double sharpest = runs.Select(r => r.Sharpest).DefaultIfEmpty(1).Min() / Math.Sqrt(Math.Max(1, runs.Length));
        _panel = Math.Clamp(PanelWidths * sharpest, 0.3, 2.1);
        _nodes = nodes ? new List<LeakNode>[LeakLaws.All.Length, _cuts.Length - 1] : null;
    }

    /// <param name="biases">Of the gauge per run, bar.</param>
    /// <param name="nodes">Keep the points of the integral; for a single run.</param>
    public static LeakIntegral Of(IReadOnlyList<WatchedPressure> runs, double bias, LeakLimit limit, bool nodes)
    {
        RunDensities[] plain = [.. runs.Select(r => new RunDensities(r, bias, limit, alone: nodes))];
        LeakIntegral integral = new(plain, limit, nodes);
        integral.Fill();
        if (plain.Sum(r => Math.Min(0, r.BestExponent)) > Faint)
        {
            return integral;
        }

        // the looks are many or fit badly: in units of the best point found
        RunDensities[] scaled = [.. runs.Zip(plain, (r, p) => new RunDensities(r, bias, limit, Math.Max(p.BestExponent, Math.Log(Math.Max(p.Slip, double.Epsilon))), nodes))];
        integral = new(scaled, limit, nodes);
        integral.Fill();
        return integral;
    }

    /// <summary>Natural logarithm of what densities are to be multiplied by.</summary>
    public double LogScale => _runs.Sum(r => r.LogUnit + r.Scale);

    public RunDensities Run => _runs[0];

    /// <summary>Density at a level, in units of <see cref="LogScale"/>.</summary>
    public double At(int level, bool storeLost)
    {
        (int first, int end, double width) = Range(level, storeLost);
        double sum = 0;
        foreach (LeakLaw law in LeakLaws.All)
        {
            for (int k = first; k < end; k++)
            {
                sum += LeakLaws.Weight(law, storeLost) * _values[(int)law, k];
            }
        }

        return sum / width;
    }

    /// <summary>Every point with the weight that its law and its place among the levels give it, slips apart.</summary>
    public IEnumerable<LeakNode> Nodes(LeakPrior prior)
    {
        foreach (LeakLaw law in LeakLaws.All)
        {
            double[] weights = Weights(law, prior);
            for (int k = 0; k < weights.Length; k++)
            {
                foreach (LeakNode node in _nodes![(int)law, k])
                {
                    yield return node with { Weight = node.Weight * weights[k] };
                }
            }
        }
    }

    private double[] Weights(LeakLaw law, LeakPrior prior)
    {
        var weights = new double[_cuts.Length - 1];
        foreach ((int level, bool lost, double belief) in prior.Beliefs())
        {
            (int first, int end, double width) = Range(level, lost);
            for (int k = first; k < end; k++)
            {
                weights[k] += belief * LeakLaws.Weight(law, lost) / width;
            }
        }

        return weights;
    }

    private static IEnumerable<double> Edges(LeakLimit limit)
    {
        foreach (bool lost in new[] { false, true })
        {
            for (int level = 0; level < LeakLimit.Levels; level++)
            {
                (double shortest, double longest) = limit.TauRange(level, lost);
                yield return Rounded(shortest);
                yield return Rounded(longest);
            }
        }
    }

    /// <summary>Edges that meet must be one number.</summary>
    private static double Rounded(double tau) => Math.Round(Math.Log(tau), 9);

    private (int First, int End, double Width) Range(int level, bool storeLost)
    {
        (double shortest, double longest) = _limit.TauRange(level, storeLost);
        return (Array.IndexOf(_cuts, Rounded(shortest)), Array.IndexOf(_cuts, Rounded(longest)), Rounded(longest) - Rounded(shortest));
    }

    private void Fill()
    {
        // 1. the quick laws first: they tell what is worth a look
        double best = Math.Max(Fill(LeakLaw.Seep, _runs, 0), Fill(LeakLaw.Orifice, _runs, 0));

        // 2. the slow ones side by side, with buffers of their own
        RunDensities[] beside = [.. _runs.Select(r => r.Beside())];
        Each.Both(() => Fill(LeakLaw.Collapse, _runs, best), () => Fill(LeakLaw.Settle, beside, best));
        for (int i = 0; i < beside.Length; i++)
        {
            _runs[i].Counts(beside[i].BestExponent);
        }
    }

    /// <returns>The largest value so far.</returns>
    private double Fill(LeakLaw law, RunDensities[] runs, double best)
    {
        for (int k = 0; k < _cuts.Length - 1; k++)
        {
            List<LeakNode>? nodes = _nodes is null ? null : _nodes[(int)law, k] = [];
            _values[(int)law, k] = Matters(law, k) ? Between(law, runs, k, new LeakNodes(nodes, 1, Faintest * best), best) : 0;
            best = Math.Max(best, _values[(int)law, k]);
        }

        return best;
    }

    /// <summary>Some law weighs nothing with the store sound.</summary>
    private bool Matters(LeakLaw law, int k) =>
        LeakLaws.Weight(law, false) > 0 || _cuts[k] < Rounded(_limit.TauRange(0, true).Longest);

    private double Between(LeakLaw law, RunDensities[] runs, int cell, LeakNodes nodes, double best)
    {
        (double low, double high) = (_cuts[cell], _cuts[cell + 1]);
        int panels = (int)Math.Ceiling((high - low) / _panel);
        double width = (high - low) / panels, sum = 0;
        for (int p = 0; p < panels; p++)
        {
            double from = low + (p * width);
            sum += _rule.Integrate(from, from + width, nodes, (x, own) => Point(law, runs, Math.Exp(x), own), Math.Max(_negligible * best, 0.1 * sum));
        }

        return sum;
    }

    private static double Point(LeakLaw law, RunDensities[] runs, double tau, LeakNodes nodes)
    {
        double product = 1;
        foreach (RunDensities run in runs)
        {
            product *= run.Slip + ((1 - Readings.ReadingError.Slip) * run.At(law, tau, nodes));
        }

        return product;
    }
}
