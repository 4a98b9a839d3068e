using System.Diagnostics;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.LeakDown;

namespace FuelHistory.Benchmarks.LeakDowns;

/// <summary>How long an analysis takes: thirty readings, one more, and a logger's eighteen thousand, per law.</summary>
internal static class LeakSpeed
{
    public static void Print(bool drops)
    {
        Console.WriteLine("law        3 readings    30 readings   31            18000 samples (ms, best and median of runs)");
        foreach (LeakLaw law in LeakLaws.All)
        {
            var draw = new LeakDraw(law, new Random(7), drops);
            Console.WriteLine($"{law.ToString().ToLowerInvariant(),-9} {Time(draw, 3, 10, 40)} {Time(draw, 30, 10, 40)} {Time(draw, 31, 10.3, 40)} {Time(draw, 18000, 30, 8)}");
        }
    }

    private static string Time(LeakDraw draw, int points, double until, int runs)
    {
        var random = new Random(3);
        var watch = new LeakWatch
        {
            Points = [.. Enumerable.Range(1, points).Select(i => until * i / points).Select(t => new LeakPoint(t, draw.Shown(t) + (0.06 * (random.NextDouble() - 0.5))))],
            From = LeakDraw.From,
            Running = draw.Running,
            Limits = [(LeakDraw.LimitMinutes, LeakDraw.LimitBar)],
            Instrument = LeakDraw.Gauge,
            Day = new DateOnly(2025, 5, 1),
        };
        double[] took = [.. Enumerable.Range(0, runs).Select(_ =>
        {
            var clock = Stopwatch.StartNew();
            LeakAnalysis.Of(watch);
            return clock.Elapsed.TotalMilliseconds;
        }).Order()];
        return $"{took[0],6:0.0} {took[runs / 2],6:0.0}";
    }
}
