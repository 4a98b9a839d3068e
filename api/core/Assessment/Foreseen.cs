using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>A check that nobody has made yet, with the limits and the gauge it would be made with.</summary>
/// <param name="Leaks">Of a leak-down P(outcome | sum of the section's leaks, store lost): [store][level][outcome].</param>
internal sealed record Foreseen(CheckIndex Check, BandEdges? Bands, ReadingError Error, double[][][]? Leaks)
{
    /// <summary>Conditions that its outcome hangs on.</summary>
    public int[] Conditions(ModelIndex index) => [.. (
        Check.Section is LeakSection section ? section.Watches.Concat(section.Store < 0 ? [] : [section.Store])
        : Check.Condition >= 0 ? [Check.Condition]
        : Check.Gate!.Groups.Where(g => g.Part < 0).Select(g => g.Condition)).Where(c => !index.Conditions[c].OfInstrument)];

    /// <summary>P(the reading falls into a band | the true value is uniform in the band of a level), slips included.</summary>
    public double ReadIn(int band, int level)
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
        static double Integral(double z) => (z * NormalTail.Above(-z)) + (Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI));
        return sd * (Integral((x - a) / sd) - Integral((x - c) / sd)) / (c - a);
    }
}
