using System.Globalization;
using MathNet.Numerics.Distributions;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>Forecasts beside what came true, in ten bins.</summary>
internal sealed class Reliability(string what)
{
    private readonly List<(double Forecast, bool Happened)> _pairs = [];

    public void Add(double forecast, bool happened) => _pairs.Add((forecast, happened));

    /// <summary>Per bin: mean forecast, share that came true with its 95 % interval (Clopper and Pearson 1934), how many.</summary>
    public void Print()
    {
        Console.WriteLine($"{what}: forecast, seen (95 % interval), count");
        foreach (var bin in _pairs.GroupBy(p => Math.Min(9, (int)(p.Forecast * 10))).OrderBy(b => b.Key))
        {
            int n = bin.Count(), seen = bin.Count(p => p.Happened);
            double low = seen == 0 ? 0 : Beta.InvCDF(seen, n - seen + 1, 0.025), high = seen == n ? 1 : Beta.InvCDF(seen + 1, n - seen, 0.975);
            double forecast = bin.Average(p => p.Forecast);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {forecast:0.000}  {(double)seen / n:0.000} ({low:0.000} to {high:0.000}){(forecast < low || forecast > high ? " *" : "  ")} {n}"));
        }

        double expected = _pairs.Sum(p => p.Forecast), spread = Math.Sqrt(_pairs.Sum(p => p.Forecast * (1 - p.Forecast)));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  all: {expected:0} ± {1.96 * spread:0} expected, {_pairs.Count(p => p.Happened)} seen; a bin outside its interval is marked *, one in twenty would be by chance"));
    }
}
