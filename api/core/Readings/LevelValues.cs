namespace FuelHistory.Core.Readings;

/// <summary>Where the true value lies at one level: uniform in its band, or, at level 0 of a limit with one side only, mostly near what is
/// usual: 0.8 exponential from the limit on, 0.2 uniform (MODEL.md 5).</summary>
/// <param name="Mean">Of the exponential: what is usual less the limit. Above 0 it runs up from <paramref name="From"/>, below 0 down from
/// <paramref name="To"/>; 0: all uniform.</param>
internal readonly record struct LevelValues(double From, double To, double Mean)
{
    private const double Leaning = 0.8;

    public double Width => To - From;

    /// <summary>Mean over the values of the normal density at <paramref name="centre"/>.</summary>
    public double Density(double centre, double sd)
    {
        double uniform = NormalTail.Between((From - centre) / sd, (To - centre) / sd) / Width;
        return Mean == 0 ? uniform : (Leaning * Exponential(centre, sd)) + ((1 - Leaning) * uniform);
    }

    /// <summary>P(value + error below x), the error normal.</summary>
    public double Below(double x, double sd)
    {
        double uniform = sd * (Integral((x - From) / sd) - Integral((x - To) / sd)) / Width;
        if (Mean == 0)
        {
            return uniform;
        }

        // by parts: what the exponential holds below x is its end points' share less its mean times the density at x
        double near = NormalTail.Above((Limit - x) / sd), far = NormalTail.Above((Far - x) / sd);
        double below = ((near - (Left * far)) / (1 - Left)) - (Mean * Exponential(x, sd));
        return (Leaning * Math.Clamp(below, 0, 1)) + ((1 - Leaning) * uniform);
    }

    /// <summary>A value drawn: two shares 0..1, one for uniform or exponential, one for where.</summary>
    public double At(double kind, double share)
    {
        if (Mean == 0 || kind >= Leaning)
        {
            return From + (Width * share);
        }

        return Limit - (Mean * Math.Log(1 - (share * (1 - Left))));
    }

    private double Limit => Mean > 0 ? From : To;

    private double Far => Mean > 0 ? To : From;

    /// <summary>What of the exponential would lie beyond the band's far end.</summary>
    private double Left => Math.Exp(-Width / Math.Abs(Mean));

    /// <summary>The normal tilted by the exponential is a normal whose centre has moved towards the limit.</summary>
    private double Exponential(double centre, double sd)
    {
        double size = Math.Abs(Mean), distance = Mean > 0 ? centre - From : To - centre, moved = distance - (sd * sd / size);
        double log = (sd * sd / (2 * size * size)) - (distance / size);
        return NormalTail.Between(-moved / sd, (Width - moved) / sd, log) / (size * (1 - Left));
    }

    /// <summary>Integral of the normal distribution function.</summary>
    private static double Integral(double z) => (z * NormalTail.Above(-z)) + (Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI));
}
