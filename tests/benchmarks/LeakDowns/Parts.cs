using System.Diagnostics;
using FuelHistory.Core.LeakDown;
namespace FuelHistory.Benchmarks.LeakDowns;
internal static class Parts
{
    public static void Print(LeakWatch watch)
    {
        WatchedPressure run = Looks.Of(watch.Points.Select(p => (p.Minutes, p.Bar)), watch.Error(watch.Limit!, 3));
        var l = watch.Limit!;
        LeakPosterior p = LeakPosterior.Of(run, l, watch.Prior);
        LeakCurves c = p.Curves();
        LeakIntegral it = LeakIntegral.Of([run], 0, l, true);
        Console.WriteLine($"n {run.Minutes.Length} plain {Best(() => LeakIntegral.Of([run], 0, l, false))} integral {Best(() => LeakIntegral.Of([run], 0, l, true))} #{it.Nodes(watch.Prior).Count()} posterior {Best(() => LeakPosterior.Of(run, l, watch.Prior))} curves {Best(() => p.Curves())} bands {Best(() => { for (int k = 0; k < 41; k++) c.Band(k * 0.3); })} tau {Best(() => p.Tau())} laws {Best(() => p.Laws())} shapes {Best(() => p.Shapes(10))}");
        foreach (LeakLaw law in LeakLaws.All)
        {
            var d = new RunDensity(run, 0, l, 0, true);
            Console.Write($"   {law}: whole {Best(() => { for (int i = 0; i < 300; i++) d.At(law, l.ShortestTau * Math.Exp(-9 + i * 12.4 / 300), LeakNodes.NotWanted); })} best {Best(() => d.At(law, 12, LeakNodes.NotWanted))}");
        }
        Console.WriteLine();
    }
    static string Best(Action a)
    {
        double best = 1e9;
        for (int i = 0; i < 25; i++) { var w = Stopwatch.StartNew(); a(); best = Math.Min(best, w.Elapsed.TotalMilliseconds); }
        return best.ToString("0.00");
    }
}
