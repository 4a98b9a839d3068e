using System.Diagnostics;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.LeakDown;

namespace FuelHistory.Benchmarks.LeakDowns;

/// <summary>How long an analysis takes: thirty readings, one more, and a logger's eighteen thousand, per law.</summary>
internal static class LeakSpeed
{
    public static void Print()
    {
        Console.WriteLine("law       3 readings   30 readings   31   18000 samples   (ms, median of runs)");
        foreach (LeakLaw law in LeakLaws.All)
        {
            var draw = new LeakDraw(law, new Random(7));
            Console.WriteLine($"{law.ToString().ToLowerInvariant(),-9} {Time(draw, 3, 10, 15),10:0.0} {Time(draw, 30, 10, 15),13:0.0} {Time(draw, 31, 10.3, 15),9:0.0} {Time(draw, 18000, 30, 5),12:0.0}");
        }
    }

    private static double Time(LeakDraw draw, int points, double until, int runs)
    {
        var random = new Random(3);
        var watch = new LeakWatch
        {
            Points = [.. Enumerable.Range(1, points).Select(i => until * i / points).Select(t => new LeakPoint(t, draw.Shown(t) + (0.06 * (random.NextDouble() - 0.5))))],
            From = LeakDraw.From,
            Limits = [(LeakDraw.LimitMinutes, LeakDraw.LimitBar)],
            Instrument = LeakDraw.Gauge,
            Day = new DateOnly(2025, 5, 1),
        };
        return Enumerable.Range(0, runs).Select(_ =>
        {
            var clock = Stopwatch.StartNew();
            LeakAnalysis.Of(watch);
            return clock.Elapsed.TotalMilliseconds;
        }).Order().ElementAt(runs / 2);
    }
}
