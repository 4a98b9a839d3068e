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

    /// <summary>exp(<paramref name="log"/>) x P(a below Z below b), where one may be huge and the other tiny.</summary>
    public static double Between(double a, double b, double log) => a > 0
        ? Math.Exp(log + LogAbove(a)) - Math.Exp(log + LogAbove(b))
        : Math.Exp(log) * Between(a, b);

    private static double LogAbove(double z) => z < 25
        ? Math.Log(Above(z))
        : (-0.5 * z * z) - Math.Log(z * Math.Sqrt(2 * Math.PI)) + Math.Log(1 - (1 / (z * z)) + (3 / (z * z * z * z)));
}
