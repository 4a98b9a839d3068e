using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Who opened a part and saw it broken is believed, whatever the driver told: over all systems, on a fixed one in fifty of all pairs
/// of a part and an event of the engine's running.</summary>
public sealed class SeenPropertyTests
{
    private const int OneIn = 50;

    public static TheoryData<string> Models => RealModels.All;

    [Theory]
    [MemberData(nameof(Models))]
    public void Part_seen_bad_and_surely_so_is_bad_with_nine_tenths(string model)
    {
        CompiledModel compiled = RealModels.Compiled(model);
        (Component Part, EventCell Event)[] sample = [.. RealModels.Pairs(compiled, OneIn)];

        Assert.True(sample.Length > 15, $"{sample.Length}");
        Assert.Empty(sample.Select(p => (p.Part.Id, p.Event.Id, Bad: Bad(compiled, p.Part, p.Event))).Where(p => p.Bad < 0.9).Select(p => $"{p.Item1} with {p.Item2}: {p.Bad:0.000}"));
    }

    /// <summary>A part seen bad is an item of its own: no dead end where no link leads from it to what the driver told.</summary>
    [Theory]
    [MemberData(nameof(Models))]
    public void Part_seen_bad_explains_its_own_item_and_leads_where_nothing_else_is_likely(string model)
    {
        CompiledModel compiled = RealModels.Compiled(model);
        var misses = new List<string>();
        foreach ((Component part, EventCell cell) in RealModels.Pairs(compiled, 2 * OneIn))
        {
            Answered answer = new RealCase { Model = compiled }.Present(cell.Id).Opened(part.Id, "bad").Answer();
            double explains = answer.Of(part.Id).Explains, own = answer.Items.Single(i => i.Kind == ItemKind.Part).Weight;
            bool first = answer.Ranking[0].Component == part.Id, others = answer.Ranking.Any(r => r.Component != part.Id && r.Bad > 0.5);
            if (explains < 0.9 * own || (!first && !others))
            {
                misses.Add($"{part.Id} with {cell.Id}: {explains:0.000} of {own:0.000}, {answer.Ranking[0].Component} {answer.Ranking[0].Explains:0.000}");
            }
        }

        Assert.True(misses.Count == 0, string.Join("; ", misses.Take(6)));
    }

    private static double Bad(CompiledModel model, Component part, EventCell cell)
    {
        RealCase seen = new RealCase { Model = model }.Present(cell.Id).Opened(part.Id, "bad");
        double[][] states = Prepared.Of(model, seen.Input()).Situation.States()!;
        return 1 - states[model.Index.Part(part.Id)][0];
    }
}
