using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>What a repair relieves, asked item by item, beside the same asked of the whole network where that is small enough.</summary>
public sealed class FocusTests
{
    private const long Enough = 3_000_000;

    public static TheoryData<string> Models => RealModels.All;

    /// <summary>Two events of the engine's running, a part tested and one more event absent: the pairs are a fixed sample.</summary>
    [Theory]
    [MemberData(nameof(Models))]
    public void Explains_of_one_item_at_a_time_is_off_by_no_more_than_the_answer_says(string model)
    {
        double worst = 0;
        int compared = 0;
        foreach (Situation situation in Told(model))
        {
            try
            {
                Ranking whole = Ranking.Of(situation, Enough)!, narrow = Ranking.Of(situation, 1, Enough)!;
                double off = Parts(situation).Max(p => Math.Abs(whole.Explains(p) - narrow.Explains(p)));
                worst = whole.Approximate ? worst : Math.Max(worst, off);
                compared += !whole.Approximate && narrow.Approximate ? 1 : 0;
            }
            catch (TooLargeException)
            {
                // nothing to compare with
            }
        }

        Assert.InRange(compared, 3, 100);
        Assert.InRange(worst, 0, Focus.LargestSeen);
    }

    /// <summary>Whatever is left out of the network for an item, no part's probabilities change.</summary>
    [Theory]
    [MemberData(nameof(Models))]
    public void Place_of_an_item_keeps_every_parts_probabilities(string model)
    {
        foreach (Situation situation in Told(model).Take(4))
        {
            double[][] wanted = situation.States()!;
            double[][][] states = situation.StatesIn([0], new Omitted())!;
            foreach (Item item in situation.Items)
            {
                double[][] given = Focus.Of(situation, item, states, _ => true)!.Situation.States()!;
                Assert.All(Parts(situation), p => Assert.Equal(wanted[p][0], given[p][0], 0.01));
            }
        }
    }

    private static IEnumerable<int> Parts(Situation situation) => situation.Index.Parts.Where(p => !p.Source.Instrument).Select(p => p.Index);

    private static IEnumerable<Situation> Told(string model)
    {
        CompiledModel compiled = RealModels.Compiled(model);
        RealCase car = new() { Model = compiled };
        string[] events = [.. compiled.Source.Cells.GroupBy(c => c.Event ?? c.Id).Select(g => g.First().Id)];
        for (int i = 0; i + 5 < events.Length && i < 20; i += 2)
        {
            yield return car.Present(events[i]).Present(events[i + 5]).Absent(events[i + 1]).Situation();
        }
    }
}
