using FuelHistory.Core.Assessment;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Beyond the bound the answer is made smaller step by step, and says so.</summary>
public class FoldingTests
{
    [Fact]
    public void Step_with_two_stretches_folds_the_first_and_names_its_findings()
    {
        (Situation situation, _) = new SmallCase(11, 2, false).Build();
        var step = Folding.Step(situation);
        Assert.NotNull(step);
        Assert.Single(step.Value.Smaller.Worlds.Stretches);
        Assert.All(step.Value.Dropped, id => Assert.EndsWith(" 0", id, StringComparison.Ordinal));
    }

    [Fact]
    public void Step_folds_without_error_where_the_second_stretch_shows_nothing()
    {
        // with no finding after the repair, the beliefs at the end of the first stretch are the whole answer
        for (int seed = 0; seed < 40; seed++)
        {
            (Situation situation, _) = new SmallCase(seed, 2, false).Build();
            Situation silent = situation.With(evidence: [.. situation.Evidence.Where(e => e.Findings.All(f => f.EndsWith(" 0", StringComparison.Ordinal)))]);
            if (silent.States() is double[][] exact && Folding.Step(silent) is (Situation folded, _))
            {
                double[][] after = folded.States()!;
                for (int p = 0; p < exact.Length; p++)
                {
                    Assert.Equal(exact[p][0], after[p][0], 1e-9);
                }
            }
        }
    }

    [Fact]
    public void Step_with_one_stretch_leaves_out_the_present_event_that_tells_least_and_at_last_gives_up()
    {
        for (int seed = 0; seed < 40; seed++)
        {
            (Situation situation, _) = new SmallCase(seed, 1, false).Build();
            int present = situation.Evidence.OfType<EventEvidence>().Count(e => e.Open != 0);
            var step = Folding.Step(situation);
            Assert.Equal(present > 1, step is not null);
            if (step is (Situation smaller, IReadOnlyList<string> dropped))
            {
                Assert.Equal(present - 1, smaller.Evidence.OfType<EventEvidence>().Count(e => e.Open != 0));
                Assert.Single(dropped);
            }
        }
    }
}
