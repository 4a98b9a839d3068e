using System.Globalization;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>Leak-downs already integrated, by what they are computed from: the integrals are the dearest tables of all, and the same run
/// or the same foreseen outcomes come back with every request.</summary>
internal sealed class LeakTables
{
    private const int Kept = 500;

    private readonly Memo<string, LeakTable> _tables = new(Kept);

    private readonly Memo<(ReadingError, double, LeakLimit), double[][][]> _outcomes = new(Kept);

    /// <param name="biases">Shift of the reading per state of the gauge, bar.</param>
    public LeakTable For(IReadOnlyList<WatchedPressure> runs, LeakLimit limit, double[] biases)
    {
        string key = string.Join('|', runs.Select(r => $"{Words(r.Minutes)};{Words(r.Bar)};{r.Error}").Append(limit.ToString()).Append(Words(biases)));
        return _tables.Of(key, () => runs.Count == 0 ? new LeakTable(biases.Length, (_, _, _) => 1) : Table(runs, limit, biases));
    }

    /// <summary>P(outcome | leak level, store): [store lost][level][outcome].</summary>
    public double[][][] Outcomes(ReadingError error, double bias, LeakLimit limit) => _outcomes.Of((error, bias, limit), () =>
        [.. new[] { false, true }.Select(lost => Each.Of(Enumerable.Range(0, LeakLimit.Levels), level => LeakOutcomes.Of(error, bias, limit, level, lost)))]);

    private static LeakTable Table(IReadOnlyList<WatchedPressure> runs, LeakLimit limit, double[] biases)
    {
        var integrals = Each.Of(biases.Distinct(), b => (b, LeakIntegral.Of(runs, b, limit, nodes: false))).ToDictionary();

        // one unit for all of a run's looks, whatever it is entered with: ratios of tables stay what they are
        double unit = runs.Sum(r => LeakUnit.Of(r));
        return new LeakTable(biases.Length, (bias, level, lost) =>
        {
            LeakIntegral integral = integrals[biases[bias]];
            return integral.At(level, lost) * Math.Exp(integral.LogScale - unit);
        });
    }

    private static string Words(double[] values) => string.Join(',', values.Select(v => v.ToString("R", CultureInfo.InvariantCulture)));
}

/// <summary>Densities of long runs are far from 1; halfway between a perfect fit and a slip they stay within what a double holds.</summary>
internal static class LeakUnit
{
    /// <summary>Natural logarithm, for all looks of a run together.</summary>
    public static double Of(WatchedPressure run) => -0.5 * run.Minutes.Length * Math.Log(run.Error.Range * Math.Sqrt(2 * Math.PI * run.Error.OwnVariance));
}
