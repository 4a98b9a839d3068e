using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Next year the same car comes back: last year's findings count for what was not touched.</summary>
public class CarryOverTests
{
    private static readonly CompiledModel Model = new(FaultModelReader.Read(ModelFile.Text));
    private static readonly ComplaintFact First = new("first", new DateOnly(2024, 6, 1), false, false), Second = new("second", new DateOnly(2025, 6, 1), false, false);

    [Fact]
    public void Run_part_proved_good_last_year_is_suspected_less_this_year()
    {
        double[] bad = [.. new[] { false, true }.Select(carried => Bad("accumulator", carried))];
        Assert.True(bad[1] < 0.8 * bad[0], $"without {bad[0]}, with {bad[1]}");
    }

    [Fact]
    public void Run_part_fitted_last_year_is_judged_as_a_new_part_not_by_the_fault_of_the_old_one()
    {
        double[] bad = [.. new[] { false, true }.Select(carried => Bad("pressure-regulator", carried))];
        Assert.InRange(bad[1] / bad[0], 0.5, 1.5);
    }

    [Fact]
    public void Run_earlier_complaint_is_named_among_the_reasons()
    {
        var answer = (Answered)Assess.Run(Model, Input(true));
        Assert.Contains(answer.Ranking.Single(r => r.Component == "accumulator").Why, w => w is { Kind: "complaint", Id: "first", Factor: < 1 });
    }

    private static double Bad(string component, bool carried) =>
        ((Answered)Assess.Run(Model, Input(carried))).Ranking.Single(r => r.Component == component).Bad;

    private static AssessmentInput Input(bool carried) => new(
        new CarRecord
        {
            FirstUse = new DateOnly(1981, 5, 1),
            Work = [new WorkFact("seal", new DateOnly(2024, 6, 4), WorkAction.Fitted, ["pressure-regulator"], Known.DidIt, PartQuality.New, At(2024, 4, 12), At: At(2024, 4, 12))],
            Findings = [.. new[]
            {
                Found("hot", 2024, 3, First) with { Event = "hard-start-hot", Outcome = "present" },
                Found("bleed", 2024, 3, First) with { Check = "bleed-recover", Outcome = "no" },
                Found("shut", 2024, 3, First) with { Check = "leak-down-return-shut", Outcome = "hold" },
                Found("gone", 2024, 5, First) with { Event = "hard-start-hot", Outcome = "absent" },
                Found("again", 2025, 3, Second) with { Event = "hard-start-hot", Outcome = "present" },
            }.Where(f => carried || f.ComplaintId == "second")],
            Closed = carried ? [new ClosedComplaint(First, new DateOnly(2024, 6, 6), [("pressure-regulator", null)])] : [],
        },
        Second,
        new DateOnly(2025, 6, 4));

    private static Observation Found(string id, int year, int day, ComplaintFact complaint) => new()
    {
        Id = id,
        ComplaintId = complaint.Id,
        At = At(year, day, 10),
        Day = new DateOnly(year, 6, day),
        RecordedAt = At(year, day, 10),
        Session = $"{year}-{day}",
    };

    private static DateTimeOffset At(int year, int day, int hour) => new(year, 6, day, hour, 0, 0, TimeSpan.Zero);
}
