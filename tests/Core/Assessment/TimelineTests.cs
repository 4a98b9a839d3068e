using FuelHistory.Core.Assessment;
using FuelHistory.Core.Life;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Which finding lies before which repair.</summary>
public sealed class TimelineTests
{
    private static readonly DateTimeOffset Ten = new(2024, 6, 1, 10, 0, 0, TimeSpan.Zero);

    private static Observation Finding(string id, DateTimeOffset at, double recorded) => new()
    {
        Id = id,
        ComplaintId = "c",
        At = at,
        Day = DateOnly.FromDateTime(at.DateTime),
        RecordedAt = Ten.AddSeconds(recorded),
        Session = "s",
        Event = "hard-start-hot",
        Outcome = "present",
    };

    private static WorkFact Fitted(double recorded, DateTimeOffset? at = null, DaySpan? within = null, DateOnly? day = null) =>
        new("w", day ?? RealCase.Day, WorkAction.Fitted, ["check-valve"], Known.DidIt, PartQuality.New, Ten.AddSeconds(recorded), At: at, Within: within);

    private static Investigation Laid(WorkFact work, params Observation[] findings) => Investigation.From(
        RealCase.Compiled.Index, new AssessmentInput(new CarRecord { FirstUse = new DateOnly(1981, 6, 1), Work = [work], Findings = findings }, new ComplaintFact("c", RealCase.Day.AddDays(-14), false, false), RealCase.Day));

    private static string[] After(Investigation investigation) => [.. investigation.Findings.Where((_, i) => investigation.StretchOf(i) == 1).Select(f => f.Id)];

    [Fact]
    public void Work_and_finding_of_one_instant_count_in_the_order_of_recording()
    {
        Assert.Equal(["late"], After(Laid(Fitted(2, Ten), Finding("early", Ten, 1), Finding("late", Ten, 3))));
        Assert.Equal(["late"], After(Laid(Fitted(2, Ten.AddMilliseconds(700)), Finding("early", Ten.AddMilliseconds(900), 1), Finding("late", Ten.AddMilliseconds(100), 3))));
    }

    /// <summary>A time typed to the minute lies before one that a clock took, though it was entered after it.</summary>
    [Fact]
    public void Work_without_an_instant_goes_by_the_order_of_recording_whatever_the_findings_instants_are()
    {
        Investigation laid = Laid(Fitted(50), Finding("opening", Ten.AddSeconds(40), 40), Finding("typed", Ten, 60));

        Assert.Equal(["typed"], After(laid));
        Assert.Equal(["opening", "typed"], laid.Findings.Select(f => f.Id));
    }

    [Fact]
    public void Work_in_a_span_that_reaches_across_a_finding_counts_by_its_middle_and_asks()
    {
        DaySpan month = new(new DateOnly(2024, 5, 20), new DateOnly(2024, 6, 20));
        Investigation laid = Laid(Fitted(1, within: month, day: new DateOnly(2024, 5, 25)), Finding("f", Ten, 2));

        Assert.Equal(1, laid.Stretches);
        Assert.Contains("before or after", Assert.Single(laid.Asks), StringComparison.Ordinal);
        Assert.Empty(Laid(Fitted(1), Finding("f", Ten, 2)).Asks);
        Assert.Empty(Laid(Fitted(1, within: new DaySpan(month.From.AddYears(-9), month.To.AddYears(-1)), day: month.From.AddYears(-4)), Finding("f", Ten, 2)).Asks);
    }

    [Fact]
    public void Inspection_with_a_result_during_the_complaint_is_a_finding_in_its_place()
    {
        WorkFact look = new("w", RealCase.Day, WorkAction.Inspected, ["accumulator"], Known.Seen, PartQuality.Unknown, Ten.AddSeconds(5), Found: new LookResult(true, "ruptured"));
        Investigation laid = Laid(look, Finding("f", Ten, 2));

        Assert.Equal(["f", "w"], laid.Findings.Select(f => f.Id));
        Assert.Equal(("accumulator", "bad", "ruptured"), (laid.Findings[1].Component, laid.Findings[1].Outcome, laid.Findings[1].Mode));
        Assert.Empty(laid.History);
    }
}
