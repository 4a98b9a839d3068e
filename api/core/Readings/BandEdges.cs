using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Readings;

/// <summary>The bands of a measured quantity that mean the levels of its condition (MODEL.md 5).</summary>
/// <param name="Edges">From the bottom of the lowest level to the top of the highest; one more than there are levels.</param>
/// <param name="Spread">Standard deviation of a typical limit between makers; 0 for an exact one of the car's own.</param>
internal sealed record BandEdges(double[] Edges, double Spread, bool Own)
{
    public double Top => Edges[^1];

    /// <summary>Level 0 of a limit with one side only: what is usual less the limit; 0 where it has two.</summary>
    public double Lean { get; init; }

    /// <summary>Number of level 0, counted from the lowest.</summary>
    public int Zero { get; init; }

    public LevelValues Values(int level) => new(Edges[level], Edges[level + 1], level == Zero ? Lean : 0);

    /// <summary>What lies beyond either end counts as the outermost value there is (a reading so far off is confirmed, or never got here).</summary>
    public double Within(double value) => Math.Clamp(value, Edges[0], Edges[^1]);

    /// <summary>The band that a value lies in; values beyond either end belong to the last one there.</summary>
    public int BandOf(double value) => Math.Max(0, Array.FindIndex(Edges, 1, Edges.Length - 2, e => value < e) is int edge and > 0 ? edge - 1 : Edges.Length - 2);

    /// <summary>What makes a density at a value about the probability of its band; at level 0 that leans, of what is as near the limit.</summary>
    public double WidthAt(double value)
    {
        int band = BandOf(value);
        double width = Edges[band + 1] - Edges[band];
        return band == Zero && Lean != 0 ? Math.Min(width, Math.E * Math.Abs(Lean)) : width;
    }

    /// <summary>A value that stands for a band: its middle, or what is usual.</summary>
    public double Typical(int band) => band == Zero && Lean != 0 ? (Lean > 0 ? Edges[band] : Edges[band + 1]) + Lean : (Edges[band] + Edges[band + 1]) / 2;

    /// <summary>P(below, within, above the limits | level), judged by a gauge that errs so much; a slip says anything.</summary>
    public double[] Words(int level, double sd)
    {
        double below = Zero == 0 ? 0 : Values(level).Below(Edges[Zero], sd), upTo = Zero == Edges.Length - 2 ? 1 : Values(level).Below(Edges[Zero + 1], sd);
        double[] words = [below, Math.Max(0, upTo - below), 1 - upTo];
        return [.. words.Select(p => ((1 - ReadingError.Slip) * p) + (ReadingError.Slip / words.Length))];
    }

    /// <summary>Bands of a check, by the car's own limit where there is one; null where the covariate that the limit depends on is missing.</summary>
    public static BandEdges? For(Check check, Condition condition, CarLimit? own, double? covariate)
    {
        Limits typical = check.Limits!;
        IReadOnlyList<LimitPoint> points = own is { Points.Count: > 0 } ? own.Points : own is null ? typical.Points : [];
        double? low = own is null ? typical.Low : own.Low, high = own is null ? typical.High : own.High;
        double? usual = UsualShare(typical, covariate);
        if (points.Count > 0)
        {
            if (covariate is not double at)
            {
                return null;
            }

            (low, high) = (At(points, at, p => p.Low), At(points, at, p => p.High));
        }

        if (own is not null && low is null != high is null)
        {
            (low, high) = Completed(check, low, high, covariate);
        }

        double spread = own is { Exact: true } ? 0 : typical.Spread;
        double[] edges = check.Edges is null ? FromLimits(check.Bands!, condition, low, high) : FromEdges(check.Edges, condition, own, low, high);
        int zero = -condition.Min;
        double limit = condition.Max > 0 ? edges[zero + 1] : edges[zero];
        return new BandEdges(edges, spread, own is not null) { Zero = zero, Lean = usual is double share ? limit * (share - 1) : 0 };
    }

    /// <summary>What is usual over the limit, as the file has it; an own limit keeps the ratio. Null where both sides are limited.</summary>
    private static double? UsualShare(Limits typical, double? covariate)
    {
        if (typical.Points.Count == 0)
        {
            return typical.Usual / (typical.Low ?? typical.High);
        }

        return covariate is double at
            ? At(typical.Points, at, p => p.Usual) / (At(typical.Points, at, p => p.Low) ?? At(typical.Points, at, p => p.High))
            : null;
    }

    /// <summary>The side that is lacking, in the ratio that the two sides of the typical limit have; where that has only one, it is that.</summary>
    private static (double? Low, double? High) Completed(Check check, double? low, double? high, double? covariate)
    {
        Limits typical = check.Limits!;
        double? usualLow = typical.Low ?? (covariate is { } l ? At(typical.Points, l, p => p.Low) : null);
        double? usualHigh = typical.High ?? (covariate is { } h ? At(typical.Points, h, p => p.High) : null);
        return usualLow is null || usualHigh is null ? (low ?? usualLow, high ?? usualHigh) : (low ?? (high * usualLow / usualHigh), high ?? (low * usualHigh / usualLow));
    }

    private static double[] FromLimits(Bands bands, Condition condition, double? low, double? high)
    {
        var edges = new double[condition.Max - condition.Min + 2];
        int zero = -condition.Min;
        for (int k = 0; k < zero; k++)
        {
            edges[zero - k] = (low ?? 0) * Math.Pow(bands.FarBelow ?? 1, k);
        }

        edges[0] = 0;
        for (int k = 0; k < condition.Max; k++)
        {
            edges[zero + 1 + k] = (high ?? 0) * Math.Pow(bands.FarAbove ?? 1, k);
        }

        // the car's own limits may lie above the model's usual top
        edges[^1] = bands.Top > edges[^2] ? bands.Top : edges[^2] * 1.5;
        return edges;
    }

    private static double[] FromEdges(IReadOnlyList<double> stated, Condition condition, CarLimit? own, double? low, double? high)
    {
        double[] edges = [.. stated];
        if (own is not null)
        {
            int zero = -condition.Min;
            edges[zero] = low ?? edges[zero];
            edges[zero + 1] = high ?? edges[zero + 1];
        }

        return edges;
    }

    /// <summary>Piecewise linear between the points, level beyond them.</summary>
    internal static double? At(IReadOnlyList<LimitPoint> points, double at, Func<LimitPoint, double?> value)
    {
        LimitPoint[] sorted = [.. points.Where(p => p.At is not null && value(p) is not null).OrderBy(p => p.At)];
        if (sorted.Length == 0)
        {
            return null;
        }

        int next = Array.FindIndex(sorted, p => p.At >= at);
        if (next <= 0)
        {
            return value(next < 0 ? sorted[^1] : sorted[0]);
        }

        double a = sorted[next - 1].At!.Value, b = sorted[next].At!.Value, from = value(sorted[next - 1])!.Value, to = value(sorted[next])!.Value;
        return from + ((to - from) * (at - a) / (b - a));
    }
}
