using FuelHistory.Core.Inference;

namespace FuelHistory.Tests.Core.Inference;

/// <summary>Worked examples from the literature, to their printed digits.</summary>
public class PublishedNetworksTests
{
    private static readonly string[] Clinic = ["asia", "smoke", "tub", "lung", "bronc", "either", "xray", "dysp"];

    /// <summary>Lauritzen &amp; Spiegelhalter, J. R. Statist. Soc. B 50 (1988) 157-224; figures as printed by the test file and the vignette
    /// of the R package gRain.</summary>
    [Theory]
    [InlineData("", "tub", 0.0104, 0.00005)]
    [InlineData("", "lung", 0.055, 0.0005)]
    [InlineData("", "bronc", 0.45, 0.005)]
    [InlineData("asia dysp", "tub", 0.08775, 0.000005)]
    [InlineData("asia dysp", "lung", 0.09953, 0.000005)]
    [InlineData("asia dysp", "either", 0.1823, 0.00005)]
    [InlineData("asia dysp", "bronc", 0.8114, 0.00005)]
    [InlineData("asia dysp", "smoke", 0.62592, 0.000005)]
    [InlineData("asia dysp", "xray", 0.21954, 0.000005)]
    public void Chest_clinic_posteriors_are_as_published(string evidence, string query, double published, double halfDigit) =>
        Assert.Equal(published, Ask(ChestClinic(evidence), Array.IndexOf(Clinic, query)), halfDigit);

    /// <summary>The same source: P(asia, dysp) = 0.004501375.</summary>
    [Fact]
    public void Chest_clinic_probability_of_the_evidence_is_as_published() =>
        Assert.Equal(0.004501375, Math.Exp(Weight(ChestClinic("asia dysp"))), 1e-12);

    /// <summary>The vignette of gRain: E = no with T = yes is impossible.</summary>
    [Fact]
    public void Chest_clinic_impossible_evidence_is_named_so() =>
        Assert.Equal(double.NegativeInfinity, Weight(ChestClinic("tub !either")));

    /// <summary>Soft evidence, vignette of gRain: likelihood .8 : .1 on smoking gives lung .09, bronchitis .5667.</summary>
    [Fact]
    public void Chest_clinic_soft_evidence_is_as_published()
    {
        Network network = ChestClinic("");
        network.AddFactor([1], [0.1, 0.8]);
        Assert.Equal(0.09, Ask(network, 3), 0.00005);
        Assert.Equal(0.5667, Ask(network, 4), 0.00005);
        Assert.Equal(0.0104, Ask(network, 2), 0.00005);
    }

    /// <summary>Russell &amp; Norvig, Artificial Intelligence: A Modern Approach, burglary network; values as in the aima-python tests and the text.</summary>
    [Theory]
    [InlineData("11", 0.284, 0.0005)]
    [InlineData("1-", 0.0163, 0.00005)]
    [InlineData("-1", 0.0561, 0.00005)]
    [InlineData("10", 0.00513, 0.000005)]
    [InlineData("01", 0.00688, 0.000005)]
    public void Burglary_posteriors_are_as_published(string calls, double published, double halfDigit)
    {
        Network network = Burglary();
        for (int i = 0; i < 2; i++)
        {
            if (calls[i] != '-')
            {
                network.AddFactor([3 + i], calls[i] == '1' ? [0, 1] : [1, 0]);
            }
        }

        Assert.Equal(published, Ask(network, 0), halfDigit);
    }

    /// <summary>Murphy, Bayes Net Toolbox tutorial, from memory: P(S|W) = .430, P(R|W) = .708, P(S|W,R) = .1945.</summary>
    [Fact]
    public void Sprinkler_posteriors_are_as_printed_from_memory()
    {
        Assert.Equal(0.430, Ask(Sprinkler(false), 1), 0.0005);
        Assert.Equal(0.708, Ask(Sprinkler(false), 2), 0.0005);
        Assert.Equal(0.1945, Ask(Sprinkler(true), 1), 0.00005);
    }

