using FuelHistory.Core.Assessment;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>What a repair relieves, against forward simulation: 4,000 worlds drawn from a small model by its definitions, weighed by the findings;
/// in what share of them is the event right with the part put right? Independent of the network.</summary>
public class ReliefSimulationTests
{
    private const int Draws = 4000;

    [Theory]
    [InlineData(3)]
    [InlineData(8)]
    [InlineData(21)]
    [InlineData(34)]
    public void Relieved_event_agrees_with_simulation_within_its_error(int from)
    {
        SmallCase small = Enumerable.Range(from, 500).Select(seed => new SmallCase(seed, 1, false))
            .First(s => s.Trials.Count + s.OwnFindings.Count == 0 && s.Build().Situation.Items.Any(i => i.Kind == ItemKind.Event) && s.Build().Situation.States() is not null);
        Ranking ranking = Ranking.Of(small.Build().Situation)!;
        int item = ranking.Items.ToList().FindIndex(i => i.Kind == ItemKind.Event);
        var worlds = new WorldDraws(small, new Random(from));
        var relieved = new double[3];
        double total = 0, squares = 0;
        for (int i = 0; i < Draws; i++)
        {
            double weight = worlds.Next(ranking.Items[item].Name, out bool[] right);
            total += weight;
            squares += weight * weight;
            for (int p = 0; p < 3; p++)
            {
                relieved[p] += right[p] ? weight : 0;
            }
        }

        // weighted draws: the count that tells the error is total^2 / sum of squares
        double count = total * total / squares;
        for (int p = 0; p < 3; p++)
        {
            double seen = relieved[p] / total, expected = ranking.Relieved(item, new Repair(false, p)), error = Math.Sqrt(Math.Max(expected * (1 - expected), 0.01) / count);
            Assert.InRange(seen, expected - (4 * error), expected + (4 * error));
        }
    }
}
