using FuelHistory.Contracts;
using FuelHistory.Core.Readings;

namespace FuelHistory.Host.Validation;

/// <summary>A value with a unit, as entered: does the unit fit, is the number possible?</summary>
public static class MeasuredRules
{
    private const double AbsoluteZero = -273.15;

    /// <returns>The value in <paramref name="unit"/>, or null with a fault.</returns>
    /// <param name="below">Whether values below zero are possible here although the quantity has none by itself (vacuum).</param>
    public static double? In(Faults faults, string pointer, Measured value, Quantity quantity, string unit, bool below = false)
    {
        if (!Fits(faults, pointer + "/unit", value.Unit, quantity))
        {
            return null;
        }

        var converted = quantity.Convert(value.Value, value.Unit, unit);
        if (!double.IsFinite(converted))
        {
            faults.Add(pointer + "/value", Problems.OutOfRange, $"{Names.Field(pointer)} {value.Value} {value.Unit} is too large to be a reading.");
            return null;
        }

        if (quantity == Quantity.Temperature && quantity.Convert(value.Value, value.Unit, "°C") < AbsoluteZero)
        {
            faults.Add(pointer + "/value", Problems.OutOfRange, $"{Names.Field(pointer)} {Text(value)} is colder than anything can be. Check the figure and the unit.");
            return null;
        }

        if (value.Value < 0 && !quantity.CanBeNegative && !below)
        {
            faults.Add(pointer + "/value", Problems.OutOfRange, $"{Names.Field(pointer)} is {Text(value)}; a {quantity.Id} here cannot be below 0. Check the sign, the zero of the instrument and which way round it is connected.");
            return null;
        }

        return converted;
    }

    public static bool Fits(Faults faults, string pointer, string unit, Quantity quantity)
    {
        if (quantity.Has(unit))
        {
            return true;
        }

        var other = Quantity.OfUnit(unit);
        var says = other is null ? $"\"{unit}\" is no unit that is known here" : $"\"{unit}\" is a unit of {other.Id}";
        faults.Add(pointer, Problems.WrongUnit, $"{says}; {Names.Field(pointer)} needs a {quantity.Id}: {string.Join(", ", quantity.Units)}.");
        return false;
    }

    /// <summary>Not impossible, but outside what this check can show: asked about, with the slips that would explain it.</summary>
    public static void Plausible(Faults faults, string pointer, Measured value, Quantity quantity, string unit, double low, double high)
    {
        var converted = quantity.Convert(value.Value, value.Unit, unit);
        if (converted >= low && converted <= high)
        {
            return;
        }

        var guesses = Slips(value, quantity, unit, low, high);
        var maybe = guesses.Count > 0 ? $" Did you mean {string.Join(", or ", guesses)}?" : "";
        faults.Add(pointer + "/value", Problems.Implausible, $"{Names.Field(pointer)} is {Text(value)}, far from anything this check shows ({Names.Number(low)} to {Names.Number(high)} {unit}).{maybe} Correct it, or confirm it if it is right.");
    }

    public static string Text(Measured value) => $"{Names.Number(value.Value)} {value.Unit}";

    // A slipped decimal point or a unit read for another: whichever brings the value to where the check can be. The point
    // is allowed to land a little beyond the range, since it is the likeliest slip.
    private static List<string> Slips(Measured value, Quantity quantity, string unit, double low, double high)
    {
        List<string> slips = [];
        foreach (var factor in new[] { 0.1, 0.01, 10, 100 })
        {
            Measured shifted = new(value.Value * factor, value.Unit);
            var there = quantity.Convert(shifted.Value, shifted.Unit, unit);
            if (there >= low && there <= high * 1.5 && slips.Count == 0)
            {
                slips.Add(Text(shifted));
            }
        }

        foreach (var other in quantity.Units.Where(u => u != value.Unit))
        {
            var there = quantity.Convert(value.Value, other, unit);
            if (there >= low && there <= high && there != 0)
            {
                slips.Add($"{Names.Number(value.Value)} {other} ({Names.Number(Math.Round(there, 2))} {unit})");
            }
        }

        return [.. slips.Take(3)];
    }
}
