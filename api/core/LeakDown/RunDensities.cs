namespace FuelHistory.Core.LeakDown;

/// <summary>Density of one run's looks, averaged over the time constants that a drop from running pressure may have. Where no look shows
/// anything of a drop there is one density only.</summary>
internal sealed class RunDensities
{
    private readonly RunDensity[] _runs;
    private readonly Func<RunDensities> _beside;

    /// <param name="bias">Shift of the gauge, bar.</param>
    /// <param name="scale">Logarithm taken out of all densities beside <see cref="LogUnit"/>.</param>
    /// <param name="alone">No other finding will be weighed against these looks.</param>
    public RunDensities(WatchedPressure run, double bias, LeakLimit limit, double scale = 0, bool alone = false)
    {
        bool drops = limit.Drop > 0 && (run.Minutes.Length == 0 || run.Minutes[0] <= LeakLaws.DropLasts);
        int[] which = drops ? [.. Enumerable.Range(0, LeakLaws.Drops.Length)] : [-1];
        _runs = [.. which.Select(drop => new RunDensity(run, bias, limit, scale, alone, drop))];
        _beside = () =>
        {
            var other = new RunDensities(run, bias, limit, scale, alone);
            other._runs[0].Counts(BestExponent);
            return other;
        };
    }

    /// <summary>The same with buffers of its own, for another thread.</summary>
    public RunDensities Beside() => _beside();

    public double Slip => _runs[0].Slip;

    public double Scale => _runs[0].Scale;

    public double LogUnit => _runs[0].LogUnit;

    public double Sharpest => _runs[0].Sharpest;

    public double BestExponent => _runs.Max(r => r.BestExponent);

    public void Counts(double exponent) => _runs[0].Counts(exponent);

    /// <summary>That of a point of the integral.</summary>
    public RunDensity Of(LeakNode node) => _runs.Length == 1 ? _runs[0] : _runs[Math.Max(0, node.Drop)];

    public double At(LeakLaw law, double tau, LeakNodes nodes)
    {
        if (_runs.Length == 1)
        {
            return _runs[0].At(law, tau, nodes);
        }

        double sum = 0, best = BestExponent;
        for (int k = 0; k < _runs.Length; k++)
        {
            _runs[k].Counts(best);
            sum += _runs[k].At(law, tau, nodes.Times(1.0 / _runs.Length) with { Drop = k }) / _runs.Length;
            best = _runs[k].BestExponent;
        }

        return sum;
    }
}
