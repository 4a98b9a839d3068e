using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>Findings of checks that became trials.</summary>
public class FormerCheckTests
{
    private static readonly Observation Blank = new() { Id = "f", ComplaintId = "c", At = default, RecordedAt = default, Day = default, Session = "one" };

    public static IEnumerable<object[]> Former => RealModels.Ids.SelectMany(m => RealModels.Model(m).Trials.SelectMany(t => t.Formerly.SelectMany(f => f.Value.Select(r =>
        new object[] { m, t.Id, f.Key, r.Key, r.Value }))));

    [Theory]
    [MemberData(nameof(Former))]
    public void Finding_of_a_former_check_is_that_trial_with_that_result(string model, string trial, string check, string outcome, string result)
    {
        Observation read = FormerChecks.Read(RealModels.Model(model), Blank with { Check = check, Outcome = outcome });

        Assert.Equal((null, trial, result), (read.Check, read.Trial!.Trial, read.Outcome));
        Assert.Equal(read.Trial.Kind == TrialKind.Another && result == "ended", read.Trial.CameBack == true);
    }

    [Fact]
    public void Finding_of_a_check_stays_as_it_is()
    {
        Observation finding = Blank with { Check = "fuse-look", Outcome = "blown" };

        Assert.Same(finding, FormerChecks.Read(ModelFile.Model, finding));
    }

    [Fact]
    public void Swap_recorded_as_a_check_makes_the_relay_lead()
    {
        var hand = new HandCase("relay", "", "cp", new CaseComplaint(["cuts-out"]), new CaseExpected(), Findings: [new CaseFinding("relay-swap", "yes")]);
        CompiledModel model = RealModels.Compiled("continuous-mechanical");

        Answered answer = Assert.IsType<Answered>(Assess.Run(model, CaseInput.Of(hand, model.Source)));

        Assert.Equal("pump-relay", answer.Ranking[0].Component);
        Assert.True(answer.Ranking[0].Explains > 0.5, $"{answer.Ranking[0].Explains}");
    }
}
