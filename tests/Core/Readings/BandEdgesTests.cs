using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Readings;

/// <summary>Limits as bands of the condition's levels (MODEL.md 5), by the real checks.</summary>
public sealed class BandEdgesTests
{
    private static double[] Edges(string check, CarLimit? own = null, double? covariate = null)
    {
        Check source = ModelFile.Model.Checks.Single(c => c.Id == check);
        return BandEdges.For(source, ModelFile.Model.Conditions.Single(c => c.Id == source.Measures), own, covariate)!.Edges;
    }

    [Fact]
    public void Typical_limits_lie_between_far_below_and_far_above()
    {
        Check source = ModelFile.Model.Checks.Single(c => c.Id == "system-pressure");
        double low = source.Limits!.Low!.Value, high = source.Limits.High!.Value;

        Assert.Equal([0, low * source.Bands!.FarBelow!.Value, low, high, high * source.Bands.FarAbove!.Value, source.Bands.Top], Edges("system-pressure"));
    }

    [Theory]
    [InlineData("pump-voltage")]
    [InlineData("cranking-voltage")]
    [InlineData("compression-spread")]
    [InlineData("dead-head")]
    public void Top_is_the_models_where_the_limit_lies_below_it(string check) =>
        Assert.Equal(ModelFile.Model.Checks.Single(c => c.Id == check).Bands!.Top, Edges(check)[^1]);

    [Fact]
    public void Top_rises_above_an_own_limit_that_lies_beyond_it()
    {
        double[] edges = Edges("system-pressure", new CarLimit("l", "system-pressure", 9, 12, null, []));

        Assert.True(edges[^1] > edges[^2] && edges[^2] > 12, string.Join(' ', edges));
    }

    [Theory]
    [InlineData(0, 0.5, 0.9)]
    [InlineData(5, 0.7, 1.15)]
    [InlineData(20, 1.3, 1.9)]
    [InlineData(60, 2.3, 3.0)]
    public void Covariate_between_two_points_is_on_the_line_and_level_beyond_them(double at, double low, double high)
    {
        Assert.Equal(low, Edges("control-cold", covariate: at)[2], 1e-12);
        Assert.Equal(high, Edges("control-cold", covariate: at)[3], 1e-12);
    }
}
