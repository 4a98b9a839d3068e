using System.Diagnostics;
using FuelHistory.Core.LeakDown;

namespace FuelHistory.Benchmarks.LeakDowns;

/// <summary>What came of many simulated leak-downs of one law.</summary>
internal sealed record LeakTally(int Runs, int Covered, int Stopped, int Wrong, int Clear, double ClearSaved)
{
    public static LeakTally None { get; } = new(0, 0, 0, 0, 0, 0);

    public LeakTally And(LeakTally o) => new(Runs + o.Runs, Covered + o.Covered, Stopped + o.Stopped, Wrong + o.Wrong, Clear + o.Clear, ClearSaved + o.ClearSaved);
}

/// <summary>Leak-downs drawn from the model, watched look by look until the verdict: coverage of the time constant's interval, wrong verdicts, time saved.</summary>
internal static class LeakTable
{
    public static void Print(int runs)
    {
        var clock = Stopwatch.StartNew();
        Console.WriteLine("law       tau in its 95 % interval   stopped early   of those wrong   time saved, tau below half or above twice the limit's");
        LeakTally all = LeakTally.None;
        foreach (LeakLaw law in LeakLaws.All)
        {
            LeakTally tally = Of(law, runs, seed: 1);
            all = all.And(tally);
            Line(law.ToString().ToLowerInvariant(), tally);
        }

        Line("all", all);
        Console.WriteLine($"{all.Runs} leak-downs in {clock.Elapsed.TotalSeconds:0} s");
    }

    public static LeakTally Of(LeakLaw law, int runs, int seed) => Enumerable.Range(0, runs).AsParallel()
        .Select(i => One(new LeakDraw(law, new Random((seed * 1_000_003) + ((int)law * 100_003) + i)))).Aggregate(LeakTally.None, (a, b) => a.And(b));

    private static void Line(string name, LeakTally t) => Console.WriteLine(
        $"{name,-9} {100.0 * t.Covered / t.Runs,10:0.0} %             {100.0 * t.Stopped / t.Runs,8:0} %        {100.0 * t.Wrong / Math.Max(1, t.Stopped),8:0.0} %        {100 * t.ClearSaved / Math.Max(1, t.Clear),8:0} % (of {t.Clear})");

    private static LeakTally One(LeakDraw draw)
    {
        TimeConstant whole = Watched(draw, LeakDraw.LimitMinutes).Tau;
        double tauLimit = LeakDraw.LimitMinutes / Math.Log(LeakDraw.From / LeakDraw.LimitBar), stopped = LeakDraw.LimitMinutes;
        bool wrong = false;
        foreach (double minutes in LeakDraw.Looks.Where(m => m < LeakDraw.LimitMinutes))
        {
            LeakVerdict verdict = Watched(draw, minutes).Verdict;
            if (verdict != LeakVerdict.GoOn)
            {
                (stopped, wrong) = (minutes, verdict == LeakVerdict.StopHolds != draw.Holds);
                break;
            }
        }

        bool early = stopped < LeakDraw.LimitMinutes, clear = draw.Tau < tauLimit / 2 || draw.Tau > 2 * tauLimit;
        bool covered = draw.Tau >= whole.Low && draw.Tau <= whole.High;
        return new LeakTally(1, covered ? 1 : 0, early ? 1 : 0, wrong ? 1 : 0, clear ? 1 : 0, clear ? 1 - (stopped / LeakDraw.LimitMinutes) : 0);
    }

    private static LeakReport Watched(LeakDraw draw, double minutes) => LeakAnalysis.Of(new LeakWatch
    {
        Points = draw.Points,
        From = LeakDraw.From,
        Limits = [(LeakDraw.LimitMinutes, LeakDraw.LimitBar)],
        Instrument = LeakDraw.Gauge,
        Day = new DateOnly(2025, 5, 1),
        AsOfMinutes = minutes,
    })!;
}
