using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.LeakDown;

/// <summary>Pressure that starts from running pressure and drops first (MODEL.md 6).</summary>
public sealed class DropTests
{
    private static readonly ReadingError Gauge = new(0.16 * 0.16 / 3, (0.02 * 0.02 / 12) + (0.03 * 0.03), 10, 10);

    private static readonly LeakLimit Limit = LeakLimit.For(3, [(10, 1.7)])! with { Running = 5 };

    private static readonly (double, double)[] Long = [(0.5, 3.6), (1, 3.4), (5, 3.1), (10, 2.9), (20, 2.6), (30, 2.4)];

    /// <summary>Level, store lost, and two looks: both in the drop, one in it, a hole, a collapse, a slow settling.</summary>
    [Theory]
    [InlineData(0, false, 0.5, 3.6, 1, 3.3)]
    [InlineData(1, false, 0.4, 3.4, 10, 1.5)]
    [InlineData(1, false, 0.5, 3.2, 8, 0.6)]
    [InlineData(2, false, 0.5, 2.9, 4, 0.4)]
    [InlineData(0, true, 0.6, 2.7, 3, 1.4)]
    public void At_with_a_drop_equals_the_plain_sum_over_grids(int level, bool lost, double t1, double p1, double t2, double p2)
    {
        WatchedPressure[] run = [new([t1, t2], [p1, p2], Gauge)];

        Assert.InRange(Density(run, level, lost) / new BruteForce(Limit, Gauge).Level(run, level, lost), 1 - 2e-4, 1 + 2e-4);
    }

    [Fact]
    public void At_looks_after_the_drop_do_not_ask_how_it_was()
    {
        WatchedPressure[] run = [new([2, 10], [2.8, 2.6], Gauge)];

        Assert.Equal(Density(run, 0, false), Density(run, 0, false, Limit with { Running = 3 }), 1e-12);
    }

    [Theory]
    [InlineData("continuous-mechanical")]
    [InlineData("continuous-electro-hydraulic")]
    public void Long_run_and_its_reading_at_ten_minutes_lead_the_same_way_the_long_one_further(string model)
    {
        // an invented run of a sound circuit, its first fall over within a minute
        LeakReport whole = Watched(model, null, Long), single = Watched(model, null, [(10, 2.9)]);

        double Odds(LeakReport r) => r.Levels[0] / (1 - r.Levels[0]) * 3;
        Assert.True(Odds(single) > 1.5, $"{Odds(single)}");
        Assert.True(Odds(whole) > Odds(single), $"{Odds(whole)} {Odds(single)}");
        Assert.True(whole.Slip < 0.1, $"{whole.Slip}");
    }

    public static TheoryData<double?, bool> Stated => new() { { null, false }, { 5.4, false }, { 5.4, true }, { 2.7, false } };

    /// <summary>Running 5.4 bar, at once 2.7, at 5 min 0.3, where about 2 bar should stand for half an hour; whatever pressure was stated for this car.</summary>
    [Theory]
    [MemberData(nameof(Stated))]
    public void Drop_and_then_gone_is_a_fast_loss_and_no_slip(double? from, bool first)
    {
        (double, double)[] run = first ? [(0, 5.4), (0.1, 2.7), (5, 0.3)] : [(0.5, 2.7), (5, 0.3)];
        LeakReport report = Watched("continuous-electro-hydraulic", from, run), sound = Watched("continuous-electro-hydraulic", from, run, store: false);

        Assert.True(report.Levels[0] < 0.02, string.Join(' ', report.Levels));
        Assert.True(sound.Levels[2] + sound.Levels[3] > (first ? 0.8 : 0.9), string.Join(' ', sound.Levels));
        Assert.True(report.Slip < 0.05, $"{report.Slip}");
        Assert.True(report.Holds < 0.01, $"{report.Holds}");
    }

    [Theory]
    [MemberData(nameof(Stated))]
    public void Start_at_the_hold_pressure_and_next_to_nothing_lost_is_holding(double? from, bool first)
    {
        (double, double)[] run = first ? [(0, 2.7), (10, 2.68)] : [(0.5, 2.7), (10, 2.68)];
        LeakReport report = Watched("continuous-electro-hydraulic", from, run);

        Assert.True(report.Levels[0] > (first ? 0.5 : 0.8), string.Join(' ', report.Levels));
        Assert.True(report.Slip < 0.05, $"{report.Slip}");
    }

    [Fact]
    public void Forecast_before_the_first_look_falls_from_running_pressure_to_the_hold_pressure()
    {
        LeakReport report = Watched("continuous-mechanical", null, []);

        Assert.InRange(report.Forecast[0].Median, 4.5, 5.5);
        Assert.InRange(report.Good[2], 2.7, 3.2);
    }

    [Theory]
    [InlineData("continuous-mechanical", 3.0)]
    [InlineData("port-airflow", 2.2)]
    [InlineData("single-point", 0.9)]
    public void Limit_counts_from_the_hold_pressure(string model, double hold) =>
        Assert.Equal((hold, true), (LimitOf(model, null).From, LimitOf(model, null).Running > hold));

    private static LeakLimit LimitOf(string model, CarLimit? own) => LeakLimit.For(Whole(model).Limits!, own)!;

    private static Check Whole(string model) => RealModels.Model(model).Checks.Single(c => c.Id == "leak-down-whole");

    private static LeakReport Watched(string model, double? from, (double Minutes, double Bar)[] run, bool store = true)
    {
        CarLimit? own = from is null && model != "continuous-electro-hydraulic" ? null
            : new CarLimit("l", "leak-down-whole", null, null, from, [new LimitPoint { Minutes = 30, Low = 2 }]);
        InstrumentFact gauge = new("gauge", 10, 1.6, 0.02, null, null, new DateOnly(2025, 1, 1));
        LeakWatch watch = LeakWatch.Of(Whole(model), own, gauge, new DateOnly(2025, 5, 1), [.. run.Select(p => new LeakPoint(p.Minutes, p.Bar))]);
        return LeakAnalysis.Of(watch with { Prior = LeakPrior.Flat(store) })!;
    }

    private static double Density(WatchedPressure[] runs, int level, bool lost, LeakLimit? limit = null)
    {
        LeakIntegral integral = LeakIntegral.Of(runs, 0, limit ?? Limit, nodes: false);
        return integral.At(level, lost) * Math.Exp(integral.LogScale);
    }
}
