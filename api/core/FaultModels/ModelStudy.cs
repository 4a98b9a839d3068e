namespace FuelHistory.Core.FaultModels;

/// <summary>What the file alone lets one tell apart (MODEL.md 10): each mode alone on a car that is otherwise as it should be, seen with gauges that make no error.</summary>
/// <param name="Modes">In the order of the file.</param>
/// <param name="Pairs">Pairs of modes of the car that the best check separates by less than <see cref="Near"/>, nearest first.</param>
public sealed record ModelStudy(IReadOnlyList<ModeStudy> Modes, IReadOnlyList<Separation> Pairs)
{
    private static readonly double[] EvenOdds = [0.5, 0.5];

    /// <summary>Total variation below which two modes are worth listing as a pair.</summary>
    public const double Near = 0.3;

    /// <summary>Two modes count as separated when some check's outcomes differ by this much (total variation).</summary>
    public const double Separates = 0.1;

    /// <summary>Only a model that the linter does not refuse can be studied.</summary>
    public static ModelStudy Of(FaultModel model)
    {
        ArgumentNullException.ThrowIfNull(model);
        return Of(new ModelMap(model));
    }

    internal static ModelStudy Of(ModelMap map)
    {
        ModeTrace healthy = ModeTrace.Of(map, null);
        List<(string Id, ModeTrace Trace)> traces = [.. map.Modes.Values.Select(m => (m.Id, ModeTrace.Of(map, m.Id)))];
        return new ModelStudy(
            [.. traces.Select(t => new ModeStudy(
                map.Modes[t.Id].Component.Id, map.Modes[t.Id].Mode.Id, t.Trace.Cells, t.Trace.Checks.ToDictionary(c => c.Key, c => Bits(c.Value, healthy.Checks[c.Key]))))],
            [.. Close([.. traces.Where(t => !map.Modes[t.Id].Component.Instrument)]).OrderBy(p => p.Apart)]);
    }

    private static IEnumerable<Separation> Close(List<(string Id, ModeTrace Trace)> traces)
    {
        for (int i = 0; i < traces.Count; i++)
        {
            for (int j = i + 1; j < traces.Count; j++)
            {
                (string check, double apart) = Best(traces[i].Trace.Checks, traces[j].Trace.Checks);
                if (apart < Near)
                {
                    yield return new Separation(traces[i].Id, traces[j].Id, apart, check);
                }
            }
        }
    }

    /// <summary>The check with the largest total variation: 0 alike, 1 told apart for sure. Ends at the first that is enough.</summary>
    private static (string Check, double Apart) Best(IReadOnlyDictionary<string, double[]> a, IReadOnlyDictionary<string, double[]> b)
    {
        (string Check, double Apart) best = ("", 0);
        foreach ((string check, double[] outcomes) in a)
        {
            double apart = 0.5 * outcomes.Zip(b[check], (x, y) => Math.Abs(x - y)).Sum();
            if (apart > best.Apart)
            {
                best = (check, apart);
                if (apart >= Near)
                {
                    break;
                }
            }
        }

        return best;
    }

    /// <summary>Mutual information between the outcome and "this mode or nothing", at even odds.</summary>
    internal static double Bits(double[] bad, double[] ok) => Bits(EvenOdds, [bad, ok]);

    /// <summary>Mutual information between the outcome and which of several causes is there.</summary>
    /// <param name="weights">P(cause); they sum to 1.</param>
    /// <param name="rows">Per cause the outcomes under it.</param>
    internal static double Bits(double[] weights, double[][] rows)
    {
        double bits = 0;
        for (int k = 0; k < rows[0].Length; k++)
        {
            double mean = 0;
            for (int c = 0; c < rows.Length; c++)
            {
                mean += weights[c] * rows[c][k];
            }

            for (int c = 0; c < rows.Length; c++)
            {
                double p = weights[c] * rows[c][k];
                bits += p <= 0 ? 0 : p * Math.Log2(rows[c][k] / mean);
            }
        }

        return Math.Max(0, bits);
    }
}

/// <param name="Cells">Cell of an event to the probability that it shows, other causes healthy; backgrounds included.</param>
/// <param name="Bits">Check to the information, 0 to 1 bit, between its outcome and whether this mode is there, at even odds.</param>
public sealed record ModeStudy(string Component, string Mode, IReadOnlyDictionary<string, double> Cells, IReadOnlyDictionary<string, double> Bits);

/// <summary>Two modes and the check that separates them best.</summary>
/// <param name="Apart">Total variation between that check's outcomes under the one and under the other.</param>
public sealed record Separation(string A, string B, double Apart, string Check);
