using CsCheck;
using FuelHistory.Core.Assessment;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>The network builder against the walk through all worlds, on random small models.</summary>
public class OracleTests
{
    [Theory]
    [InlineData(1, false, 290)]
    [InlineData(2, false, 140)]
    [InlineData(3, false, 15)]
    [InlineData(4, false, 3)]
    [InlineData(1, true, 60)]
    [InlineData(2, true, 15)]
    [InlineData(3, true, 3)]
    public void Situation_random_models_agrees_with_the_walk_through_all_worlds(int stretches, bool intermittent, int models) =>
        Gen.Int[0, int.MaxValue].Sample(seed => Compare(new SmallCase(seed, stretches, intermittent)), iter: models);

    /// <summary>Some of those models make their findings impossible; each such one must be named so, with a set from which nothing can be taken.</summary>
    [Fact]
    public void Situation_impossible_findings_have_no_states_and_a_smallest_set()
    {
        int met = 0;
        for (int seed = 0; seed < 3000 && met < 5; seed++)
        {
            var small = new SmallCase(seed, 1 + (seed % 2), false);
            (Situation situation, _) = small.Build();
            if (situation.States() is not null)
            {
                continue;
            }

            met++;
            Assert.Equal(0, new WorldOracle(small).Weight);
            IReadOnlyList<string> set = Contradictions.Smallest(situation);
            Evidence[] items = [.. situation.Evidence.Where(e => e.Findings.Any(set.Contains))];
            Assert.Null(situation.With(evidence: items).States());
            Assert.All(items, left => Assert.NotNull(situation.With(evidence: [.. items.Where(e => !ReferenceEquals(e, left))]).States()));
        }

        Assert.Equal(5, met);
    }

    private static void Compare(SmallCase small)
    {
        var oracle = new WorldOracle(small);
        (Situation situation, _) = small.Build();
        if (oracle.Weight < 1e-14)
        {
            Assert.Null(situation.States());
            return;
        }

        // signed sums lose digits where the findings together are less likely than 1e-10 (MODEL.md 7)
        double within = Math.Max(1e-9, 1e-19 / oracle.Weight);
        double[][] states = situation.States(out double log)!;
        Assert.Equal(Math.Log(oracle.Weight), log, within);
        for (int p = 0; p < oracle.Bad.Length; p++)
        {
            Assert.Equal(oracle.Bad[p] / oracle.Weight, 1 - states[p][0], within);

            // cure: the complaint's present symptoms gone in a stretch to come with this part ok
            Assert.Equal(oracle.Gone[p] / oracle.Weight, Math.Exp(situation.LogWeight(new Repair(false, p)) - log), within);
        }

        Assert.Equal(oracle.Gone[^1] / oracle.Weight, Math.Exp(situation.LogWeight(Repair.All) - log), within);
    }
}
