using FuelHistory.Core.Inference;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>A check that nobody has made yet: its outcome as a variable of the network.</summary>
internal sealed record Foreseen(CheckIndex Check, BandEdges? Bands, LeakLimit? Limit, ReadingError Error)
{
    private LeakTable[]? _leaks;

    public IEnumerable<(int World, int Condition)> Asked(ModelIndex index, int world) =>
        Check.Section is not null ? Check.Section.Asked(world)
        : Check.Condition >= 0 ? [(world, Check.Condition)]
        : Check.Gate!.Groups.Where(g => g.Part < 0 && !index.Conditions[g.Condition].OfInstrument).Select(g => (world, g.Condition));

    /// <summary>Adds the outcome; returns its variable.</summary>
    public int Enter(Circuit circuit, int world)
    {
        if (Check.Gate is not null)
        {
            return Check.Gate.Foresee(circuit, world, null);
        }

        Network network = circuit.Network;
        int outcome = network.AddVariable(Check.OutcomeIds.Length);
        if (Check.Section is LeakSection section)
        {
            _leaks ??= [.. LeakOutcomeEvidence.Names.Select((_, o) => new LeakTable(1, (_, level, lost) => SeepLaw.Outcomes(Error, 0, Limit!, level, lost)[o]))];
            section.Enter(circuit, world, null, -1, outcome, (level, lost, _, o) => _leaks[o].At(0, level, lost));
            return outcome;
        }

        Node node = circuit.Condition(world, Check.Condition);
        int min = circuit.Index.Conditions[Check.Condition].Min;
        int[] scope = node.Constant ? [outcome] : [node.Variable, outcome];
        network.Add(scope, at => ReadIn(at[^1], (node.Constant ? 0 : node.Levels[at[0]]) - min));
        return outcome;
    }

    /// <summary>P(the reading falls into a band | the true value is uniform in the band of a level), slips included.</summary>
    private double ReadIn(int band, int level)
    {
        double[] edges = Bands!.Edges;
        double sd = Math.Sqrt(Error.SharedVariance + Error.OwnVariance + (Bands.Spread * Bands.Spread));
        double a = edges[level], c = edges[level + 1];
        double upTo = band == edges.Length - 2 ? 1 : Below(edges[band + 1], a, c, sd), from = band == 0 ? 0 : Below(edges[band], a, c, sd);
        double anywhere = (edges[band + 1] - edges[band]) / (edges[^1] - edges[0]);
        return ((1 - ReadingError.Slip) * (upTo - from)) + (ReadingError.Slip * anywhere);
    }

    /// <summary>Mean of P(v + error below x) over v uniform in a..c: the integral of the normal distribution function in closed form.</summary>
    private static double Below(double x, double a, double c, double sd)
    {
        double Integral(double z) => (z * NormalTail.Above(-z)) + (Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI));
        return sd * (Integral((x - a) / sd) - Integral((x - c) / sd)) / (c - a);
    }
}
