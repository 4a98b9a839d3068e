using MathNet.Numerics;

namespace FuelHistory.Core.Readings;

/// <summary>Normal probabilities that keep their digits in the tails.</summary>
internal static class NormalTail
{
    private static readonly double Root2 = Math.Sqrt(2);

    /// <summary>P(Z above z) for a standard normal Z.</summary>
    public static double Above(double z) => 0.5 * SpecialFunctions.Erfc(z / Root2);

    /// <summary>P(a below Z below b).</summary>
    public static double Between(double a, double b) => a > 0 ? Above(a) - Above(b) : Above(-b) - Above(-a);
}
