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
        if (Environment.GetEnvironmentVariable("PARTS") is not null)
        {
            WatchedPressure run = Looks.Of(watch.Points.Select(p => (p.Minutes, p.Bar)), watch.Error(watch.Limit!, 3));
            for (int i = 0; i < 6; i++)
            {
                var a = Stopwatch.StartNew();
                LeakIntegral.Of([run], 0, watch.Limit!, false);
                double plain = a.Elapsed.TotalMilliseconds;
                a.Restart();
                LeakIntegral.Of([run], 0, watch.Limit!, true);
                double nodes = a.Elapsed.TotalMilliseconds;
                a.Restart();
                LeakPosterior p = LeakPosterior.Of(run, watch.Limit!, watch.Prior);
                double post = a.Elapsed.TotalMilliseconds;
                a.Restart();
                LeakCurves c = p.Curves();
                double curves = a.Elapsed.TotalMilliseconds;
                a.Restart();
                for (int k = 0; k < 41; k++) c.Band(k * 0.3);
                double band = a.Elapsed.TotalMilliseconds;
                a.Restart();
                p.Tau(); p.Shapes(10);
                double tau = a.Elapsed.TotalMilliseconds;
                if (i == 5) Console.WriteLine($"n {run.Minutes.Length} integral {plain:0.0} with nodes {nodes:0.0} posterior {post:0.0} curves {curves:0.0} bands {band:0.0} tau {tau:0.0}");
            }
        }

        return Enumerable.Range(0, runs).Select(_ =>
        {
            var clock = Stopwatch.StartNew();
            LeakAnalysis.Of(watch);
            return clock.Elapsed.TotalMilliseconds;
        }).Order().ElementAt(runs / 2);
    }
}
