using FuelHistory.Core.Inference;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>A propagated network of which one asks what checks would show.</summary>
/// <param name="together">Conditions that are in one clique.</param>
internal sealed class Foresight(Circuit circuit, Propagation run, int now, IReadOnlyList<int> together) : IDisposable
{
    private LeakJoint? _joint;

    /// <summary>All conditions that the check hangs on have their variables in this network. One that a finding needs has none yet where nothing asked for it.</summary>
    public bool Covers(Foreseen check) => check.Conditions(circuit.Index).All(c => circuit.Made(now, c) is not null);

    /// <summary>Distribution over the check's cells: its outcomes in their order, or the cells of a measured value.</summary>
    public double[] Outcomes(Foreseen check) =>
        check.Check.Section is LeakSection section ? OfLeakDown(check, section)
        : check.Check.Condition >= 0 ? OfMeasurement(check)
        : OfGate(check.Check.Gate!);

    /// <summary>P(bad) of a part; the prior where nothing bears on it.</summary>
    public double Bad(int part) => 1 - circuit.Distribution(run, circuit.Worlds[now][part]!)[0];

    public void Dispose() => run.Dispose();

    private double[] OfMeasurement(Foreseen check)
    {
        Node node = circuit.Condition(now, check.Check.Condition);
        int min = circuit.Index.Conditions[check.Check.Condition].Min;
        double[] states = node.Constant ? [1] : run.Marginal(node.Variable), levels = new double[check.Check.OutcomeIds.Length];
        for (int s = 0; s < states.Length; s++)
        {
            levels[node.Levels[s] - min] += states[s];
        }

        ReadingCells cells = check.Cells(levels);
        return [.. cells.Bands.Select((_, cell) => levels.Select((p, level) => p * cells.At(cell, level)).Sum())];
    }

    /// <summary>P(at most k) = L(k) x E[product of C_i(k | state)].</summary>
    private double[] OfGate(OutcomeGate gate)
    {
        double before = 0;
        var outcomes = new double[gate.Outcomes];
        for (int k = 0; k < gate.Outcomes; k++)
        {
            double atMost = k == gate.Outcomes - 1 ? 1 : gate.Leak[k] * Silent(gate, k);
            outcomes[k] = Math.Max(0, atMost - before);
            before = atMost;
        }

        return outcomes;
    }

    /// <summary>Causes that this outcome does not hang on are left out.</summary>
    private double Silent(OutcomeGate gate, int k)
    {
        double apart = 1;
        var terms = new List<Term>();
        foreach ((int part, int condition, double[][] cumulative) in gate.Groups)
        {
            if (part < 0)
            {
                Node node = circuit.Condition(now, condition);
                int min = circuit.Index.Conditions[condition].Min;
                if (node.Constant)
                {
                    apart *= cumulative[-min][k];
                }
                else if (node.Levels.Any(l => cumulative[l - min][k] < 1))
                {
                    terms.Add(new Term(node.Variable, [.. node.Levels.Select(l => new[] { cumulative[l - min][k] })]));
                }
            }
            else if (circuit.Part(now, part, null) is PartCopy copy && copy.Bad.Any(b => cumulative[b.Mode][k] < 1))
            {
                double[][] byState = [[1], .. copy.Bad.Select(b => new[] { cumulative[b.Mode][k] })];
                if (circuit.Made(copy) is int variable)
                {
                    terms.Add(new Term(variable, byState));
                }
                else
                {
                    apart *= circuit.Distribution(run, copy).Select((p, s) => p * byState[s][0]).Sum();
                }
            }
        }

        return terms.Count == 0 ? apart : apart * run.Expect(terms)[0];
    }

    private double[] OfLeakDown(Foreseen check, LeakSection section)
    {
        double[,] sums = together.Count > 0 && section.Watches.All(together.Contains) && (section.Store < 0 || together.Contains(section.Store))
            ? (_joint ??= new LeakJoint(circuit, run, now, together)).Sums(section)
            : LeakSums(section);
        var outcomes = new double[LeakOutcomes.Names.Length];
        for (int lost = 0; lost < 2; lost++)
        {
            for (int level = 0; level < 4; level++)
            {
                for (int o = 0; o < outcomes.Length; o++)
                {
                    outcomes[o] += sums[lost, level] * check.Leaks![lost][level][o];
                }
            }
        }

        return outcomes;
    }

    /// <summary>P(store lost, saturated sum of the leaks): leaks as powers of a polynomial that saturates at 3; the store picks one of two sums.</summary>
    private double[,] LeakSums(LeakSection section)
    {
        List<Term> leaks = [.. section.Watches.Select(c => circuit.Condition(now, c)).Where(n => !n.Constant)
            .Select(n => new Term(n.Variable, [.. n.Levels.Select(Power)]))];
        Node store = section.Store < 0 ? Node.Zero : circuit.Condition(now, section.Store);
        var sums = new double[2, 4];
        for (int lost = 0; lost < (store.Constant ? 1 : 2); lost++)
        {
            bool wanted = lost == 1;
            Term[] terms = store.Constant ? [.. leaks] : [.. leaks, new Term(store.Variable, [.. store.Levels.Select(l => l < 0 == wanted ? Power(0) : new double[4])])];
            double[] byLevel = terms.Length == 0 ? Power(0) : run.Expect(terms, 4);
            for (int level = 0; level < 4; level++)
            {
                sums[lost, level] = byLevel[level];
            }
        }

        return sums;
    }

    private static double[] Power(int level)
    {
        var power = new double[4];
        power[level] = 1;
        return power;
    }
}
