using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Facts;
using FuelHistory.Host.Validation;

namespace FuelHistory.Tests.Host;

/// <summary>Entries in the terms of the computation.</summary>
public sealed class RecordFactsTests
{
    private static readonly EntryHead Head = new("a", 1, DateTimeOffset.UnixEpoch);
    private static readonly DateOnly AsOf = new(2026, 6, 15);
    private readonly RecordFacts facts;

    public RecordFactsTests()
    {
        var model = FaultModelReader.Read(File.ReadAllText(Path.Combine(ApiHost.TestModels, "test", "model.json")));
        Vehicle vehicle = new(Head, "x", "1981", model.Id, "km", null, null, false, null, false);
        facts = new RecordFacts(new Car(vehicle, model), AsOf, new Dictionary<string, DateTimeOffset> { ["a"] = DateTimeOffset.UnixEpoch });
    }

    [Fact]
    public void Odometer_adds_up_over_a_changed_clock_and_reads_miles()
    {
        var fixes = facts.Odometer(
            [Reading("2015", 4000, "km"), Reading("2010-05-01", 120000, "km"), Reading("2012-05-01", 130000, "km", 10), Reading("2016-05-01", 5000, "mi")],
            []);

        Assert.Equal([120000, 130000, 130000 - 10 + 4000, 130000 - 10 + (5000 * 1.609344)], fixes.Select(f => Math.Round(f.Km, 6)));
    }

    [Fact]
    public void Odometer_figure_of_vague_work_that_would_run_backwards_is_left_out()
    {
        Work work = new(Head, "v", "2011", "fitted", ["fuel-pump"], "told", null, "new", null, new Measured(90000, "km"), null, null, null, "unknown", null);

        var fix = Assert.Single(facts.Odometer([Reading("2010-05-01", 120000, "km")], [work]));
        Assert.Equal(new OdometerFix(new DateOnly(2010, 5, 1), 120000), fix);
    }

    [Fact]
    public void Day_of_a_vague_date_is_its_middle_and_never_after_the_assessment()
    {
        Assert.Equal(new DateOnly(1987, 7, 2), facts.Day("1987"));
        Assert.Equal(AsOf, facts.Day("2026"));
        Assert.Equal(new DateOnly(1981, 7, 2), facts.FirstUse([]));
        Assert.Equal(new DateOnly(1981, 2, 15), facts.FirstUse(["1981-02"]));
    }

    [Fact]
    public void Entries_that_are_void_or_come_later_have_not_happened()
    {
        LayUp[] layUps = [new(Head, "v", "2020", "2021", null), new(Head with { VoidReason = "x" }, "v", "2015", null, null), new(Head, "v", "2026-07", null, null), new(Head, "v", "2026-05", "2026-08", null)];

        var spans = facts.Happened(layUps, l => l.Entry, l => l.From).Select(facts.Span).ToList();

        Assert.Equal([new DateOnly(2021, 7, 2), null], spans.Select(s => s.To));
    }

    [Fact]
    public void Reading_and_gauge_are_turned_into_the_unit_of_the_quantity()
    {
        Finding finding = new(Head, "v", null, new DateTimeOffset(2026, 6, 15, 0, 30, 0, TimeSpan.FromHours(2)), null, "control-pressure", null, null, null, true, new Measured(300, "kPa"), null, "g",
            new Dictionary<string, Measured> { ["ambient"] = new(68, "F") }, null, "yes", null, "");
        Instrument thermometer = new(Head, "t", "temperature", "°F", 212, 1, 0.9, null, null, "2025", null);

        var seen = facts.Of(finding);
        Assert.Equal((3, 20, "2026-06-15"), (Math.Round(seen.Value!.Value, 9), Math.Round(seen.Covariates["ambient"], 9), seen.Session));
        Assert.Equal(new DateOnly(2026, 6, 15), seen.Day);
        Assert.Equal(0.5, RecordFacts.Of(thermometer).Resolution!.Value, 1e-9);
    }

    private static Odometer Reading(string date, double value, string unit, double? newClock = null) =>
        new(Head, "v", date, new Measured(value, unit), newClock is { } c ? new Measured(c, unit) : null, null);
}
