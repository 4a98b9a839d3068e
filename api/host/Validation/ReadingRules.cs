using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;

namespace FuelHistory.Host.Validation;

/// <summary>Readings, leak-downs and conditions of a finding, against what the check can show.</summary>
internal static class ReadingRules
{
    private const double LongestMinutes = 24 * 60;

    // A leak-down starts from the hold pressure; more than this many times as much is a slip.
    private const double FarAboveHold = 3;

    public static Quantity QuantityOf(Check check) => Quantity.Find(check.Quantity ?? "pressure") ?? Quantity.Pressure;

    public static string UnitOf(Check check) => check.Limits?.Unit ?? QuantityOf(check).Units[0];

    /// <summary>What the check can show at all, in its unit.</summary>
    public static (double Low, double High) Range(Check check) =>
        check.Edges is { Count: > 1 } edges ? (Math.Min(0, edges[0]), edges[^1])
        : check.Kind == CheckKind.LeakDown ? (0, check.Bands?.Top ?? (check.Limits?.Hold ?? check.Limits?.From ?? 3.5) * FarAboveHold)
        : (0, check.Bands?.Top ?? double.MaxValue);

    public static void Reading(Faults faults, Check check, Measured reading, bool confirmed)
    {
        var (low, high) = Range(check);
        Value(faults, "/reading", check, reading, low, high, confirmed);
    }

    public static void Points(Faults faults, Check check, IReadOnlyList<PressurePoint> points, bool confirmed)
    {
        if (points.Count == 0)
        {
            faults.Required("/points", "points is empty; give at least one pressure with its minutes since the stop.");
        }

        var (low, high) = Range(check);
        for (var i = 0; i < points.Count; i++)
        {
            var here = $"/points/{i}";
            faults.Within(here + "/minutes", points[i].Minutes, 0, LongestMinutes, " min");
            if (i > 0 && points[i].Minutes <= points[i - 1].Minutes)
            {
                var twice = points[i].Minutes == points[i - 1].Minutes;
                faults.Add(here + "/minutes", Problems.OutOfRange, $"Point {i + 1} is at {Names.Number(points[i].Minutes)} min, {(twice ? "as point" : "earlier than point")} {i}; enter the points in the order of time, each minute once.");
            }

            Value(faults, here + "/pressure", check, points[i].Pressure, low, high, confirmed);
        }
    }

    /// <summary>One pressure of a leak-down.</summary>
    public static void Pressure(Faults faults, string pointer, Check check, Measured pressure, bool confirmed)
    {
        var (low, high) = Range(check);
        Value(faults, pointer, check, pressure, low, high, confirmed);
    }

    /// <summary>The covariate that the check needs is there, nothing else is, and the figures are possible.</summary>
    public static void Conditions(Faults faults, Car car, Check? check, IReadOnlyDictionary<string, Measured>? given, bool measured, bool confirmed)
    {
        var known = car.Model.Checks.Where(c => c.Covariate is not null).Select(c => c.Covariate!).DistinctBy(c => c.Id).ToDictionary(c => c.Id);
        foreach (var (id, value) in given ?? new Dictionary<string, Measured>())
        {
            var here = $"/conditions/{id.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)}";
            if (faults.Known(here, "condition to note", id, known.Keys))
            {
                Condition(faults, here, known[id], value, confirmed);
            }
        }

        if (measured && check?.Covariate is { } needed && given?.ContainsKey(needed.Id) != true)
        {
            faults.Add($"/conditions/{needed.Id}", Problems.MissingCovariate, $"\"{check.Id}\" cannot be judged without the {needed.Title}; add it as conditions.{needed.Id} in {needed.Unit}.");
        }
    }

    private static void Condition(Faults faults, string here, Covariate covariate, Measured value, bool confirmed)
    {
        var quantity = Quantity.Find(covariate.Quantity) ?? throw new InvalidOperationException($"The fault model's covariate {covariate.Id} is of no known quantity.");
        if (MeasuredRules.In(faults, here, value, quantity, covariate.Unit) is null || confirmed)
        {
            return;
        }

        var (low, high, unit) = quantity == Quantity.Temperature ? (-50.0, 200.0, "°C") : quantity == Quantity.Voltage ? (0.0, 32.0, "V") : (0, double.MaxValue, covariate.Unit);
        MeasuredRules.Plausible(faults, here, value, quantity, unit, low, high);
    }

    private static void Value(Faults faults, string pointer, Check check, Measured value, double low, double high, bool confirmed)
    {
        var quantity = QuantityOf(check);
        var there = MeasuredRules.In(faults, pointer, value, quantity, UnitOf(check), below: low < 0);
        if (there is not null && !confirmed)
        {
            MeasuredRules.Plausible(faults, pointer, value, quantity, UnitOf(check), low, high);
        }
    }
}
