using FuelHistory.Core.Assessment;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Cure against forward simulation: 2,000 worlds drawn from a small model by its definitions, those that agree with the findings
/// kept; among them, how often is the complaint gone with the part put right? Independent of the network.</summary>
public class CureSimulationTests
{
    private const int Draws = 2000;

    [Theory]
    [InlineData(3)]
    [InlineData(8)]
    [InlineData(21)]
    [InlineData(34)]
    public void Cure_agrees_with_simulation_within_its_error(int seed)
    {
        var small = new SmallCase(seed, 1, false);
        (Situation situation, _) = small.Build();
        Ranking ranking = Ranking.Of(situation)!;
        var worlds = new WorldDraws(small, new Random(seed));
        var gone = new double[3];
        double total = 0, squares = 0;
        for (int i = 0; i < Draws; i++)
        {
            double weight = worlds.Next(out bool[] cured);
            total += weight;
            squares += weight * weight;
            for (int p = 0; p < 3; p++)
            {
                gone[p] += cured[p] ? weight : 0;
            }
        }

        // weighted draws: the count that tells the error is total^2 / sum of squares
        double count = total * total / squares;
        for (int p = 0; p < 3; p++)
        {
            double seen = gone[p] / total, cure = ranking.Gone(new Repair(false, p)), error = Math.Sqrt(Math.Max(cure * (1 - cure), 0.01) / count);
            Assert.InRange(seen, cure - (4 * error), cure + (4 * error));
        }
    }
}
