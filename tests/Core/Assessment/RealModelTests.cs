using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Searches on the real fault model, step by step. What must come out is judgement (common practice), not a published figure.</summary>
public class RealModelTests
{
    private static readonly RealCase Complaint = new RealCase().Present("hard-start-hot", "hard-start-overnight", "hot-catches-and-dies").Read("system-pressure", 4.9).Watched("leak-down-whole", (10, 0.8));

    [Fact]
    public void Story_the_parts_that_lose_pressure_lead_and_a_check_pays()
    {
        Answered answer = Complaint.Answer();
        string[] leaders = [.. answer.Ranking.Take(4).Select(r => r.Component)];
        Assert.Contains("pressure-regulator", leaders);
        Assert.Contains("accumulator", leaders);
        Assert.All(answer.Ranking.Take(2), r => Assert.NotEmpty(r.Why));
        Assert.Contains(Complaint.Advice().NextChecks, c => c.Pays && c.Check.StartsWith("leak-down", StringComparison.Ordinal));
        Assert.Equal(0, answer.Resolved);
        double whole = answer.Ranking.Sum(r => r.Explains) + answer.NoneOfThese + answer.MoreThanOne;
        Assert.InRange(whole, 0.9, 1.02);
    }

    [Fact]
    public void Story_holding_with_the_return_shut_points_to_the_regulator_in_words_and_in_figures()
    {
        double before = Complaint.Bad()["pressure-regulator"];
        double word = Complaint.Saw("leak-down-return-shut", "hold").Bad()["pressure-regulator"], figures = Complaint.Watched("leak-down-return-shut", (10, 2.6)).Bad()["pressure-regulator"];
        Assert.True(word > 1.2 * before && figures > 1.2 * before, $"{before} {word} {figures}");
    }

    [Fact]
    public void Story_after_the_repair_and_the_repeat_nothing_of_the_complaint_is_left()
    {
        RealCase repaired = Complaint.Saw("leak-down-return-shut", "hold").Fitted("pressure-regulator").Watched("leak-down-whole", (10, 2.5))
            .Absent("hard-start-hot", "hard-start-overnight", "hot-catches-and-dies");
        Assert.Equal(2, repaired.Answer().Stretches);
        Assert.Empty(repaired.Answer().Items);
        Assert.DoesNotContain(repaired.Advice().NextChecks, c => c.Pays);
    }

    [Fact]
    public void Leak_that_stays_clears_the_accumulator_just_fitted_and_raises_the_others()
    {
        RealCase before = Complaint, after = before.Fitted("accumulator").Watched("leak-down-whole", (10, 0.8)).Present("hard-start-hot", "hot-catches-and-dies");
        Dictionary<string, double> was = before.Bad(), now = after.Bad();
        Assert.True(now["accumulator"] < was["accumulator"] / 5, $"{was["accumulator"]} {now["accumulator"]}");
        Assert.InRange(now["accumulator"], 1e-5, 3 * 0.05);
        Assert.True(now["pressure-regulator"] > was["pressure-regulator"]);
    }

    [Fact]
    public void Finding_before_a_repair_never_counts_against_the_new_part()
    {
        RealCase old = Complaint.Fitted("pressure-regulator"), worse = Complaint.Opened("pressure-regulator", "bad", "leaks-at-rest").Fitted("pressure-regulator");
        Assert.Equal(old.Bad()["pressure-regulator"], worse.Bad()["pressure-regulator"], 1e-6);
    }

    [Fact]
    public void Two_useless_repairs_raise_what_lies_outside_the_model()
    {
        static double Outside(RealCase c) => c.Bad()["elsewhere"];
        RealCase start = new RealCase().Present("hard-start-hot");
        RealCase one = start.Fitted("accumulator").Present("hard-start-hot"), two = one.Fitted("check-valve").Present("hard-start-hot");
        Assert.True(Outside(start) < Outside(one) && Outside(one) < Outside(two), $"{Outside(start)} {Outside(one)} {Outside(two)}");
        Assert.True(start.Answer().NoneOfThese < two.Answer().NoneOfThese);
    }

    [Fact]
    public void Not_sure_moves_less_than_sure()
    {
        double none = Complaint.Bad()["accumulator"], sure = Complaint.Saw("bleed-recover", "yes").Bad()["accumulator"], unsure = Complaint.Saw("bleed-recover", "yes", sure: false).Bad()["accumulator"];
        Assert.True(none < unsure && unsure < sure, $"{none} {unsure} {sure}");
    }

    [Fact]
    public void Intermittent_normal_findings_of_a_session_in_which_nothing_showed_leave_the_ranking_nearly_unchanged()
    {
        RealCase start = new RealCase { Complaint = new ComplaintFact("c", RealCase.Day.AddDays(-14), false, true) }.Present("hot-catches-and-dies");
        RealCase quiet = start.NextDay().Read("system-pressure", 5.1).Watched("leak-down-whole", (10, 2.6)).Saw("bleed-recover", "no").Saw("prime-trick", "no").Saw("pump-listen", "hum");
        RealCase constant = quiet with { Complaint = quiet.Complaint with { Intermittent = false } };
        Dictionary<string, double> was = start.Bad(), now = quiet.Bad(), firm = constant.Bad();
        Assert.All(new[] { "pressure-regulator", "pump-relay", "pump-wiring" }, part => Assert.InRange(now[part] / was[part], 0.4, 1.6));
        Assert.True(firm["pressure-regulator"] < now["pressure-regulator"] / 2, $"{firm["pressure-regulator"]} {now["pressure-regulator"]}");
    }

    [Fact]
    public void Relay_fitted_during_the_search_does_not_lead_because_it_is_new()
    {
        Answered answer = new RealCase().Present("hard-start-hot", "hard-start-overnight").Fitted("pump-relay").Present("hard-start-hot").Answer();
        Assert.DoesNotContain("pump-relay", answer.Ranking.Take(4).Select(r => r.Component));
    }

    [Fact]
    public void Contradiction_names_the_findings_that_cannot_be_true_together()
    {
        FaultModel model = FuelHistory.Tests.FaultModels.ModelFile.Model;
        Check look = model.Checks.Single(c => c.Id == "accumulator-vent") with { FalseAlarm = 0, Detects = [new Cause { Of = "accumulator.ruptured", P = 1 }] };
        Check also = look with { Id = "again", Detects = [new Cause { Of = "accumulator.volume-lost", P = 1 }] };
        var sharp = new CompiledModel(model with { Checks = [.. model.Checks.Where(c => c.Id != look.Id), look, also] });
        var both = (new RealCase { Model = sharp }).Present("hard-start-hot").Saw(look.Id, "yes").Saw("again", "yes");
        Contradiction contradiction = Assert.IsType<Contradiction>(Assess.Run(sharp, both.Input()));
        Assert.Equal(["f1", "f2"], contradiction.Findings);
    }
}
