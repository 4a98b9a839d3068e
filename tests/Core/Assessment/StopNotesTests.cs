using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>What brings a stop note up and what ends it (MODEL.md 10), on the real model with a note of the test's own.</summary>
public class StopNotesTests
{
    private static readonly RealCase Car = With(new StopSign { Event = "hard-start" });

    [Fact]
    public void Event_told_for_one_cell_is_ended_only_where_it_is_absent_in_that_cell()
    {
        RealCase hot = Car.Told("hard-start", ["hot-restart"]);
        Assert.Equal("f0", Assert.Single(Standing(hot)).Finding);

        Assert.Single(Standing(hot.Told("hard-start", ["cold"], "absent")));
        Assert.Single(Standing(hot.Told("hard-start", ["hot-restart"], "absent", sure: false)));
        Assert.Empty(Standing(hot.Told("hard-start", ["hot-restart"], "absent")));
        Assert.Empty(Standing(hot.Absent("hard-start")));
    }

    [Fact]
    public void Event_told_for_all_cells_is_not_ended_by_one_of_them_absent()
    {
        RealCase any = Car.Present("hard-start");

        Assert.Single(Standing(any.Told("hard-start", ["cold"], "absent")));
        Assert.Empty(Standing(any.Absent("hard-start")));
    }

    [Fact]
    public void Sign_that_names_one_cell_is_not_shown_by_another()
    {
        RealCase car = With(new StopSign { Event = "hard-start-hot" });

        Assert.Empty(Standing(car.Told("hard-start", ["cold"])));
        Assert.Single(Standing(car.Told("hard-start", ["hot-restart"], sure: false)));
        Assert.Single(Standing(car.Told("hard-start", [], "always")));
    }

    [Fact]
    public void Part_seen_bad_is_ended_by_work_on_it_that_is_surely_later()
    {
        RealCase bad = With(new StopSign { Part = "pump.leaks-outside" }).Opened("pump", "bad");
        Assert.Single(Standing(bad));

        Assert.Single(Standing(bad.Work("pump", RealCase.Day, Known.DidIt, action: WorkAction.Unknown)));
        Assert.Single(Standing(Spanning(bad.NextDay(), RealCase.Day.AddDays(-3), RealCase.Day.AddDays(1))));
        Assert.Empty(Standing(Spanning(bad.NextDay(), RealCase.Day.AddDays(1), RealCase.Day.AddDays(1))));
        Assert.Empty(Standing(bad.Fitted("pump")));
        Assert.Empty(Standing(bad.Opened("pump", "good")));
    }

    [Fact]
    public void Part_found_bad_at_an_inspection_brings_it_up_too()
    {
        RealCase car = With(new StopSign { Part = "pump.leaks-outside" });
        var looked = new WorkFact("w", RealCase.Day, WorkAction.Inspected, ["pump"], Known.DidIt, PartQuality.Unknown, car.Now, Found: new LookResult(true, "leaks-outside"));

        Assert.Equal("w", Assert.Single(Standing(car with { Car = car.Car with { Work = [looked] } })).Finding);
    }

    [Fact]
    public void Advice_under_a_note_has_no_check_trial_or_work_that_it_forbids()
    {
        RealCase free = With(new StopSign { Event = "petrol-in-oil" }).Present("rough-idle-warm", "rich-smoke");
        Assert.Contains(Proposed(free), tags => tags.Contains(Involved.Running));

        RealCase stopped = free.Present("petrol-in-oil");
        Assert.NotEmpty(Proposed(stopped));
        Assert.DoesNotContain(Proposed(stopped), tags => tags.Contains(Involved.Running));
    }

    private static IReadOnlyList<StopNoteStanding> Standing(RealCase car) => StopNotes.Standing(car.Model, car.Input());

    private static RealCase With(StopSign sign) => new()
    {
        Model = new CompiledModel(RealCase.Compiled.Source with
        {
            StopNotes = [new StopNote { Id = "n", Title = "n", When = [sign], Say = "Do not.", Until = "it is over", Forbids = [Involved.Running], Source = "cp" }],
        }),
    };

    /// <summary>Work on the pump within some days.</summary>
    private static RealCase Spanning(RealCase car, DateOnly from, DateOnly to) => car with
    {
        Car = car.Car with
        {
            Work = [new WorkFact("w", to, WorkAction.Fitted, ["pump"], Known.DidIt, PartQuality.New, car.Now, Within: from == to ? null : new DaySpan(from, to))],
        },
    };

    /// <summary>What each proposed check, trial and repair involves.</summary>
    private static IReadOnlyList<IReadOnlyList<string>> Proposed(RealCase car)
    {
        (AdviceAnswered advice, FaultModel model) = (car.Advice(), car.Model.Source);
        return
        [
            .. advice.NextChecks.Select(c => c.Trial ? model.Trials.First(t => t.Id == c.Check).Involves : model.Checks.First(k => k.Id == c.Check).Involves),
            .. advice.Plan.Steps.SelectMany(s => model.Components.Where(c => c.Id == s.Component).SelectMany(c => c.Work.Where(w => w.Action == s.Action).Select(w => w.Involves))),
        ];
    }
}
