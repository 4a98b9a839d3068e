using CsCheck;
using FuelHistory.Core.Assessment;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>The network builder against the walk through all worlds, on random small models.</summary>
public class OracleTests
{
    private const double Tolerance = 1e-9;

    [Theory]
    [InlineData(1, false, 290)]
    [InlineData(2, false, 140)]
    [InlineData(3, false, 15)]
    [InlineData(1, true, 60)]
    [InlineData(2, true, 15)]
    public void Situation_random_models_agrees_with_the_walk_through_all_worlds(int stretches, bool intermittent, int models) =>
        Gen.Int[0, int.MaxValue].Sample(seed => Compare(new SmallCase(seed, stretches, intermittent)), iter: models);

    private static void Compare(SmallCase small)
    {
        var oracle = new WorldOracle(small);
        (Situation situation, _) = small.Build();
        if (oracle.Weight < 1e-14)
        {
            Assert.Null(situation.States());
            return;
        }

        double[][] states = situation.States(out double log)!;
        Assert.Equal(Math.Log(oracle.Weight), log, Tolerance);
        for (int p = 0; p < oracle.Bad.Length; p++)
        {
            Assert.Equal(oracle.Bad[p] / oracle.Weight, 1 - states[p][0], Tolerance);

            // cure: the complaint's present symptoms gone in a stretch to come with this part ok
            Assert.Equal(oracle.Gone[p] / oracle.Weight, Math.Exp(situation.LogWeight(new Repair(false, p)) - log), Tolerance);
        }

        Assert.Equal(oracle.Gone[^1] / oracle.Weight, Math.Exp(situation.LogWeight(Repair.All) - log), Tolerance);
    }
}
