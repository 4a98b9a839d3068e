using CsCheck;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.Inference;
using FuelHistory.Tests.Core.Inference;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Searching for a fault, weighing evidence and naming conflicts, against worked examples from outside. "Regression": computed for this
/// project by enumeration, no published figure being at hand.</summary>
public class PublishedSearchTests
{
    /// <summary>Kalagnanam and Henrion 1990; Heckerman, Breese and Rommelse, CACM 38 (1995) 49: with one fault and independent costs, least
    /// expected cost is had by increasing c/p. Against all 120 orders of five parts.</summary>
    [Fact]
    public void Plan_with_a_single_fault_is_the_best_of_all_orders() =>
        Gen.Select(Gen.Double[0.05, 1].Array[5], Gen.Double[5, 200].Array[5]).Sample((weight, cost) =>
        {
            double[] p = [.. weight.Select(w => w / weight.Sum())];
            (RepairOption[] order, _, double expected) = RepairPlanner.Plan(Certain(cost), 1e9, 5, set => One(set.Sum(c => p[c])));
            Assert.Equal(Enumerable.Range(0, 5).OrderBy(c => cost[c] / p[c]), order.Select(o => o.Part));
            Assert.Equal(Orders([0, 1, 2, 3, 4]).Min(o => Cost(o, p, cost)), expected, 1e-3);
        }, iter: 300);

    /// <summary>Regression: faults .4, .3, .3 with repair costs 10, 60, 200. The test that tells more bits ("the first or not", 0.9710) saves 6;
    /// the one that tells fewer ("the last or not", 0.8813) saves 21: cost must choose, not entropy.</summary>
    [Fact]
    public void Plan_saving_and_information_disagree_and_saving_decides()
    {
        double[] p = [0.4, 0.3, 0.3], cost = [10, 60, 200];
        Assert.Equal(106, PlanCost(p, cost), 1e-6);
        Assert.Equal(6, 106 - (0.4 * PlanCost([1, 0, 0], cost)) - (0.6 * PlanCost([0, 0.5, 0.5], cost)), 1e-6);
        Assert.Equal(21, 106 - (0.3 * PlanCost([0, 0, 1], cost)) - (0.7 * PlanCost([4 / 7.0, 3 / 7.0, 0], cost)), 1e-6);
        Assert.Equal(0.9710, Entropy([0.4, 0.6]), 5e-5);
        Assert.Equal(0.8813, Entropy([0.3, 0.7]), 5e-5);
    }

    /// <summary>General Report on Tunny (1945), p. 39: a coin falls heads 20 times; double-headed against fair, prior odds 1 : 10,000. Each head
    /// is a factor of 2 ("3 db"), the posterior "20 db up, or 100 : 1 on" (exactly 104.858, which the report rounds).</summary>
    [Fact]
    public void Weight_of_evidence_twenty_heads_is_as_in_the_report()
    {
        var network = new Network();
        network.AddFactor([network.AddVariable(2)], [10000 / 10001.0, 1 / 10001.0]);
        double before = Odds(network);
        for (int heads = 0; heads < 20; heads++)
        {
            network.AddFactor([0], [0.5, 1]);
            Assert.Equal(2, Odds(network) / before, 1e-9);
            before = Odds(network);
        }

        Assert.Equal(104.8576, Odds(network), 1e-6);
        Assert.InRange(10 * Math.Log10(Odds(network)), 19.5, 20.5);
    }

    /// <summary>Regression, burglary network of Russell and Norvig: leave-one-out weights of the two calls are 8.2459 and 13.7989 decibans; they do not
    /// add up to the total of 25.9834, and no page may say so. Conflict log2 P(J) P(M) / P(J, M) = -1.76801: the calls agree.</summary>
    [Fact]
    public void Weight_of_evidence_leave_one_out_and_conflict_of_two_calls()
    {
        double both = Odds(Alarm(true, true)), john = Odds(Alarm(true, false)), mary = Odds(Alarm(false, true)), none = Odds(Alarm(false, false));
        Assert.Equal(8.2459, 10 * Math.Log10(both / mary), 5e-5);
        Assert.Equal(13.7989, 10 * Math.Log10(both / john), 5e-5);
        Assert.Equal(25.9834, 10 * Math.Log10(both / none), 5e-5);
        Assert.Equal(-1.76801, (Log(Alarm(true, false)) + Log(Alarm(false, true)) - Log(Alarm(true, true))) / Math.Log(2), 5e-6);
    }

