namespace FuelHistory.Core.LeakDown;

/// <summary>Looks that follow p0 (u + ratio x v) with one normal p0 and the gauge's shared error: the density as a function of the ratio in
/// closed form, from inner products in which the shared error is already taken out (MODEL.md 6).</summary>
/// <param name="Rest">(y, y) + from^2 / hold variance.</param>
internal readonly record struct TwoCurves(double From, double HoldVariance, double Rest, double UU, double UV, double VV, double UY, double VY)
{
    /// <summary>Logarithm of the density but for its square root, and p0 given the looks: mean and precision.</summary>
    public (double Exponent, double Mean, double Precision) At(double ratio)
    {
        double precision = (1 / HoldVariance) + UU + (ratio * ((2 * UV) + (ratio * VV)));
        double term = (From / HoldVariance) + UY + (ratio * VY);
        return (-0.5 * (Rest - (term * term / precision)), term / precision, precision);
    }

    /// <summary>Where the ratio fits best, and how sharply: least squares in p0 and p0 x ratio. Infinite width: the looks say nothing of it.</summary>
    public (double Ratio, double Width) Best()
    {
        double a = (1 / HoldVariance) + UU, det = (a * VV) - (UV * UV);
        if (!(det > 1e-12 * a * VV) || VV < 1e-9)
        {
            return (0, double.PositiveInfinity);
        }

        double b = (From / HoldVariance) + UY;
        double hold = ((VV * b) - (UV * VY)) / det, other = ((a * VY) - (UV * b)) / det;
        if (hold < 1e-3)
        {
            return (0, double.PositiveInfinity);
        }

        double ratio = other / hold;
        double variance = (a + (2 * ratio * UV) + (ratio * ratio * VV)) / det;
        return (ratio, Math.Sqrt(variance) / hold);
    }

    /// <summary>The part of from..to in which the density is not below exp(-18) of its best there.</summary>
    public static (double From, double To) Window(double best, double width, double from, double to)
    {
        if (double.IsInfinity(width))
        {
            return (from, to);
        }

        double off = (best < from ? from - best : best > to ? best - to : 0) / width, reach = Math.Sqrt((off * off) + 36) * width;
        return (Math.Max(from, best - reach), Math.Min(to, best + reach));
    }
}
