using System.Diagnostics;
using FuelHistory.Core.LeakDown;

namespace FuelHistory.Benchmarks.LeakDowns;

/// <summary>What came of many simulated leak-downs of one law.</summary>
internal sealed record LeakTally(int Runs, int CoveredOfLaw, int Covered, int Stopped, int Wrong, int Clear, double ClearSaved)
{
    public static LeakTally None { get; } = new(0, 0, 0, 0, 0, 0, 0);

    public LeakTally And(LeakTally o) => new(Runs + o.Runs, CoveredOfLaw + o.CoveredOfLaw, Covered + o.Covered, Stopped + o.Stopped, Wrong + o.Wrong, Clear + o.Clear, ClearSaved + o.ClearSaved);
}

/// <summary>Leak-downs drawn from the model, watched look by look until the verdict: coverage of the time constant's interval, wrong verdicts, time saved.</summary>
internal static class LeakTable
{
    /// <param name="drops">Runs that start from running pressure.</param>
    public static void Print(int runs, bool drops)
    {
        Console.WriteLine(drops ? "from running pressure" : "from the hold pressure");
        var clock = Stopwatch.StartNew();
        Console.WriteLine("          tau in its 95 % interval                              time saved, tau below half");
        Console.WriteLine("law       of its law   of all laws   stopped early   wrong   or above twice the limit's");
        LeakTally all = LeakTally.None;
        double ofLaw = 0, covered = 0;
        foreach (LeakLaw law in LeakLaws.All)
        {
            LeakTally tally = Of(law, runs, seed: 1, drops);
            all = all.And(tally);
            (ofLaw, covered) = (ofLaw + (DrawnShare(law) * tally.CoveredOfLaw / tally.Runs), covered + (DrawnShare(law) * tally.Covered / tally.Runs));
            Line(law.ToString().ToLowerInvariant(), tally);
        }

        Line("all", all);
        Console.WriteLine($"as often as section 6 draws each law: {100 * ofLaw:0.0} % and {100 * covered:0.0} %");
        Console.WriteLine($"{all.Runs} leak-downs in {clock.Elapsed.TotalSeconds:0} s");
    }

    public static LeakTally Of(LeakLaw law, int runs, int seed, bool drops) => Enumerable.Range(0, runs).AsParallel()
        .Select(i => One(new LeakDraw(law, new Random((seed * 1_000_003) + ((int)law * 100_003) + i), drops))).Aggregate(LeakTally.None, (a, b) => a.And(b));

    private static void Line(string name, LeakTally t) => Console.WriteLine(
        $"{name,-9} {100.0 * t.CoveredOfLaw / t.Runs,8:0.0} %   {100.0 * t.Covered / t.Runs,9:0.0} %   {100.0 * t.Stopped / t.Runs,11:0} %   {100.0 * t.Wrong / Math.Max(1, t.Stopped),4:0.0} %   {100 * t.ClearSaved / Math.Max(1, t.Clear),5:0} % (of {t.Clear})");

    /// <summary>The store lost as often as not.</summary>
    private static double DrawnShare(LeakLaw law) => (LeakLaws.Weight(law, true) + LeakLaws.Weight(law, false)) / 2;

    private static LeakTally One(LeakDraw draw)
    {
        LeakReport whole = Watched(draw, LeakDraw.LimitMinutes);
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
        bool Within(TimeConstant? c) => draw.Tau >= c?.Low && draw.Tau <= c.High;
        LawShare? own = whole.Laws.FirstOrDefault(l => l.Id == LeakWords.Law(draw.LawDrawn).Id);
        return new LeakTally(1, Within(own?.Tau) ? 1 : 0, Within(whole.Tau) ? 1 : 0, early ? 1 : 0, wrong ? 1 : 0, clear ? 1 : 0, clear ? 1 - (stopped / LeakDraw.LimitMinutes) : 0);
    }

    private static LeakReport Watched(LeakDraw draw, double minutes) => LeakAnalysis.Of(new LeakWatch
    {
        Points = draw.Points,
        From = LeakDraw.From,
        Running = draw.Running,
        Limits = [(LeakDraw.LimitMinutes, LeakDraw.LimitBar)],
        Instrument = LeakDraw.Gauge,
        Day = new DateOnly(2025, 5, 1),
        AsOfMinutes = minutes,
    })!;
}
