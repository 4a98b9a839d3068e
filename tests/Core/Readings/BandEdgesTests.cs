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

    [Fact]
    public void Side_that_an_own_limit_lacks_keeps_the_ratio_of_the_typical_ones()
    {
        Limits typical = ModelFile.Model.Checks.Single(c => c.Id == "system-pressure").Limits!;

        double[] edges = Edges("system-pressure", new CarLimit("l", "system-pressure", null, 3.0, null, []));

        Assert.Equal((3.0 * typical.Low!.Value / typical.High!.Value, 3.0), (edges[2], edges[3]));
        Assert.All(edges.Zip(edges.Skip(1)), e => Assert.True(e.First < e.Second, string.Join(' ', edges)));
    }

    [Fact]
    public void Own_limit_of_the_side_that_a_check_does_not_have_leaves_the_typical_one() =>
        Assert.Equal(Edges("dead-head"), Edges("dead-head", new CarLimit("l", "dead-head", null, 6.1, null, [])));

    [Theory]
    [InlineData(true, 0)]
    [InlineData(false, 0.2)]
    public void Spread_of_an_own_limit_is_the_typical_one_where_it_is_not_exact(bool exact, double spread)
    {
        Check check = ModelFile.Model.Checks.Single(c => c.Id == "system-pressure");
        CarLimit own = new("l", check.Id, 4.7, 5.4, null, [], "somewhere", exact);

        Assert.Equal(spread, BandEdges.For(check, ModelFile.Model.Conditions.Single(c => c.Id == check.Measures), own, null)!.Spread);
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
