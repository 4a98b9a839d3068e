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

        return covariate is double at ? new LimitPair(BandEdges.At(points, at, p => p.Low), BandEdges.At(points, at, p => p.High)) : null;
    }
}
