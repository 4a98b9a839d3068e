using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Readings;

/// <summary>What a car should read for a check under given circumstances, in the quantity's first unit; a side that is not limited is null.</summary>
public sealed record LimitPair(double? Low, double? High)
{
    /// <summary>The car's own limit where there is one; null where the covariate that the limit depends on is missing.</summary>
    public static LimitPair? For(Check check, CarLimit? own, double? covariate)
    {
        Limits typical = check.Limits!;
        IReadOnlyList<LimitPoint> points = own is { Points.Count: > 0 } ? own.Points : own is null ? typical.Points : [];
        if (points.Count == 0)
        {
            return own is null ? new LimitPair(typical.Low, typical.High) : new LimitPair(own.Low, own.High);
        }

        return covariate is double at ? new LimitPair(At(points, at, p => p.Low), At(points, at, p => p.High)) : null;
    }

    /// <summary>Piecewise linear between the points, level beyond them.</summary>
    private static double? At(IReadOnlyList<LimitPoint> points, double at, Func<LimitPoint, double?> value)
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