    /// <summary>Cooper 1984 as in Pearl 1988; a public mailing-list transcript prints .04 / .4112 = .0972762646 for P(A | not D, E).</summary>
    [Fact]
    public void Metastatic_cancer_posterior_is_as_published()
    {
        Network network = Cancer();
        network.AddFactor([3], [1, 0]);
        network.AddFactor([4], [0, 1]);
        Assert.Equal(0.4112, Math.Exp(Weight(network)), 1e-9);
        Assert.Equal(0.0972762646, Ask(network, 0), 5e-11);
    }

    /// <summary>Screening tests. Gigerenzer et al. 2007 and Gigerenzer 2002 as published; Eddy 1982 and Casscells 1978 from memory.</summary>
    [Theory]
    [InlineData(0.01, 0.90, 0.09, 0.1, 0.01)]
    [InlineData(0.008, 0.90, 0.07, 0.09, 0.005)]
    [InlineData(0.01, 0.80, 0.096, 0.078, 0.0005)]
    [InlineData(0.001, 1.0, 0.05, 0.02, 0.005)]
    public void Screening_test_posterior_is_as_published(double rate, double sensitivity, double falsePositive, double published, double halfDigit)
    {
        var network = new Network();
        network.AddFactor([network.AddVariable(2)], [1 - rate, rate]);
        network.AddFactor([0], [falsePositive, sensitivity]);
        Assert.Equal(published, Ask(network, 0), halfDigit);
    }

    private static double Ask(Network network, int variable)
    {
        using Propagation run = JunctionTreeTests.Tree(network).Propagate(network.Factors);
        return run.Marginal(variable)[1];
    }

    private static double Weight(Network network) => JunctionTreeTests.Tree(network).LogWeight(network.Factors);

    private static Network Binary(params (int[] Scope, double[] Yes)[] tables)
    {
        var network = new Network();
        foreach ((int[] scope, double[] yes) in tables)
        {
            network.AddVariable(2);
        }

        foreach ((int[] scope, double[] yes) in tables)
        {
            network.AddFactor(scope, [.. yes.SelectMany(p => new[] { 1 - p, p })]);
        }

        return network;
    }

    private static Network ChestClinic(string evidence)
    {
        Network network = Binary(
            ([0], [0.01]),
            ([1], [0.5]),
            ([0, 2], [0.01, 0.05]),
            ([1, 3], [0.01, 0.10]),
            ([1, 4], [0.30, 0.60]),
            ([2, 3, 5], [0, 1, 1, 1]),
            ([5, 6], [0.05, 0.98]),
            ([5, 4, 7], [0.1, 0.8, 0.7, 0.9]));
        foreach (string word in evidence.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            network.AddFactor([Array.IndexOf(Clinic, word.TrimStart('!'))], word[0] == '!' ? [1, 0] : [0, 1]);
        }

        return network;
    }

    private static Network Burglary() => Binary(
        ([0], [0.001]),
        ([1], [0.002]),
        ([0, 1, 2], [0.001, 0.29, 0.94, 0.95]),
        ([2, 3], [0.05, 0.90]),
        ([2, 4], [0.01, 0.70]));

    private static Network Sprinkler(bool rain)
    {
        Network network = Binary(
            ([0], [0.5]),
            ([0, 1], [0.5, 0.1]),
            ([0, 2], [0.2, 0.8]),
            ([1, 2, 3], [0, 0.9, 0.9, 0.99]));
        network.AddFactor([3], [0, 1]);
        if (rain)
        {
            network.AddFactor([2], [0, 1]);
        }

        return network;
    }

    private static Network Cancer() => Binary(
        ([0], [0.2]),
        ([0, 1], [0.2, 0.8]),
        ([0, 2], [0.05, 0.2]),
        ([1, 2, 3], [0.05, 0.8, 0.8, 0.8]),
        ([2, 4], [0.6, 0.8]));
}
