using FuelHistory.Core.Readings;

namespace FuelHistory.Tests.Core.Readings;

public sealed class QuantityTests
{
    // source: NIST SP 811 (2008), appendix B, factors to seven digits as printed; figures noted down from memory and checked against
    // the exact definitions (pound 0.45359237 kg, standard gravity 9.80665 m/s2, inch 0.0254 m, mile 1609.344 m)
    [Theory]
    [InlineData("pressure", "psi", "kPa", 6.894757, 5e-7)]
    [InlineData("pressure", "kgf/cm2", "kPa", 98.0665, 1e-9)]
    [InlineData("pressure", "bar", "kPa", 100, 1e-9)]
    [InlineData("pressure", "MPa", "bar", 10, 1e-9)]
    [InlineData("pressure", "mbar", "bar", 0.001, 1e-12)]
    [InlineData("pressure", "bar", "psi", 14.503773773, 5e-9)]
    [InlineData("pressure", "kgf/cm2", "psi", 14.223343307, 5e-9)]
    [InlineData("pressure", "kgf/cm²", "kgf/cm2", 1, 1e-12)]
    [InlineData("distance", "mi", "km", 1.609344, 1e-12)]
    [InlineData("voltage", "mV", "V", 0.001, 1e-12)]
    [InlineData("current", "mA", "A", 0.001, 1e-12)]
    [InlineData("resistance", "kohm", "ohm", 1000, 1e-9)]
    [InlineData("volume", "l", "ml", 1000, 1e-9)]
    [InlineData("time", "min", "s", 60, 1e-9)]
    public void Unit_converts_by_the_published_factor(string quantity, string from, string to, double factor, double within)
    {
        Assert.Equal(factor, Quantity.Find(quantity)!.Convert(1, from, to), within);
        Assert.Equal(3 * factor, Quantity.Find(quantity)!.Convert(3, from, to), 3 * within);
    }

    // source: NIST SP 811 (2008), appendix B.9: t/°C = (t/°F - 32)/1.8
    [Theory]
    [InlineData(32, 0)]
    [InlineData(212, 100)]
    [InlineData(-40, -40)]
    [InlineData(68, 20)]
    public void Fahrenheit_converts_by_the_published_rule(double fahrenheit, double celsius)
    {
        Assert.Equal(celsius, Quantity.Temperature.Convert(fahrenheit, "°F", "°C"), 1e-9);
        Assert.Equal(celsius, Quantity.Temperature.Convert(fahrenheit, "F", "C"), 1e-9);
        Assert.Equal(fahrenheit, Quantity.Temperature.Convert(celsius, "C", "F"), 1e-9);
    }

    [Fact]
    public void Every_unit_belongs_to_one_quantity_and_comes_back()
    {
        foreach (var quantity in Quantity.All)
        {
            foreach (var unit in quantity.Units)
            {
                Assert.Same(quantity, Quantity.OfUnit(unit));
                Assert.Equal(7.25, quantity.Convert(quantity.Convert(7.25, unit, quantity.Units[0]), quantity.Units[0], unit), 1e-9);
            }
        }
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Value_that_is_not_finite_is_refused(double value)
    {
        Assert.Throws<ArgumentException>(() => Quantity.Pressure.Convert(value, "bar", "psi"));
    }

    [Fact]
    public void Unit_of_another_quantity_is_refused_with_those_that_fit()
    {
        var refused = Assert.Throws<ArgumentException>(() => Quantity.Pressure.Convert(1, "V", "bar"));

        Assert.Contains("bar, psi, kPa, MPa, kgf/cm2", refused.Message, StringComparison.Ordinal);
        Assert.Null(Quantity.OfUnit("PSI"));
        Assert.Null(Quantity.Find("colour"));
    }
}
