using FuelHistory.Core.Inference;

namespace FuelHistory.Core.Assessment;

/// <summary>A check with outcomes in order of severity: per cause a distribution over outcomes, combined by noisy-MAX:
/// P(outcome at most k) = L(k) x product of C_i(k | state) (Diez, UAI 1993). Yes/no is the case of two outcomes.</summary>
internal sealed record OutcomeGate(int Outcomes, double[] Leak, IReadOnlyList<(int Part, int Condition, double[][] Cumulative)> Groups)
{
    /// <summary>Enters an observed outcome.</summary>
    /// <param name="acting">Variable that says whether an intermittent fault was acting; -1: it was, or the part itself is seen.</param>
    public void Enter(Circuit circuit, int world, int outcome, bool sure, int acting, string? instrument, bool counts)
    {
        // P(outcome = k) = P(at most k) - P(at most k - 1), so the terms are a signed sum over k, k - 1 and, if unsure, "anything"
        var terms = new List<(double Weight, int AtMost)> { (sure ? Leak[outcome] : Leak[outcome] / 2, outcome) };
        if (outcome > 0)
        {
            terms.Add((sure ? -Leak[outcome - 1] : -Leak[outcome - 1] / 2, outcome - 1));
        }

        if (!sure)
        {
            terms.Add((0.5 / Outcomes, Outcomes - 1));
        }

        if (!counts)
        {
            terms = [.. terms.Select((_, i) => (i == 0 ? 1.0 : 0.0, Outcomes - 1))];
        }

        int choice = circuit.Network.AddVariable(terms.Count);
        circuit.Network.AddFactor([choice], [.. terms.Select(t => t.Weight)]);
        EnterGroups(circuit, world, choice, [.. terms.Select(t => t.AtMost)], acting, instrument);
    }

    private void EnterGroups(Circuit circuit, int world, int choice, int[] atMost, int acting, string? instrument)
    {
        foreach ((int part, int condition, double[][] cumulative) in Groups)
        {
            (int variable, double[][] rows) = part >= 0 ? PartRows(circuit, world, part, cumulative, instrument) : LevelRows(circuit, world, condition, cumulative);
            if (variable < 0)
            {
                continue;
            }

            int[] scope = acting < 0 ? [choice, variable] : [choice, variable, acting];
            circuit.Network.Add(scope, at => at.Length == 3 && at[2] == 0 ? 1 : rows[at[1]][atMost[at[0]]]);
        }
    }

    private (int, double[][]) PartRows(Circuit circuit, int world, int part, double[][] cumulative, string? instrument)
    {
        PartCopy? copy = circuit.Part(world, part, instrument);
        double[] silent = [.. Enumerable.Repeat(1.0, Outcomes)];
        return copy is null ? (-1, []) : (circuit.Variable(copy), [silent, .. copy.Bad.Select(b => cumulative[b.Mode])]);
    }

    private static (int, double[][]) LevelRows(Circuit circuit, int world, int condition, double[][] cumulative)
    {
        Node node = circuit.Condition(world, condition);
        int min = circuit.Index.Conditions[condition].Min;
        return (node.Variable, [.. node.Levels.Select(l => cumulative[l - min])]);
    }
}
