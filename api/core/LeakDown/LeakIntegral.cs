namespace FuelHistory.Core.LeakDown;

/// <summary>Density of leak-downs at every leak level with the store sound and lost: per law one integral over ln(tau), cut where levels
/// begin and end (MODEL.md 6).</summary>
internal sealed class LeakIntegral
{
    /// <summary>A level worth less than this of the best need not be known better.</summary>
    private const double Negligible = 1e-8;

    /// <summary>Widest first panel in ln(tau).</summary>
    private const double Panel = 0.6;

    /// <summary>Below this (logarithm) densities are taken again in other units.</summary>
    private const double Faint = -300;

    private readonly LeakLimit _limit;
    private readonly double[] _cuts;
    private readonly double[,] _values;
    private readonly LeakNodes[,]? _nodes;
    private readonly RunDensity[] _runs;

    private LeakIntegral(RunDensity[] runs, LeakLimit limit, bool nodes)
    {
        (_runs, _limit) = (runs, limit);
        _cuts = [.. Edges(limit).Distinct().Order()];
        _values = new double[LeakLaws.All.Length, _cuts.Length - 1];
        _nodes = nodes ? new LeakNodes[LeakLaws.All.Length, _cuts.Length - 1] : null;
    }

    /// <param name="biases">Of the gauge per run, bar.</param>
    /// <param name="nodes">Keep the points of the integral; for a single run.</param>
    public static LeakIntegral Of(IReadOnlyList<WatchedPressure> runs, double bias, LeakLimit limit, bool nodes)
    {
        RunDensity[] plain = [.. runs.Select(r => new RunDensity(r, bias, limit))];
        LeakIntegral integral = new(plain, limit, nodes);
        integral.Fill();
        if (plain.Sum(r => Math.Min(0, r.BestExponent)) > Faint)
        {
            return integral;
        }

        // the looks are many or fit badly: in units of the best point found
        RunDensity[] scaled = [.. runs.Zip(plain, (r, p) => new RunDensity(r, bias, limit, Math.Max(p.BestExponent, Math.Log(Math.Max(p.Slip, double.Epsilon)))))];
        integral = new(scaled, limit, nodes);
        integral.Fill();
        return integral;
    }

    /// <summary>Natural logarithm of what densities are to be multiplied by.</summary>
    public double LogScale => _runs.Sum(r => r.LogUnit + r.Scale);

    public RunDensity Run => _runs[0];

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

    /// <summary>Hands out every point with the share that its law and place have in a level's density, slips apart.</summary>
    public IEnumerable<LeakNode> Nodes(int level, bool storeLost)
    {
        (int first, int end, double width) = Range(level, storeLost);
        foreach (LeakLaw law in LeakLaws.All)
        {
            double weight = LeakLaws.Weight(law, storeLost) / width;
            for (int k = first; k < end && weight > 0; k++)
            {
                LeakNodes nodes = _nodes![(int)law, k];
                for (int i = 0; i < nodes.Count; i++)
                {
                    yield return nodes[i] with { Weight = nodes[i].Weight * weight };
                }
            }
        }
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
        double best = 0;
        foreach (LeakLaw law in LeakLaws.All)
        {
            for (int k = 0; k < _cuts.Length - 1; k++)
            {
                LeakNodes? nodes = _nodes is null ? null : _nodes[(int)law, k] = new LeakNodes();
                int panels = (int)Math.Ceiling((_cuts[k + 1] - _cuts[k]) / Panel);
                double width = (_cuts[k + 1] - _cuts[k]) / panels;
                for (int p = 0; p < panels; p++)
                {
                    double from = _cuts[k] + (p * width);
                    double value = Adaptive.Integrate(from, from + width, nodes, (x, own) => Point(law, Math.Exp(x), own), Math.Max(Negligible * best, 0.1 * _values[(int)law, k]));
                    _values[(int)law, k] += value;
                    best = Math.Max(best, value);
                }
            }
        }
    }

    private double Point(LeakLaw law, double tau, LeakNodes? nodes)
    {
        double product = 1;
        foreach (RunDensity run in _runs)
        {
            product *= run.Slip + ((1 - Readings.ReadingError.Slip) * run.At(law, tau, nodes));
        }

        return product;
    }
}
