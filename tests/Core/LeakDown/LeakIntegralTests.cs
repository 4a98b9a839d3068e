using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;

namespace FuelHistory.Tests.Core.LeakDown;

/// <summary>The integrals over law, time constant and hidden pressures against plain sums over fine grids.</summary>
public sealed class LeakIntegralTests
{
    private static readonly LeakLimit Limit = LeakLimit.For(3, [(10, 1.7)])!;

    private static readonly ReadingError Gauge = new(0.16 * 0.16 / 3, (0.02 * 0.02 / 12) + (0.03 * 0.03), 10, 10);

    /// <summary>Level, store lost, and two looks: a seep, a hole, a collapse between the looks, a settling.</summary>
    public static TheoryData<int, bool, double, double, double, double> Cases => new()
    {
        { 0, false, 2, 2.8, 10, 2.6 },
        { 1, false, 5, 1.9, 10, 1.3 },
        { 1, false, 5, 2.1, 10, 0.1 },
        { 2, false, 1, 2.2, 4, 0.9 },
        { 0, true, 1, 1.6, 5, 1.1 },
        { 2, true, 0.4, 1.5, 2, 0.2 },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void At_equals_the_plain_sum_over_grids(int level, bool lost, double t1, double p1, double t2, double p2)
    {
        WatchedPressure[] run = [new([t1, t2], [p1, p2], Gauge)];

        Assert.InRange(Density(run, level, lost) / new BruteForce(Limit, Gauge).Level(run, level, lost), 1 - 2e-4, 1 + 2e-4);
    }

    [Fact]
    public void At_two_runs_share_level_tau_and_law_and_not_the_hold()
    {
        WatchedPressure[] runs = [new([4, 10], [2.0, 1.2], Gauge), new([10, 20], [1.1, 0.5], Gauge)];

        Assert.InRange(Density(runs, 1, false) / new BruteForce(Limit, Gauge).Level(runs, 1, false), 1 - 2e-4, 1 + 2e-4);
    }

    /// <summary>Many looks make peaks so sharp that a fixed grid would step over them.</summary>
    [Theory]
    [InlineData("Seep", 30, 1, false)]
    [InlineData("Orifice", 30, 1, false)]
    [InlineData("Collapse", 12, 1, false)]
    [InlineData("Settle", 30, 1, true)]
    [InlineData("Seep", 170, 0, false)]
    public void At_sharp_peaks_equals_a_dense_sum_over_tau(string law, int looks, int level, bool lost)
    {
        WatchedPressure run = Watched(Enum.Parse<LeakLaw>(law), looks);
        var density = new RunDensity(run, 0, Limit);
        (double shortest, double longest) = Limit.TauRange(level, lost);
        const int Steps = 3000;
        double sum = density.Slip;
        foreach (LeakLaw each in LeakLaws.All.Where(l => LeakLaws.Weight(l, lost) > 0))
        {
            for (int i = 0; i < Steps; i++)
            {
                sum += 0.98 * LeakLaws.Weight(each, lost) / Steps * density.At(each, shortest * Math.Pow(longest / shortest, (i + 0.5) / Steps), LeakNodes.NotWanted);
            }
        }

        LeakIntegral integral = LeakIntegral.Of([run], 0, Limit, nodes: false);
        Assert.InRange(integral.At(level, lost) * Math.Exp(integral.LogScale - density.LogUnit) / sum, 1 - 1e-4, 1 + 1e-4);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(25)]
    public void Density_settling_at_a_tau_equals_a_fine_grid_over_its_two_parameters(int looks)
    {
        WatchedPressure run = Watched(LeakLaw.Settle, looks);
        var density = new RunDensity(run, 0, Limit);
        const int Steps = 700;
        double sum = 0;
        for (int i = 0; i < Steps; i++)
        {
            double ts = 0.3 + (0.9 * (i + 0.5) / Steps);
            for (int j = 0; j < Steps; j++)
            {
                double f = 0.2 + (0.35 * (j + 0.5) / Steps);
                double[] curve = [.. run.Minutes.Select(t => LeakLaws.Settle(t, 12, f, ts))];
                for (int h = 0; h < 3; h++)
                {
                    (double e, double mean, double precision) = density.One(curve, h).At(0);
                    sum += LeakLaws.Soaks[h].Weight * density.Whole(e, mean, precision) / Steps / Steps;
                }
            }
        }

        Assert.InRange(density.At(LeakLaw.Settle, 12, LeakNodes.NotWanted) / sum, 1 - 1e-4, 1 + 1e-4);
    }

    [Fact]
    public void At_a_run_of_no_looks_is_certain_at_every_level()
    {
        LeakIntegral integral = LeakIntegral.Of([new WatchedPressure([], [], Gauge)], 0, Limit, nodes: false);

        Assert.All(Enumerable.Range(0, 8), i => Assert.Equal(1, integral.At(i % 4, i > 3) * Math.Exp(integral.LogScale), 1e-4));
    }

    [Fact]
    public void At_looks_that_fit_nothing_are_a_slip_at_every_level()
    {
        // up and down by bars: 300 looks, no law does that, and no number overflows or vanishes
        double[] minutes = [.. Enumerable.Range(1, 300).Select(i => 0.3 * i)];
        var run = new WatchedPressure(minutes, [.. minutes.Select((_, i) => i % 2 == 0 ? 9.0 : 0.5)], Gauge);
        LeakIntegral integral = LeakIntegral.Of([run], 0, Limit, nodes: false);

        double expected = Math.Log(0.02) - (300 * Math.Log(10));
        Assert.All(Enumerable.Range(0, 8), i => Assert.Equal(expected, Math.Log(integral.At(i % 4, i > 3)) + integral.LogScale, 1e-6));
    }

    [Theory]
    [InlineData(true, 22, 12)]
    [InlineData(false, 10, 4)]
    public void Rules_are_exact_for_polynomials_up_to_their_degrees(bool large, int kronrodDegree, int gaussDegree)
    {
        GaussKronrod rule = large ? GaussKronrod.Large : GaussKronrod.Small;
        for (int degree = 0; degree <= kronrodDegree; degree += 2)
        {
            double kronrod = rule.Nodes.Zip(rule.Kronrod, (x, w) => w * Math.Pow(x, degree)).Sum();
            double gauss = rule.Nodes.Zip(rule.Gauss, (x, w) => w * Math.Pow(x, degree)).Sum();

            Assert.Equal(2.0 / (degree + 1), kronrod, 1e-14);
            Assert.Equal(degree <= gaussDegree, Math.Abs(gauss - (2.0 / (degree + 1))) < 1e-14);
        }
    }

    [Fact]
    public void Density_ten_looks_of_one_moment_do_not_count_ten_times()
    {
        double Ratio(int n)
        {
            WatchedPressure run = Looks.Of(Enumerable.Range(0, n).Select(i => (10 + (0.05 * i), 1.2)), Gauge);
            return Math.Log(Density([run], 1, false) / Density([run], 0, false));
        }

        Assert.True(Ratio(1) > Math.Log(1.5));
        Assert.InRange(Ratio(10) / Ratio(1), 0.7, 1.5);
    }

    private static double Density(WatchedPressure[] runs, int level, bool lost)
    {
        LeakIntegral integral = LeakIntegral.Of(runs, 0, Limit, nodes: false);
        return integral.At(level, lost) * Math.Exp(integral.LogScale);
    }

    /// <summary>On the law's own curve, with a scatter that repeats.</summary>
    private static WatchedPressure Watched(LeakLaw law, int looks)
    {
        double[] minutes = [.. Enumerable.Range(1, looks).Select(i => 10.0 * i / looks)];
        return new WatchedPressure(minutes, [.. minutes.Select((t, i) => (0.03 * Math.Sin(1 + (7 * i))) + (3.1 * (law switch
        {
            LeakLaw.Seep => Math.Exp(-t / (looks > 100 ? 60 : 12)),
            LeakLaw.Orifice => Math.Pow(Math.Max(0, 1 - (t / 24)), 2),
            LeakLaw.Collapse => LeakLaws.Collapse(t, 12, 0.4),
            _ => LeakLaws.Settle(t, 12, 0.4, 0.7),
        })))], Gauge);
    }
}
