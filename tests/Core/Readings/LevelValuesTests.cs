using FuelHistory.Core.Readings;

namespace FuelHistory.Tests.Core.Readings;

/// <summary>Values of a level, blurred by errors, against numerical integration.</summary>
public sealed class LevelValuesTests
{
    public static TheoryData<double, double, double, double, double> Cases => new()
    {
        { 5, 10, 1.5, 5.2, 0.3 },
        { 5, 10, 1.5, 4.2, 0.3 },
        { 5, 10, 1.5, 9.8, 0.3 },
        { 0, 0.3, -0.18, 0.2, 0.05 },
        { 0, 0.3, -0.18, 0.4, 0.05 },
        { 0, 23, -3.5, 21, 4 },
        { 4, 6, 0, 5.9, 0.3 },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Density_and_Below_equal_the_integral_over_the_values(double from, double to, double mean, double x, double sd)
    {
        const int Steps = 200_000;
        double density = 0, below = 0, whole = 0;
        for (int i = 0; i < Steps; i++)
        {
            double v = from + ((to - from) * (i + 0.5) / Steps), far = mean > 0 ? v - from : to - v;
            double exponential = mean == 0 ? 0 : Math.Exp(-far / Math.Abs(mean)) / Math.Abs(mean) / (1 - Math.Exp(-(to - from) / Math.Abs(mean)));
            double p = ((mean == 0 ? 1 : 0.2) / (to - from)) + ((mean == 0 ? 0 : 0.8) * exponential), z = (x - v) / sd;
            double share = p * (to - from) / Steps;
            whole += share;
            density += share * Math.Exp(-z * z / 2) / (sd * Math.Sqrt(2 * Math.PI));
            below += share * NormalTail.Above(-z);
        }

        var values = new LevelValues(from, to, mean);
        Assert.Equal(1, whole, 1e-8);
        Assert.Equal(density, values.Density(x, sd), 1e-7 * (1 + density));
        Assert.Equal(below, values.Below(x, sd), 1e-7);
    }

    /// <summary>An open coil against at most 23 ohm: hundreds of standard deviations away, and still a number.</summary>
    [Theory]
    [InlineData(10_000, 0.5)]
    [InlineData(10_000, 300)]
    [InlineData(0, 0.01)]
    public void Density_far_away_is_a_number_not_below_zero(double x, double sd) =>
        Assert.InRange(new LevelValues(0, 23, -3.5).Density(x, sd), 0, 1);

    [Theory]
    [InlineData(1.5)]
    [InlineData(-1.5)]
    [InlineData(0.0)]
    public void At_draws_are_spread_as_Below_has_it(double mean)
    {
        var values = new LevelValues(5, 10, mean);
        double[] draws = [.. Enumerable.Range(0, 100).SelectMany(i => Enumerable.Range(0, 100).Select(j => values.At((i + 0.5) / 100, (j + 0.5) / 100)))];

        Assert.All(new[] { 5.5, 6, 7.5, 9, 9.7 }, x => Assert.Equal(values.Below(x, 1e-6), draws.Count(d => d < x) / 1e4, 0.01));
    }
}
