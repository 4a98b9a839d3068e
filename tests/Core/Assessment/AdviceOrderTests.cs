using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>What is proposed before what (MODEL.md 8), on the real models; the order itself is common practice.</summary>
public class AdviceOrderTests
{
    private static readonly string[] Hazardous = ["high"];

    public static TheoryData<string> Models => RealModels.All;

    /// <summary>Every sixth event of a model by itself, with what is advised.</summary>
    private static IEnumerable<(RealCase Car, AdviceAnswered Advice)> Advised(string model)
    {
        CompiledModel compiled = RealModels.Compiled(model);
        return compiled.Source.Cells.Where((_, i) => i % 6 == 0).Select(c => new RealCase { Model = compiled }.Present(c.Id)).Select(c => (c, c.Advice()));
    }

    [Fact]
    public void Short_check_without_hazard_among_the_five_best_pays_at_any_saving()
    {
        var small = 0;
        foreach ((RealCase car, AdviceAnswered advice) in RealModels.Ids.SelectMany(Advised))
        {
            double most = car.Model.Source.Advice.NoneCost;
            CheckAdvice[] best = [.. advice.NextChecks.OrderByDescending(c => c.Saving).Take(5).Where(c => c.Harmless && c.Minutes <= 10 && c.Saving > 1e-6 * most)];
            Assert.All(best, c => Assert.True(c.Pays, $"{c.Check} saves {c.Saving}"));
            small += advice.Plan.Steps.Count > 0 ? best.Count(c => c.Saving < 0.03 * advice.Plan.ExpectedCost) : 0;
        }

        Assert.True(small > 0, "no case among these puts the rule to the test");
    }

    /// <summary>Whatever is first to be cleaned, adjusted or bought has its look among what pays, and a trial never stands before the look at its part.</summary>
    [Theory]
    [MemberData(nameof(Models))]
    public void Look_that_shows_a_part_comes_before_work_and_trials_on_it(string model)
    {
        var looks = 0;
        foreach ((RealCase car, AdviceAnswered advice) in Advised(model))
        {
            if (advice.Plan.Steps is [{ LookFirst: string look }, ..])
            {
                looks++;
                Assert.True(advice.NextChecks.Single(c => c.Check == look).Pays, look);
            }

            if (advice.Plan.Steps is [PlannedRepair { LookFirst: null, Action: "clean" or "adjust" } blind, ..])
            {
                Assert.Empty(Looks(car, advice, blind.Component, blind.Minutes));
            }

            if (advice.NextChecks is [{ Trial: true, Pays: true } trial, ..] && car.Model.Source.Trials.Single(t => t.Id == trial.Check) is { Do: "unplug" or "another" or "touch", Component: string tried })
            {
                Assert.Empty(Looks(car, advice, tried, trial.Minutes));
            }
        }

        Assert.True(looks > 0, "no plan among these begins with a look");
    }

    /// <summary>By the file: checks of few minutes that show more than half of the ways in which a part is bad now.</summary>
    private static IEnumerable<string> Looks(RealCase car, AdviceAnswered advice, string component, double minutes)
    {
        RankedFault part = car.Answer().Of(component);
        return advice.NextChecks
            .Where(c => !c.Trial && c.Minutes <= Math.Max(10, minutes) && !Hazardous.Contains(car.Model.Index.Check(c.Check).Source.Hazard)
                && part.Modes.Where(m => car.Model.Index.Shown.Of($"{component}.{m.Mode}").Contains(c.Check)).Sum(m => m.Probability) > 0.501 * part.Bad)
            .Select(c => c.Check);
    }

    /// <summary>The plan and the proposals begin with one part: its look is moved up for both, and stands there once.</summary>
    [Fact]
    public void Look_at_the_part_of_the_first_step_and_of_the_first_trial_stands_once()
    {
        int met = 0;
        foreach (CompiledModel model in RealModels.Ids.Select(RealModels.Compiled))
        {
            RealCase car = new RealCase { Model = model }.Present(model.Source.Cells[0].Id);
            Prepared prepared = Prepared.Of(model, car.Input());
            CheckAdvice[] checks = [.. model.Source.Checks.Select(c => Proposed(c.Id, c.Minutes))];
            foreach (Trial trial in model.Source.Trials.Where(t => t.Component is not null && t.Kind is TrialKind.Another or TrialKind.Touched or TrialKind.Unplugged))
            {
                var first = new Beforehand(prepared.Situation, Ranking.Of(prepared.Situation)!, prepared.Investigation, new Costs(model.Source, null),
                    [Proposed(trial.Id, trial.Minutes) with { Pays = true, Trial = true }, .. checks]);
                PlannedRepair step = first.WithLook(new PlannedRepair(trial.Component!, "replace", 60, 50, 100, 1, 0.5, 0.5));
                IReadOnlyList<CheckAdvice> ordered = first.Ordered(new RepairOrder([step], 100, 0, 700, true));
                Assert.Equal(checks.Length + 1, ordered.DistinctBy(c => c.Check).Count());
                met += step.LookFirst is null ? 0 : 1;
            }
        }

        Assert.True(met > 10, $"{met}");
    }

    private static CheckAdvice Proposed(string check, double minutes) => new(check, minutes, 0, [], 0, 0, 0, true, false, []) { Harmless = true };

