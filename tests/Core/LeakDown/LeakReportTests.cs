using FuelHistory.Core.Assessment;
using FuelHistory.Core.LeakDown;
using Xunit;

namespace FuelHistory.Tests.Core.LeakDown;

/// <summary>The time constant whatever the law, and law by law, against a dense grid of time constants.</summary>
public sealed class LeakReportTests
{
    private static readonly LeakLimit Limit = LeakLimit.For(3, [(10, 1.7)])!;

    private static readonly InstrumentFact Gauge = new("gauge", 10, 1.6, 0.02, null, null, new DateOnly(2025, 1, 1));

    /// <summary>A steady fall; and all gone before the first look, where the laws' time constants lie far apart.</summary>
    public static TheoryData<double[]> Runs => [[2.7, 2.1, 1.3], [0.3, 0.03, 0.02]];

    [Theory]
    [MemberData(nameof(Runs))]
    public void Laws_each_have_the_probability_and_interval_of_a_dense_grid(double[] bar)
    {
        LeakReport report = LeakAnalysis.Of(Watch(bar))!;
        Dictionary<LeakLaw, (double[] X, double[] Weight)> grid = Grid(bar);
        double whole = grid.Values.Sum(g => g.Weight.Sum());

        Assert.Equal(1, report.Laws.Sum(l => l.Probability), 1e-9);
        foreach ((LeakLaw law, (double[] x, double[] weight)) in grid)
        {
            LawShare? share = report.Laws.SingleOrDefault(l => l.Id == LeakWords.Law(law).Id);
            Assert.Equal(weight.Sum() / whole, share?.Probability ?? 0, 2e-3);
            if (share?.Probability > 0.01)
            {
                Near(x, weight, share.Tau);
            }
        }

        Near([.. grid.Values.SelectMany(g => g.X)], [.. grid.Values.SelectMany(g => g.Weight)], report.Tau);
    }

    /// <summary>Gone at once, a collapse has a longer time constant than a seep that falls alike: one interval would pass over it.</summary>
    [Fact]
    public void Laws_of_what_is_gone_at_once_lie_apart()
    {
        LeakReport report = LeakAnalysis.Of(Watch([0.3, 0.03, 0.02]))!;

        Assert.True(report.Laws.Single(l => l.Id == "collapse").Tau.High > 1.5 * report.Tau.High);
    }

    private static void Near(double[] x, double[] weight, TimeConstant tau)
    {
        (double x, double w)[] points = [.. x.Zip(weight).OrderBy(p => p.First)];
        double whole = weight.Sum();
        foreach ((double share, double found) in new[] { (0.025, tau.Low), (0.5, tau.Median), (0.975, tau.High) })
        {
            // by probability, not by minutes: where there is little of it, a quantile may wander
            double below = points.Where(p => p.x < Math.Log(found)).Sum(p => p.w) / whole;
            Assert.InRange(below, share - 0.01, share + 0.01);
        }
    }

    private static Dictionary<LeakLaw, (double[] X, double[] Weight)> Grid(double[] bar)
    {
        LeakWatch watch = Watch(bar);
        var density = new RunDensity(Looks.Of(watch.Points.Select(p => (p.Minutes, p.Bar)), watch.Error(Limit, bar.Max())), 0, Limit);
        double low = Math.Log(Limit.TauRange(3, true).Shortest), high = Math.Log(Limit.TauRange(0, false).Longest);
        double[] x = [.. Enumerable.Range(0, 6000).Select(i => low + ((high - low) * (i + 0.5) / 6000))];
        return LeakLaws.All.ToDictionary(law => law, law => (x, x.Select(at => Prior(law, Math.Exp(at)) is > 0 and var prior
            ? prior * (density.Slip + (0.98 * density.At(law, Math.Exp(at), LeakNodes.NotWanted))) : 0).ToArray()));
    }

    private static double Prior(LeakLaw law, double tau) => new[] { false, true }.Sum(lost => Enumerable.Range(0, LeakLimit.Levels).Sum(level =>
    {
        (double shortest, double longest) = Limit.TauRange(level, lost);
        return tau >= shortest && tau < longest ? LeakLaws.Weight(law, lost) / 8 / Math.Log(longest / shortest) : 0;
    }));

    private static LeakWatch Watch(double[] bar) => new()
    {
        Points = [.. bar.Select((p, i) => new LeakPoint(new[] { 1.0, 4, 10 }[i], p))],
        From = 3,
        Limits = [(10, 1.7)],
        Instrument = Gauge,
        Day = new DateOnly(2025, 5, 1),
    };
}
