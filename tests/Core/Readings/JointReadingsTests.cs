using CsCheck;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Inference;
using FuelHistory.Core.Readings;
using FuelHistory.Tests.Core.Assessment;
using Reading = FuelHistory.Core.Readings.JointReadings.Reading;

namespace FuelHistory.Tests.Core.Readings;

/// <summary>Readings of one true value against numerical integration, and through the real check and gauge.</summary>
public sealed class JointReadingsTests
{
    /// <summary>A reading of 2.1 bar on a gauge of 10 bar class 1.6 (u = 0.16 / sqrt 3), levels 0..2, 2..4, 4..6 bar: computed from the
    /// normal distribution function with a table of its own.</summary>
    [Theory]
    [InlineData(0, 2, 0.0697541, 5e-8)]
    [InlineData(2, 4, 0.430246, 5e-7)]
    [InlineData(4, 6, 0, 1e-12)]
    public void Density_one_reading_is_the_blurred_band(double low, double high, double density, double tolerance)
    {
        double shared = 0.16 * 0.16 / 3;

        Assert.Equal(density, JointReadings.Density([new Reading(0, 2.1, shared, 1e-12)], low, high, 0), tolerance); // the least own error there is
        Assert.Equal(density, JointReadings.Density([new Reading(0, 2.1, shared / 2, shared / 2)], low, high, 0), tolerance);
    }

    /// <summary>The integral over the true value, each gauge's error and the limit's shift, on a grid. None of the program's algebra is used.</summary>
    [Fact]
    public void Density_several_readings_two_gauges_and_spread_equals_the_integral() =>
        Gen.Select(Gen.Double[1.7, 2.6], Gen.Double[1.7, 2.6], Gen.Double[1.7, 2.6], Gen.Double[0.06, 0.2], Gen.Double[0, 0.2]).Sample((x1, x2, y, sigma, spread) =>
        {
            const double Own = 0.05, A = 2, C = 3.1;
            double other = 1.5 * sigma;
            Reading[] readings = [new(0, x1, sigma * sigma, Own * Own), new(0, x2, sigma * sigma, Own * Own), new(1, y, other * other, Own * Own)];

            // 1. density of the readings given the value that the limits are meant for, gauge errors integrated numerically
            double Given(double value) =>
                Over(e => Normal(e, sigma) * Normal(x1 - value - e, Own) * Normal(x2 - value - e, Own), 9 * sigma, 240)
                * Over(e => Normal(e, other) * Normal(y - value - e, Own), 9 * other, 240);

            // 2. a uniform value in the band, the band shifted by the spread
            double InBand(double shift) => Over(v => Given(((A + C) / 2) + shift + v), (C - A) / 2, 240) / (C - A);
            double expected = spread < 1e-3 ? InBand(0) : Over(s => Normal(s, spread) * InBand(s), 6 * spread, 60);

            double density = JointReadings.Density(readings, A, C, spread < 1e-3 ? 0 : spread);
            Assert.InRange(density / expected, 1 - 1e-4, 1 + 1e-4);
        }, iter: 12);

    [Fact]
    public void Density_ten_identical_readings_count_about_as_one()
    {
        double shared = 0.16 * 0.16 / 3, own = 0.02 * 0.02;
        double Ratio(int n)
        {
            Reading[] readings = [.. Enumerable.Range(0, n).Select(_ => new Reading(0, 2.1, shared, own))];
            return JointReadings.Density(readings, 2, 4, 0) / JointReadings.Density(readings, 0, 2, 0);
        }

        Assert.InRange(Ratio(10) / Ratio(1), 1, 1.2);
        Assert.True(Math.Pow(Ratio(1), 10) > 1e4, "counted apart, ten would be overwhelming"); // what the shared error keeps from happening
    }

    [Fact]
    public void Density_of_two_gauges_counts_more_than_of_one_twice()
    {
        double shared = 0.16 * 0.16 / 3, own = 0.02 * 0.02;
        double Ratio(int second)
        {
            Reading[] readings = [new(0, 2.1, shared, own), new(second, 2.1, shared, own)];
            return JointReadings.Density(readings, 2, 4, 0) / JointReadings.Density(readings, 0, 2, 0);
        }

        Assert.True(Ratio(1) > 1.4 * Ratio(0));
    }

