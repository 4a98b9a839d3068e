using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Tests.Core.Life;

/// <summary>Hazard and survival as the program uses them. With a wide gamma shape the multiplier is 1 and what is left is the plain
/// Weibull. Years stand for whatever unit of time the source uses.</summary>
public sealed class HazardTests
{
    /// <summary>A multiplier so narrow that the plain Weibull is met to 1e-8.</summary>
    private const double Narrow = 1e6;

    // source: NIST/SEMATECH e-Handbook of Statistical Methods 8.1.6.2, Weibull example (shape 1.5, scale 5000, T = 1000); figures from memory
    private static readonly LifeFigures Handbook = new() { Years = 5000, Shape = 1.5 };

    private static double Fails(LifeFigures life, double from, double to) =>
        1 - Hazard.Survival(Hazard.Cumulative(life, Used(from)), Hazard.Cumulative(life, Used(to)), Narrow, Narrow);

    private static Exposure Used(double years) => new(years, 0, 0);

    [Fact]
    public void Weibull_cdf_is_the_handbooks()
    {
        Assert.Equal(0.08556, Fails(Handbook, 0, 1000), 5e-6);
        Assert.Equal(0.0855594, Fails(Handbook, 0, 1000), 5e-8); // recomputed from the formula
    }

    [Fact]
    public void Weibull_pdf_and_hazard_are_the_handbooks()
    {
        double pdf = (Fails(Handbook, 0, 1001) - Fails(Handbook, 0, 999)) / 2;
        double hazard = (Hazard.Cumulative(Handbook, Used(1001)) - Hazard.Cumulative(Handbook, Used(999))) / 2;

        Assert.Equal(0.000123, pdf, 5e-7);
        Assert.Equal(1.34164e-4, hazard, 5e-10); // recomputed from the formula
    }

    [Fact]
    public void Survival_known_good_earlier_counts_from_there()
    {
        // computed from exp((t/eta)^b - ((t+s)/eta)^b), b = 2, eta = 100, good at 50, asked at 80
        Assert.Equal(0.677057, 1 - Fails(new LifeFigures { Years = 100, Shape = 2 }, 50, 80), 5e-7);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(1.5)]
    [InlineData(2)]
    [InlineData(2.2)]
    [InlineData(2.5)]
    [InlineData(3)]
    [InlineData(3.5)]
    public void Cumulative_every_shape_is_the_power(double shape)
    {
        var life = new LifeFigures { Years = 17, Km = 140_000, Shape = shape, PerParkedYear = 0.004 };

        Assert.Equal(
            Math.Exp(shape * Math.Log(9.0 / 17)) + Math.Exp(shape * Math.Log(90_000.0 / 140_000)) + (0.004 * 6),
            Hazard.Cumulative(life, new Exposure(9, 90_000, 6)),
            1e-12);
    }

    [Theory]
    [InlineData(2, 2, 0, 0.828)]         // the model's usual spread at a median life
    [InlineData(2, 2, 0.5, 3)]
    [InlineData(3, 1.5, 0, 1.2)]
    [InlineData(4, 3309, 0, 600)]        // source: NIST/SEMATECH e-Handbook 8.4.6, posterior a' = 4, b' = 3309 h; from memory
    [InlineData(4, 3309, 500, 1900)]
    public void Survival_is_the_gamma_mixture_of_exponentials(int a, double b, double from, double to)
    {
        // E[exp(-r to)] / E[exp(-r from)] over r ~ Gamma(a, rate b) by Simpson's rule; the gamma function cancels
        double top = 60 / b, up = 0, down = 0;
        const int Steps = 20_000;
        for (int i = 0; i <= Steps; i++)
        {
            double r = top * i / Steps, w = i is 0 or Steps ? 1 : i % 2 == 1 ? 4 : 2, density = Math.Pow(r, a - 1) * Math.Exp(-b * r);
            up += w * density * Math.Exp(-r * to);
            down += w * density * Math.Exp(-r * from);
        }

        Assert.Equal(up / down, Hazard.Survival(from, to, a, b), 1e-8);
    }

    [Fact]
    public void Survival_slope_at_the_start_is_the_mean_rate()
    {
        // source: NIST/SEMATECH e-Handbook 8.4.6: after 1909 h and 2 failures Gamma(2 + 2, 1400 + 1909); mean rate a/b; from memory
        Assert.Equal(4.0 / 3309, (1 - Hazard.Survival(0, 1e-3, 2 + 2, 1400 + 1909)) / 1e-3, 1e-8);
    }

    [Fact]
    public void Survival_at_the_characteristic_median_is_one_half() =>
        Assert.Equal(0.5, Hazard.Survival(0, 2 * (Math.Sqrt(2) - 1), 2, 2), 1e-12);
}