    /// <summary>Polybox, de Kleer and Williams, Artificial Intelligence 32 (1987) 97: M1 and A1 are the best single candidates and X is the best next
    /// probe (from memory). Regression, an unpredicted output uniform over 16 values: .496225, entropy 1.0714, expected after X .0383, Y 1.0635, Z 1.0670.</summary>
    [Fact]
    public void Polybox_candidates_and_next_probe()
    {
        const int Values = 16;
        Network box = Polybox(Values);
        double[] candidates = Candidates(box);
        Assert.Equal(27, candidates.Count(c => c > 0));
        Assert.Equal(0.496225, candidates[1], 2e-6);
        Assert.Equal(0.496225, candidates[8], 2e-6);
        Assert.Equal(0.005012, candidates[9], 2e-6);
        Assert.Equal(1.0714, Entropy(candidates), 1.1e-4);           // how far values reach is our choice: 0..15
        double[] after = [.. Enumerable.Range(5, 3).Select(probe => Enumerable.Range(0, Values).Sum(value =>
        {
            Network seen = Polybox(Values);
            seen.AddFactor([probe], [.. Enumerable.Range(0, Values).Select(v => v == value ? 1.0 : 0)]);
            double p = Math.Exp(Log(seen) - Log(box));
            return p > 0 ? p * Entropy(Candidates(seen)) : 0;
        }))];
        Assert.All(after.Zip([0.0383, 1.0635, 1.0670]), a => Assert.Equal(a.Second, a.First, 2e-4));
    }

    private static RepairOption[] Certain(double[] cost) => [.. cost.Select((c, part) => new RepairOption(part, "replace", 0, c, c, 1))];

    private static double PlanCost(double[] p, double[] cost) => RepairPlanner.Plan(Certain(cost), 1e9, 3, set => One(Math.Min(1, set.Sum(c => p[c])))).Cost;

    /// <summary>One item: all of it and its share are the same.</summary>
    private static Relieved One(double p) => new(p, p);

    private static double Cost(int[] order, double[] p, double[] cost)
    {
        double left = 1, sum = 0;
        foreach (int c in order)
        {
            sum += left * cost[c];
            left -= p[c];
        }

        return sum;
    }

    private static IEnumerable<int[]> Orders(int[] rest) =>
        rest.Length == 0 ? [[]] : rest.SelectMany(first => Orders([.. rest.Where(r => r != first)]).Select(o => (int[])[first, .. o]));

    private static double Entropy(IEnumerable<double> p) => -p.Where(x => x > 0).Sum(x => x * Math.Log2(x));

    private static double Log(Network network) => JunctionTreeTests.Tree(network).LogWeight(network.Factors);

    private static double Odds(Network network)
    {
        using Propagation run = JunctionTreeTests.Tree(network).Propagate(network.Factors);
        double[] p = run.Marginal(0);
        return p[1] / p[0];
    }

    private static Network Alarm(bool john, bool mary)
    {
        var network = new Network();
        for (int v = 0; v < 3; v++)
        {
            network.AddVariable(2);
        }

        network.AddFactor([0], [0.999, 0.001]);
        network.AddFactor([1], [0.998, 0.002]);
        network.AddFactor([0, 1, 2], [0.999, 0.001, 0.71, 0.29, 0.06, 0.94, 0.05, 0.95]);
        network.AddFactor([2], john ? [0.05, 0.90] : [1, 1]);
        network.AddFactor([2], mary ? [0.01, 0.70] : [1, 1]);
        return network;
    }

    /// <summary>Variables 0..4: M1, M2, M3, A1, A2 (1: failed); 5..7: X, Y, Z. Seen: F = 10, G = 12; inputs 3, 2, 2, 3, 3.</summary>
    private static Network Polybox(int values)
    {
        var network = new Network();
        for (int part = 0; part < 5; part++)
        {
            network.AddFactor([network.AddVariable(2)], [0.99, 0.01]);
        }

        double any = 1.0 / values;
        for (int m = 0; m < 3; m++)
        {
            int output = network.AddVariable(values);
            network.Add([m, output], at => at[0] == 1 ? any : at[1] == 6 ? 1 : 0);
        }

        network.Add([3, 5, 6], at => at[0] == 1 ? any : at[1] + at[2] == 10 ? 1 : 0);
        network.Add([4, 6, 7], at => at[0] == 1 ? any : at[1] + at[2] == 12 ? 1 : 0);
        return network;
    }

    /// <summary>P(exactly these parts failed) for all 32 sets.</summary>
    private static double[] Candidates(Network box)
    {
        double all = Log(box);
        return [.. Enumerable.Range(0, 32).Select(set =>
        {
            var entered = new Network();
            foreach (int states in box.States)
            {
                entered.AddVariable(states);
            }

            foreach (Factor f in box.Factors)
            {
                entered.AddFactor(f.Scope, f.Table);
            }

            for (int part = 0; part < 5; part++)
            {
                entered.AddFactor([part], (set >> part & 1) == 1 ? [0, 1] : [1, 0]);
            }

            return Math.Exp(Log(entered) - all);
        })];
    }
}
