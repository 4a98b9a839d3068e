using FuelHistory.Core.Inference;

namespace FuelHistory.Tests.Core.Inference;

/// <summary>The oracle: every combination of states, one by one.</summary>
internal static class BruteForce
{
    public static double Weight(Network network) => Each(network).Sum(x => x.Weight);

    public static double[] Marginal(Network network, int variable)
    {
        var sums = new double[network.States[variable]];
        foreach ((int[] at, double weight) in Each(network))
        {
            sums[at[variable]] += weight;
        }

        double total = sums.Sum();
        return [.. sums.Select(s => s / total)];
    }

    public static double Expect(Network network, Func<int[], double> value) => Each(network).Sum(x => x.Weight * value(x.At)) / Weight(network);

    private static IEnumerable<(int[] At, double Weight)> Each(Network network)
    {
        var at = new int[network.States.Count];
        while (true)
        {
            yield return (at, network.Factors.Aggregate(1.0, (product, f) => product * f.Table[Entry(network, f, at)]));
            int v = 0;
            while (v < at.Length && ++at[v] == network.States[v])
            {
                at[v++] = 0;
            }

            if (v == at.Length)
            {
                yield break;
            }
        }
    }

    private static int Entry(Network network, Factor factor, int[] at) => factor.Scope.Aggregate(0, (entry, v) => (entry * network.States[v]) + at[v]);
}
