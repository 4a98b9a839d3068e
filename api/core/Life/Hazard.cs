using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Life;

/// <summary>Weibull hazard with a gamma-distributed multiplier (MODEL.md 2; NIST/SEMATECH e-Handbook 8.1.6.2 for the Weibull).</summary>
public static class Hazard
{
    /// <summary>Cumulative hazard H = (years/A)^b + (km/K)^b + l x parked years; terms that the life does not give are left out.</summary>
    public static double Cumulative(LifeFigures life, Exposure since)
    {
        double h = life.PerParkedYear * Math.Max(0, since.ParkedYears);
        if (life.Years is double years)
        {
            h += Power(Math.Max(0, since.UsedYears) / years, life.Shape);
        }

        if (life.Km is double km)
        {
            h += Power(Math.Max(0, since.Km) / km, life.Shape);
        }

        return h;
    }

    /// <summary>Probability of surviving from cumulative hazard <paramref name="from"/> (known good there) to <paramref name="to"/>, the
    /// multiplier being Gamma(shape <paramref name="a"/>, rate <paramref name="b"/>): ((b + from) / (b + to))^a.</summary>
    public static double Survival(double from, double to, double a, double b)
    {
        double ratio = (b + from) / (b + to);
        return a == 2 ? ratio * ratio : Math.Pow(ratio, a);
    }

    private static double Power(double x, double shape) => shape switch
    {
        1 => x,
        2 => x * x,
        3 => x * x * x,
        1.5 => x * Math.Sqrt(x),
        2.5 => x * x * Math.Sqrt(x),
        3.5 => x * x * x * Math.Sqrt(x),
        _ => Math.Pow(x, shape),
    };
}
