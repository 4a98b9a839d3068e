using FuelHistory.Core.Assessment;
using FuelHistory.Core.Inference;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>What is taken for a slip is named, for readings and pressure runs alike.</summary>
public sealed class SetAsideTests
{
    private static readonly RealCase Start = new RealCase().Present("no-power");

    /// <summary>Up and down by bars: no leak does that.</summary>
    private static readonly (double, double)[] Nonsense = [(2, 0.4), (5, 4.8), (10, 0.6), (15, 4.9)];

    [Fact]
    public void SetAside_names_a_pressure_run_that_fits_nothing()
    {
        RealCase found = Start.Watched("leak-down-whole", Nonsense);

        SetAside aside = Assert.Single(found.Answer().SetAside);
        Assert.Equal(found.Car.Findings[^1].Id, aside.Finding);
        Assert.InRange(aside.Probability, 0.99, 1);
    }

    [Fact]
    public void SetAside_is_empty_where_all_fits() =>
        Assert.Empty(Start.Read("system-pressure", 4.3).Watched("leak-down-whole", (1, 2.8), (10, 1.2)).Answer().SetAside);

    /// <summary>Two readings of one gauge in one session that cannot both be of one car: against the network's own variable.</summary>
    [Fact]
    public void SetAside_of_readings_is_the_marginal_of_their_slip()
    {
        RealCase found = Start.Read("system-pressure", 9.8).Read("system-pressure", 0.2);

        double[] marginal = Marginal(found.Situation());
        Assert.InRange(marginal[1], 0.5, 1);
        Assert.Equal(2, found.Answer().SetAside.Count);
        Assert.All(found.Answer().SetAside, s => Assert.Equal(marginal[1], s.Probability, 1e-9));
    }

    private static double[] Marginal(Situation situation)
    {
        var circuit = new Circuit(situation.Index, [.. situation.Worlds.Stretches], situation.Worlds.Instruments, new TableCache(), [.. situation.Evidence.SelectMany(e => e.Asked(situation.Index))],
            new HashSet<(int, int)>());
        var entered = new EvidenceCircuit(circuit, false);
        foreach (Evidence item in situation.Evidence)
        {
            item.Enter(entered, null);
        }

        MeasuredValue value = situation.Evidence.OfType<MeasuredEvidence>().First().Values[0];
        Network network = circuit.Network;
        using Propagation run = JunctionTree.Compile(network.States, [.. network.Factors.Select(f => f.Scope)])!.Propagate(network.Factors);
        return run.Marginal(entered.Slip(value.Session.Name, value.Instrument));
    }
}
