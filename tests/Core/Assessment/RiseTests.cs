using FuelHistory.Core.Assessment;
using FuelHistory.Core.Inference;
using FuelHistory.Tests.FaultModels;
using Xunit;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>What stands in where a network for a question would be too large (MODEL.md 7, "by its rise"), beside the network where it is not; and
/// what a network covers.</summary>
public sealed class RiseTests
{
    public static TheoryData<string> Models => RealModels.All;

    [Theory]
    [MemberData(nameof(Models))]
    public void Part_that_explains_one_event_does_so_by_its_rise_within_a_hundredth(string model)
    {
        RealCase car = new() { Model = RealModels.Compiled(model) };
        foreach (string cell in car.Model.Source.Cells.Where((_, i) => i % 9 == 0).Select(c => c.Id))
        {
            Situation situation = car.Present(cell).Situation();
            Ranking ranking = Ranking.Of(situation)!;
            double[][] before = situation.States(new Omitted(ranking.Items[0].Findings))!;
            foreach (PartIndex part in situation.Index.Parts.Where(p => !p.Source.Instrument && ranking.Bad(p.Index) >= 0.05))
            {
                double rise = Math.Max(0, (before[part.Index][0] - ranking.States[part.Index][0]) / before[part.Index][0]);
                Assert.True(Math.Abs(rise - ranking.Explains(part.Index)) < 0.01, $"{part.Id} with {cell}: {rise:0.0000}, {ranking.Explains(part.Index):0.0000}");
            }
        }
    }

    /// <summary>To ask what a network covers makes nothing in it: a condition that a finding may need and nothing asked for has no variable in the compiled tree.</summary>
    [Theory]
    [MemberData(nameof(Models))]
    public void Check_that_a_network_covers_can_be_asked_of_it(string model)
    {
        RealCase car = new() { Model = RealModels.Compiled(model) };
        foreach (string cell in car.Model.Source.Cells.Where((_, i) => i % 9 == 4).Select(c => c.Id))
        {
            Situation situation = car.Present(cell).Situation();
            using Foresight network = situation.Foresee(null, [], []);
            foreach (Foreseen check in situation.Index.Checks.Where(c => c.Gate is not null).Select(c => new Foreseen(c, null, default, null)).Where(network.Covers))
            {
                Assert.Equal(1, network.Outcomes(check).Sum(), 1e-9);
            }
        }
    }
}
