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
        (Component Part, Symptom Event)[] pairs = [.. compiled.Source.Components.Where(c => !c.Instrument).SelectMany(c => compiled.Source.Symptoms, (c, s) => (c, s))];
        (Component Part, Symptom Event)[] sample = [.. pairs.Where((_, i) => i % OneIn == 7)];

        Assert.True(sample.Length > 15, $"{sample.Length}");
        Assert.Empty(sample.Select(p => (p.Part.Id, p.Event.Id, Bad: Bad(compiled, p.Part, p.Event))).Where(p => p.Bad < 0.9).Select(p => $"{p.Item1} with {p.Item2}: {p.Bad:0.000}"));
    }

    private static double Bad(CompiledModel model, Component part, Symptom symptom)
    {
        RealCase seen = new RealCase { Model = model }.Present(symptom.Id).Opened(part.Id, "bad");
        double[][] states = Prepared.Of(model, seen.Input()).Situation.States()!;
        return 1 - states[model.Index.Part(part.Id)][0];
    }
}
