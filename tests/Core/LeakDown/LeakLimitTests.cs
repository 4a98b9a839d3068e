using FuelHistory.Core.LeakDown;

namespace FuelHistory.Tests.Core.LeakDown;

/// <summary>Limits of a leak-down as time constants.</summary>
public sealed class LeakLimitTests
{
    [Fact]
    public void Limit_pair_is_the_time_constant_between_its_points()
    {
        // source: Porsche 924 1981-82 workshop manual supplement, Haynes, fuel system, zanotowane.pl/1168/9738 (excerpt read): at least 2.0 bar at 10 min, 1.7 bar at 20 min
        // taken from the first point on: 10 min / ln(2.0 / 1.7) = 61.5 min
        LeakLimit limit = LeakLimit.For(2.0 * 1.15, [(10, 1.7 * 1.15)])!;

        Assert.Equal(61.5, limit.ShortestTau, 0.05);
        Assert.Equal(1.7 / 2.0, Math.Exp(-10 / limit.ShortestTau), 1e-12);
    }

    [Fact]
    public void Several_points_the_most_demanding_counts()
    {
        // source: the same limits with a hold of 2.35 bar: 10 min / ln(2.35 / 2.0) = 62.0 min; 20 min / ln(2.35 / 1.7) = 61.8 min
        LeakLimit limit = LeakLimit.For(2.35, [(10, 2.0), (20, 1.7)])!;

        Assert.Equal((10, 2.0), (limit.Minutes, limit.Low));
        Assert.Equal(62.0, limit.ShortestTau, 0.05);
    }

    [Fact]
    public void Supply_side_alone_is_judged_from_its_own_hold()
    {
        // source: Audi Coupe Quattro 20V 1990, fuel pressure testing and inspection, myvehicle.help (excerpt read): 49 psi (3.4 bar) 10 min after 5 bar
        Assert.Equal(25.9, LeakLimit.For(5.0, [(10, 3.4)])!.ShortestTau, 0.05);
    }

    [Fact]
    public void Hold_not_above_the_limit_is_raised_above_it()
    {
        // source: 107 series, M110 engine, fuel system tests (excerpt read): at least 2.5 bar at 30 min; a hold of 2.5 would leave no fall at all
        LeakLimit limit = LeakLimit.For(2.5, [(30, 2.5)])!;

        Assert.True(limit.From > 2.5);
        Assert.True(double.IsFinite(limit.ShortestTau) && limit.ShortestTau > 0);
    }

    [Fact]
    public void No_usable_point_is_no_limit() => Assert.Null(LeakLimit.For(3, [(0, 2), (10, 0)]));

    [Fact]
    public void Levels_meet_and_cover_everything_from_thirty_limits_down_to_a_thousandth()
    {
        LeakLimit limit = LeakLimit.For(3, [(10, 1.7)])!;
        (double Shortest, double Longest)[] ranges = [.. Enumerable.Range(0, 4).Select(l => limit.TauRange(l, false))];

        Assert.Equal(limit.ShortestTau, ranges[0].Shortest, 1e-12);
        Assert.Equal(30 * limit.ShortestTau, ranges[0].Longest, 1e-9);
        for (int l = 0; l < 3; l++)
        {
            Assert.Equal(ranges[l].Shortest, ranges[l + 1].Longest, 1e-12);
        }

        Assert.Equal(limit.ShortestTau / 1000, ranges[3].Shortest, 1e-12);
        Assert.Equal(ranges[2].Longest / 8, limit.TauRange(2, true).Longest, 1e-12);
    }
}