    /// <summary>Two levels that meet at a limit, through the real check, its bands and the gauge. Where the limit has one side, sound cars lie
    /// densest there: a reading just at it is theirs rather.</summary>
    [Theory]
    [InlineData("system-pressure", -1)]
    [InlineData("system-pressure", 0)]
    [InlineData("control-warm", -1)]
    [InlineData("control-warm", 0)]
    [InlineData("control-cold", -1, 20.0)]
    [InlineData("control-cold", 0, 20.0)]
    [InlineData("control-cold", 0, 5.0)]
    [InlineData("injector-opening", -1)]
    [InlineData("injector-opening", 0)]
    [InlineData("return-pressure", 0)]
    [InlineData("exhaust-pressure", 0)]
    public void Reading_at_a_limit_leaves_the_levels_that_meet_there_within_a_factor_two(string check, int below, double? covariate = null)
    {
        CheckIndex known = RealCase.Compiled.Index.Check(check);
        Condition condition = RealCase.Compiled.Index.Conditions[known.Condition].Source;
        double[] edges = BandEdges.For(known.Source, condition, null, covariate)!.Edges;
        Situation situation = new RealCase().Read(check, edges[below - condition.Min + 1], covariate: covariate).Situation();

        Assert.InRange(Likelihood(situation, known.Condition, below) / Likelihood(situation, known.Condition, below + 1), known.Source.Limits!.Usual is null ? 0.5 : 1.0 / 3, known.Source.Limits.Usual is null ? 2 : 3);
    }

    /// <summary>P(all findings | the condition at a level), gauge errors and slips included.</summary>
    private static double Likelihood(Situation situation, int condition, int level)
    {
        return Math.Exp(LogWeight(true) - LogWeight(false));

        double LogWeight(bool found)
        {
            var circuit = new Circuit(situation.Index, [.. situation.Worlds.Stretches], situation.Worlds.Instruments, new TableCache(), [(0, condition)], new HashSet<(int, int)>());
            Node node = circuit.Condition(0, condition);
            circuit.Network.AddFactor([node.Variable], [.. node.Levels.Select(l => l == level ? 1.0 : 0.0)]);
            foreach (Evidence item in found ? situation.Evidence : [])
            {
                item.Enter(new EvidenceCircuit(circuit, false), null);
            }

            Network network = circuit.Network;
            return JunctionTree.Compile(network.States, [.. network.Factors.Select(f => f.Scope)])!.LogWeight(network.Factors);
        }
    }

    [Fact]
    public void Ten_identical_readings_move_the_ranking_about_as_one_does()
    {
        RealCase start = new RealCase().Present("no-power");
        RealCase once = start.Read("system-pressure", 4.3), often = Enumerable.Range(0, 10).Aggregate(start, (c, _) => c.Read("system-pressure", 4.3));
        Dictionary<string, double> none = start.Bad(), one = once.Bad(), ten = often.Bad();

        double Bits(Dictionary<string, double> bad) => Math.Log2(bad["pressure-regulator"] / (1 - bad["pressure-regulator"]) * (1 - none["pressure-regulator"]) / none["pressure-regulator"]);
        Assert.True(Bits(one) > 0.5, $"{Bits(one)} bits");
        Assert.InRange(Bits(ten) - Bits(one), -0.2, 0.6);
    }

    private static double Normal(double x, double sd) => Math.Exp(-x * x / (2 * sd * sd)) / (sd * Math.Sqrt(2 * Math.PI));

    /// <summary>Simpson's rule from -half to half.</summary>
    private static double Over(Func<double, double> f, double half, int steps)
    {
        double sum = f(-half) + f(half), h = 2 * half / steps;
        for (int i = 1; i < steps; i++)
        {
            sum += (i % 2 == 1 ? 4 : 2) * f(-half + (i * h));
        }

        return sum * h / 3;
    }
}