    [Fact]
    public void Fuse_is_looked_at_before_one_is_bought_and_once_only()
    {
        RealCase silent = new RealCase { Model = RealModels.Compiled("port-airflow") }.Present("no-start", "pump-silent");
        AdviceAnswered advice = silent.Advice();
        Assert.Equal("fuse-look", advice.Plan.Steps.First(s => s.Component == "pump-fuse").LookFirst);
        Assert.True(advice.NextChecks.Single(c => c.Check == "fuse-look").Pays);
        Assert.DoesNotContain(silent.Saw("fuse-look", "sound").Advice().Plan.Steps, s => s.LookFirst == "fuse-look");
        Assert.DoesNotContain(silent.Saw("fuse-look", "blown").Advice().Plan.Steps, s => s is { Component: "pump-fuse", LookFirst: not null });
    }

    [Fact]
    public void Pump_told_to_be_silent_is_not_listened_for()
    {
        RealCase start = new RealCase().Present("no-start");
        Assert.Contains(start.Advice().NextChecks, c => c.Check == "pump-listen");
        Assert.DoesNotContain(start.Present("pump-silent").Advice().NextChecks, c => c.Check == "pump-listen");
        Assert.Contains(start.Absent("pump-silent").Advice().NextChecks, c => c.Check == "pump-listen");
        Assert.Contains(start.Present("pump-silent").Absent("pump-silent").Advice().NextChecks, c => c.Check == "pump-listen");
    }

    [Fact]
    public void Pressure_of_nothing_leaves_no_pressure_to_be_watched()
    {
        RealCase start = new RealCase().Present("no-start", "hard-start-hot");
        Assert.Contains(start.Read("system-pressure", 5).Advice().NextChecks, c => c.Check == "leak-down-whole");
        Assert.DoesNotContain(start.Read("system-pressure", 0).Advice().NextChecks, c => IsRun(c.Check));
        Assert.Contains(start.Read("control-warm", 0).Advice().NextChecks, c => c.Check == "leak-down-whole");
    }

    [Fact]
    public void Pressure_that_held_as_a_whole_leaves_no_section_to_be_watched()
    {
        RealCase start = new RealCase().Present("hard-start-hot").Read("system-pressure", 5);
        Assert.Contains(start.Watched("leak-down-whole", (10, 0.8)).Advice().NextChecks, c => c.Check == "leak-down-return-shut");
        Assert.DoesNotContain(start.Watched("leak-down-whole", (10, 3)).Advice().NextChecks, c => c.Check is "leak-down-return-shut" or "leak-down-engine-side");
        Assert.Contains(start.Watched("leak-down-return-shut", (10, 3)).Advice().NextChecks, c => c.Check == "leak-down-whole");
    }

    [Fact]
    public void Check_that_failed_is_the_first_proposal_after_a_repair_until_it_is_repeated()
    {
        RealCase failed = new RealCase().Present("hard-start-hot", "hard-start-overnight").Read("system-pressure", 4.9).Watched("leak-down-whole", (10, 0.8));
        Assert.DoesNotContain(failed.Advice().NextChecks, c => c.Repeats is not null);

        RealCase repaired = failed.Fitted("accumulator");
        CheckAdvice first = repaired.Advice().NextChecks[0];
        Assert.Equal(("leak-down-whole", true), (first.Check, first.Pays));
        Assert.Equal(failed.Car.Findings.Single(f => f.Check == "leak-down-whole").Id, first.Repeats);

        Assert.DoesNotContain(repaired.Watched("leak-down-whole", (10, 0.8)).Advice().NextChecks, c => c.Repeats is not null);
        Assert.DoesNotContain(failed.Fitted("battery").Advice().NextChecks, c => c.Repeats is not null);
    }

    [Fact]
    public void Parts_that_go_bad_together_are_one_step_with_one_labour()
    {
        RealCase rusty = new RealCase().Present("no-power", "cuts-out-load").Saw("filter-drain", "rust").Opened("tank", "bad", "debris").Opened("strainer", "bad", "clogged").Opened("filter", "bad", "clogged");
        AssessmentInput input = rusty.Input() with { RatePerMinute = 0.3 };
        AdviceAnswered advice = Assert.IsType<AdviceAnswered>(Assess.Advise(rusty.Model, input)), apart = Assert.IsType<AdviceAnswered>(Assess.Advise(rusty.Model, input, AdviceRules.Usual with { Bundles = false }));
        PlannedRepair step = advice.Plan.Steps.First(s => s.With.Count > 0);

        (string Component, string Action)[] done = [(step.Component, step.Action), .. step.With.Select(w => (w.Component, w.Action))];
        WorkFigures[] works = [.. done.Select(d => rusty.Model.Source.Components.Single(c => c.Id == d.Component).Work.Single(w => w.Action == d.Action))];
        Assert.Empty(done.Select(d => d.Component).Except(["tank", "strainer", "filter", "fuel", "inlet-strainer"]));
        Assert.Equal(works.Max(w => w.Minutes), step.Minutes);
        Assert.Equal(works.Sum(w => w.Parts), step.Parts);
        Assert.Equal(step.Parts + (0.3 * (step.Minutes + rusty.Model.Source.Advice.RetestMinutes)), step.Cost, 1e-9);
        Assert.True(advice.Plan.ExpectedCost < apart.Plan.ExpectedCost, $"{advice.Plan.ExpectedCost} {apart.Plan.ExpectedCost}");
        Assert.All(apart.Plan.Steps, s => Assert.Empty(s.With));
    }

    private static bool IsRun(string check) => RealCase.Compiled.Source.Checks.Any(c => c.Id == check && c.Kind == CheckKind.LeakDown && c.Setup == "gauge-on" && c.Id != "leak-down-gauge");
}
