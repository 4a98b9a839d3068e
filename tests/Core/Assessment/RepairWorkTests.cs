using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Work that may fail: adjusting and cleaning, made once and made again (MODEL.md 7 and 8).</summary>
public class RepairWorkTests
{
    private static readonly RealCase Warm = new RealCase().Present("rich-smoke", "worse-as-it-warms");

    /// <summary>Two parts, each alone to blame with the stated share; the first is adjusted with 0.6 or replaced. Expected costs by hand: every
    /// order of the work walked through, everyone who is not cured pays the next step and at last the specialist.</summary>
    [Fact]
    public void Plan_where_adjusting_may_fail_is_the_cheapest_of_all_orders()
    {
        const double specialist = 700;
        double[] blame = [0.5, 0.3];
        RepairOption[] work = [new(0, "adjust", 0, 0, 40, 0.6), new(0, "replace", 0, 0, 300, 1), new(1, "replace", 0, 0, 120, 1)];
        (RepairOption[] order, Relieved[] after, double cost) = RepairPlanner.Plan(work, specialist, 4, set => One(set.Sum(p => blame[p])));
        Assert.Equal([work[0], work[2], work[1]], order);
        Assert.Equal([0.3, 0.6, 0.8], after.Select(r => Math.Round(r.All, 9)));
        Assert.Equal(40 + (0.7 * 120) + (0.4 * 300) + (0.2 * specialist), cost, 1e-9);

        // what is left of a mode after adjusting stays with the piece: 0.5 x 0.4 for the second way of doing it
        Assert.Equal(cost, Orders(work).Min(o => Walk(o, blame, specialist)), 1e-9);
    }

    [Fact]
    public void Plan_on_one_part_at_most_still_goes_from_adjusting_to_replacing()
    {
        RepairOption[] work = [new(0, "adjust", 0, 0, 40, 0.6), new(0, "replace", 0, 0, 100, 1), new(1, "replace", 0, 0, 120, 1)];
        (RepairOption[] order, _, _) = RepairPlanner.Plan(work, 700, 1, set => One(set.Sum(p => p == 0 ? 0.5 : 0.3)));
        Assert.Equal(["adjust", "replace"], order.Select(o => o.Action));
        Assert.All(order, o => Assert.Equal(0, o.Part));
    }

    /// <summary>Common practice: what cleaning for certain did not mend is not cleaned again but replaced or left.</summary>
    [Theory]
    [InlineData(Known.DidIt, 0)]
    [InlineData(Known.Told, 0.25)]
    public void Cleaning_again_mends_only_what_the_first_time_may_not_have_been_done(Known known, double least)
    {
        ModelIndex index = RealCase.Compiled.Index;
        PartIndex valve = index.Parts[index.Part("air-valve")];
        int mode = valve.Source.Modes.ToList().FindIndex(m => m.Cures("clean") > 0);
        double curable = valve.Source.Modes[mode].Cures("clean"), sure = known == Known.Told ? index.Model.Told.Told : 1;
        PartCopy before = PartCopy.Alone(valve.Index, [0.5, .. valve.Source.Modes.Select(_ => 0.5 / valve.Source.Modes.Count)], valve.Index), once = before.After(Cleaned(known), valve.Source, null!, sure, 900);
        Assert.Equal(curable, before.Success(valve.Source, "clean", mode), 1e-12);

        // Bayes on "it can be cleaned" and "it was not mended the first time"
        double left = curable * (1 - sure) / (1 - (curable * sure));
        Assert.Equal(left, once.Success(valve.Source, "clean", mode), 1e-12);
        Assert.InRange(left, least * curable, curable);
        Assert.Equal(1, once.Success(valve.Source, "replace", mode));
    }

    [Fact]
    public void Advice_after_adjusting_and_cleaning_in_vain_names_none_of_it_again()
    {
        RealCase car = Warm;
        var done = new List<(string, string)>();
        for (int i = 0; i < 6 && car.Advice().Plan.Steps is [PlannedRepair first, ..]; i++)
        {
            Assert.DoesNotContain((first.Component, first.Action), done);
            Assert.InRange(first.Success, 1e-6, 1);
            done.Add((first.Component, first.Action));
            car = car.Work(first.Component, RealCase.Day, Known.DidIt, action: first.Action switch { "clean" => WorkAction.Cleaned, "adjust" => WorkAction.Adjusted, _ => WorkAction.Fitted });
            car = (car with { Now = car.Now.AddMinutes(30) }).Present("rich-smoke", "worse-as-it-warms");
        }

        Assert.Contains(done, d => d.Item2 != "replace");
    }

    /// <summary>Ten suspects of a few per cent each: no repair is worth its cost, but a look that is nearly free still is.</summary>
    [Fact]
    public void Advice_where_only_the_specialist_is_left_names_checks_of_small_saving()
    {
        AdviceAnswered[] open = [.. RealCase.Compiled.Source.Cells.Select(c => new RealCase().Present(c.Id).Advice()).Where(a => a.Plan.Steps.Count == 0)];
        Assert.NotEmpty(open);
        Assert.Contains(open, a => a.NextChecks.Any(c => c.Pays && c.Saving < 0.03 * a.Plan.ExpectedCost));
        Assert.All(open.SelectMany(a => a.NextChecks).Where(c => c.Before is null), c => Assert.Equal(c.ToolsAtHand && c.Saving > 0, c.Pays));
    }

    /// <summary>A search may go on for long: the oldest stretches are folded, and said to be.</summary>
    [Fact]
    public void Twenty_repairs_in_one_search_are_answered_and_said_not_to_be_exact()
    {
        RealCase car = Warm;
        for (int i = 0; i < 20; i++)
        {
            car = car.Work(i % 2 == 0 ? "air-valve" : "warm-up-regulator", RealCase.Day, Known.DidIt, action: WorkAction.Adjusted) with { Now = car.Now.AddMinutes(20) };
            car = car.Present("rich-smoke");
        }

        AssessmentResult answer = Assess.Run(car.Model, car.Input() with { AsOf = RealCase.Day.AddDays(2) });
        Assert.False(Assert.IsType<Answered>(answer).Exact);
        Assert.Equal(21, ((Answered)answer).Stretches);
    }

    /// <summary>One item: all of it and its share are the same.</summary>
    private static Relieved One(double p) => new(p, p);

    private static WorkFact Cleaned(Known known) => new("w", RealCase.Day, WorkAction.Cleaned, ["air-valve"], known, PartQuality.New, default);

    private static IEnumerable<RepairOption[]> Orders(RepairOption[] work) =>
        from a in work from b in work from c in work where a != b && b != c && a != c select new[] { a, b, c };

    private static double Walk(RepairOption[] order, double[] blame, double specialist)
    {
        double[] left = [.. blame];
        double cost = 0, open = 1;
        foreach (RepairOption step in order)
        {
            cost += open * step.Cost;
            double cured = left[step.Part] * step.Success;
            (left[step.Part], open) = (left[step.Part] - cured, open - cured);
        }

        return cost + (open * specialist);
    }
}
