using UnitsNet;
using UnitsNet.Units;

namespace FuelHistory.Core.Readings;

/// <summary>A kind of reading (pressure, voltage, ...) with the units in which people read it. Values stay as entered; they are
/// converted only where they are used. Pressures are gauge pressures unless a check says otherwise.</summary>
public sealed class Quantity
{
    private readonly Dictionary<string, QuantityUnit> units;

    private Quantity(string id, bool canBeNegative, params QuantityUnit[] units)
    {
        Id = id;
        CanBeNegative = canBeNegative;
        this.units = units.ToDictionary(u => u.Symbol, StringComparer.Ordinal);
        Units = [.. units.Where(u => !u.Alias).Select(u => u.Symbol)];
    }

    public string Id { get; }

    /// <summary>Whether a value below zero means something by itself (a temperature); otherwise only a check's own edges allow it.</summary>
    public bool CanBeNegative { get; }

    /// <summary>Units that fit, the usual one first.</summary>
    public IReadOnlyList<string> Units { get; }

    public static readonly Quantity Pressure = new("pressure", false,
        Unit("bar", PressureUnit.Bar), Unit("psi", PressureUnit.PoundForcePerSquareInch), Unit("kPa", PressureUnit.Kilopascal),
        Unit("MPa", PressureUnit.Megapascal), Unit("kgf/cm2", PressureUnit.KilogramForcePerSquareCentimeter),
        Unit("mbar", PressureUnit.Millibar), Other("kgf/cm²", PressureUnit.KilogramForcePerSquareCentimeter));

    public static readonly Quantity Voltage = new("voltage", false,
        Unit("V", ElectricPotentialUnit.Volt), Unit("mV", ElectricPotentialUnit.Millivolt));

    public static readonly Quantity Current = new("current", false,
        Unit("A", ElectricCurrentUnit.Ampere), Unit("mA", ElectricCurrentUnit.Milliampere));

    public static readonly Quantity Resistance = new("resistance", false,
        Unit("ohm", ElectricResistanceUnit.Ohm), Unit("kohm", ElectricResistanceUnit.Kiloohm));

    public static readonly Quantity Volume = new("volume", false,
        Unit("ml", VolumeUnit.Milliliter), Unit("l", VolumeUnit.Liter));

    public static readonly Quantity Time = new("time", false,
        Unit("s", DurationUnit.Second), Unit("min", DurationUnit.Minute));

    public static readonly Quantity Temperature = new("temperature", true,
        Unit("°C", TemperatureUnit.DegreeCelsius), Unit("°F", TemperatureUnit.DegreeFahrenheit),
        Other("C", TemperatureUnit.DegreeCelsius), Other("F", TemperatureUnit.DegreeFahrenheit));

    public static readonly Quantity Distance = new("distance", false,
        Unit("km", LengthUnit.Kilometer), Unit("mi", LengthUnit.Mile));

    public static readonly Quantity Speed = new("speed", false, Unit("rpm", RotationalSpeedUnit.RevolutionPerMinute));

    public static readonly Quantity Ratio = new("ratio", false, Unit("%", RatioUnit.Percent));

    public static readonly IReadOnlyList<Quantity> All =
        [Pressure, Voltage, Current, Resistance, Volume, Time, Temperature, Distance, Speed, Ratio];

    public static Quantity? Find(string id) => All.FirstOrDefault(q => q.Id == id);

    /// <summary>The quantity that a unit belongs to, or null: no unit of ours.</summary>
    public static Quantity? OfUnit(string unit) => All.FirstOrDefault(q => q.Has(unit));

    public bool Has(string unit) => units.ContainsKey(unit);

    /// <exception cref="ArgumentException">One of the units does not fit this quantity, or the value is not finite.</exception>
    public double Convert(double value, string from, string to)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentException($"{value} {from} is no value; a finite number is needed.", nameof(value));
        }

        return from == to ? value : UnitConverter.Convert(value, Named(from), Named(to));
    }

    private Enum Named(string unit) =>
        units.TryGetValue(unit, out var found)
            ? found.Unit
            : throw new ArgumentException($"\"{unit}\" is no unit of {Id}; these fit: {string.Join(", ", Units)}.", nameof(unit));

    private static QuantityUnit Unit(string symbol, Enum unit) => new(symbol, unit, Alias: false);

    private static QuantityUnit Other(string symbol, Enum unit) => new(symbol, unit, Alias: true);

    private sealed record QuantityUnit(string Symbol, Enum Unit, bool Alias);
}
