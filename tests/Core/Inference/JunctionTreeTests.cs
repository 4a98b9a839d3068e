using CsCheck;
using FuelHistory.Core.Inference;

namespace FuelHistory.Tests.Core.Inference;

public class JunctionTreeTests
{
    private const double Tolerance = 1e-9;

    [Fact]
    public void Propagate_random_networks_agrees_with_brute_force() =>
        Gen.Int[0, int.MaxValue].Sample(
            seed =>
            {
                Network network = RandomNetwork(new Random(seed), signed: false);
                using Propagation run = Tree(network).Propagate(network.Factors);
                Assert.Equal(Math.Log(BruteForce.Weight(network)), run.LogWeight, Tolerance);
                for (int v = 0; v < network.States.Count; v++)
                {
                    AssertClose(BruteForce.Marginal(network, v), run.Marginal(v));
                }
            },
            iter: 500);

    [Fact]
    public void Propagate_with_signed_noisy_or_agrees_with_brute_force() =>
        Gen.Int[0, int.MaxValue].Sample(
            seed =>
            {
                Network network = RandomNetwork(new Random(seed), signed: true);
                using Propagation run = Tree(network).Propagate(network.Factors);
                Assert.Equal(Math.Log(BruteForce.Weight(network)), run.LogWeight, Tolerance);
                AssertClose(BruteForce.Marginal(network, 0), run.Marginal(0));
            },
            iter: 200);

    [Fact]
    public void Expect_product_of_terms_agrees_with_brute_force() =>
        Gen.Int[0, int.MaxValue].Sample(
            seed =>
            {
                var random = new Random(seed);
                Network network = RandomNetwork(random, signed: false);
                int[] chosen = [.. Enumerable.Range(0, network.States.Count).OrderBy(_ => random.Next()).Take(3)];
                double[][] values = [.. chosen.Select(v => Enumerable.Range(0, network.States[v]).Select(_ => random.NextDouble()).ToArray())];
                using Propagation run = Tree(network).Propagate(network.Factors);
                double seen = run.Expect([.. chosen.Select((v, i) => new Term(v, [.. values[i].Select(x => new[] { x })]))])[0];
                Assert.Equal(BruteForce.Expect(network, at => chosen.Select((v, i) => values[i][at[v]]).Aggregate((a, b) => a * b)), seen, Tolerance);
            },
            iter: 200);

    [Fact]
    public void Expect_polynomials_saturates_like_leak_levels() =>
        Gen.Int[0, int.MaxValue].Sample(
            seed =>
            {
                var random = new Random(seed);
                Network network = RandomNetwork(random, signed: false);
                int[] chosen = [.. Enumerable.Range(0, network.States.Count).OrderBy(_ => random.Next()).Take(3)];
                using Propagation run = Tree(network).Propagate(network.Factors);
                double[] sums = run.Expect([.. chosen.Select(v => new Term(v, [.. Enumerable.Range(0, network.States[v]).Select(Power)]))], 4);
                for (int level = 0; level < 4; level++)
                {
                    Assert.Equal(BruteForce.Expect(network, at => Math.Min(3, chosen.Sum(v => at[v])) == level ? 1 : 0), sums[level], Tolerance);
                }
            },
            iter: 100);

    [Fact]
    public void Propagate_twice_gives_the_same_bits()
    {
        Network network = RandomNetwork(new Random(7), signed: false);
        JunctionTree tree = Tree(network);
        using Propagation first = tree.Propagate(network.Factors), second = tree.Propagate(network.Factors);
        Assert.Equal(first.LogWeight, second.LogWeight);
        Assert.Equal(first.Marginal(0), second.Marginal(0));
    }

    [Fact]
    public void Propagate_same_finding_twice_counts_it_twice()
    {
        Network network = new();
        int v = network.AddVariable(2);
        network.AddFactor([v], [0.9, 0.1]);
        network.AddFactor([v], [0.2, 0.8]);
        network.AddFactor([v], [0.2, 0.8]);
        using Propagation run = Tree(network).Propagate(network.Factors);
        Assert.Equal(0.064 / 0.1, run.Marginal(v)[1], 1e-12);
    }

    [Fact]
    public void LogWeight_of_impossible_evidence_is_minus_infinity_never_NaN()
    {
        Network network = new();
        int v = network.AddVariable(2);
        network.AddFactor([v], [1, 0]);
        network.AddFactor([v], [0, 1]);
        JunctionTree tree = Tree(network);
        Assert.Equal(double.NegativeInfinity, tree.LogWeight(network.Factors));
        using Propagation run = tree.Propagate(network.Factors);
        Assert.True(run.Impossible);
        Assert.Throws<InvalidOperationException>(() => run.Marginal(v));
    }

    [Fact]
    public void LogWeight_of_many_small_numbers_does_not_underflow()
    {
        Network network = new();
        for (int i = 0; i < 200; i++)
        {
            network.AddFactor([network.AddVariable(2)], [1e-9, 2e-9]);
        }

        Assert.Equal(200 * Math.Log(3e-9), Tree(network).LogWeight(network.Factors), 1e-6);
    }

    [Fact]
    public void Compile_beyond_the_bound_refuses()
    {
        Network network = RandomNetwork(new Random(3), signed: false);
        Assert.Null(JunctionTree.Compile(network.States, [.. network.Factors.Select(f => f.Scope)], 1));
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Factor_with_an_entry_that_is_no_number_is_refused(double entry) =>
        Assert.Throws<ArgumentException>(() => new Factor([0], [2], [1, entry]));

    [Fact]
    public void Factor_with_a_wrong_size_or_a_variable_twice_is_refused()
    {
        Assert.Throws<ArgumentException>(() => new Factor([0], [2], [1, 2, 3]));
        Assert.Throws<ArgumentException>(() => new Factor([0, 0], [2], [1, 2, 3, 4]));
    }

    internal static JunctionTree Tree(Network network) => JunctionTree.Compile(network.States, [.. network.Factors.Select(f => f.Scope)])!;

    private static double[] Power(int level)
    {
        var power = new double[4];
        power[Math.Min(3, level)] = 1;
        return power;
    }

    private static Network RandomNetwork(Random random, bool signed)
    {
        var network = new Network();
        int variables = random.Next(3, 9);
        for (int v = 0; v < variables; v++)
        {
            network.AddVariable(random.Next(2, 4));
        }

        for (int f = random.Next(variables, 2 * variables); f > 0; f--)
        {
            int[] scope = [.. Enumerable.Range(0, variables).OrderBy(_ => random.Next()).Take(random.Next(1, 4))];
            int size = scope.Aggregate(1, (s, v) => s * network.States[v]);
            network.AddFactor(scope, [.. Enumerable.Range(0, size).Select(_ => random.Next(6) == 0 ? 0.01 : random.NextDouble())]);
        }

        if (signed)
        {
            // 1 - (1 - background) x product of (1 - p): one auxiliary variable, weights 1 and -1
            int choice = network.AddVariable(2);
            network.AddFactor([choice], [1, -0.98]);
            for (int v = 0; v < variables; v += 2)
            {
                network.AddFactor([choice, v], [.. Enumerable.Repeat(1.0, network.States[v]), .. Enumerable.Range(0, network.States[v]).Select(_ => random.NextDouble())]);
            }
        }

        return network;
    }

    private static void AssertClose(double[] expected, double[] actual)
    {
        for (int s = 0; s < expected.Length; s++)
        {
            Assert.Equal(expected[s], actual[s], Tolerance);
        }
    }
}
