using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Facts;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Features.Instruments;
using FuelHistory.Host.Features.LeakDowns;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Validation;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Charts;

/// <summary>What one check showed over the years, against what the car should read.</summary>
public sealed class TrendChart(FindingStore findings, LimitStore limits, InstrumentStore instruments)
{
    public ChartView Of(SqliteConnection connection, Car car, Check check)
    {
        // 1. what was found and the limit that holds
        var id = car.Vehicle.Entry.Id;
        var found = findings.OfVehicle(connection, car).Where(f => f.Check == check.Id && f.Entry.VoidReason is null && (f.Reading ?? f.Points?[0].Pressure) is not null).ToList();
        var own = limits.InForce(connection, id, check.Id);
        var quantity = ReadingRules.QuantityOf(check);
        var unit = own?.Unit ?? check.Limits?.Unit ?? quantity.Units[0];
        Scale scale = new(car, check, own, unit, quantity);

        // 2. a point per finding, and the limit at that point
        List<ChartPoint> values = [], bounds = [];
        foreach (var finding in found)
        {
            var (value, bound) = check.Kind == CheckKind.LeakDown ? LeakDown(connection, scale, finding) : Reading(scale, finding);
            if (value is not null)
            {
                values.Add(value);
            }

            if (bound is not null)
            {
                bounds.Add(bound);
            }
        }

        // 3. in words
        var what = check.Kind == CheckKind.LeakDown && bounds.Count > 0 ? $"Pressure {Names.Number(scale.LimitMinutes)} min after the stop" : Capital(quantity.Id);
        var source = LimitWords.Brief(LimitWords.Judge(own, car.Model, check));
        List<ChartSeries> series = [new("readings", "readings", 1, values)];
        if (bounds.Count > 0)
        {
            series.Add(new ChartSeries($"limit ({source})", "limit", 1, bounds));
        }

        return new ChartView($"{car.Vehicle.Name}: {check.Title} over time", Said(values, bounds, unit), "Date", "year", what, unit, series, check.Cautions);
    }

    private static (ChartPoint?, ChartPoint?) Reading(Scale scale, Finding finding)
    {
        if (finding.Reading is not { } reading)
        {
            return (null, null);
        }

        var covariate = scale.Check.Covariate is { } c && finding.Conditions?.GetValueOrDefault(c.Id) is { } given ? Quantity.OfUnit(given.Unit)!.Convert(given.Value, given.Unit, c.Unit) : (double?)null;
        var pair = LimitPair.For(scale.Check, scale.Own, covariate);
        return (Scale.At(finding, scale.In(reading)), pair is null ? null : scale.Bound(finding, pair.Low, pair.High));
    }

    // the pressure at the limit's minutes, as read or as the readings foretell it
    private (ChartPoint?, ChartPoint?) LeakDown(SqliteConnection connection, Scale scale, Finding finding)
    {
        if (finding.Points is not { } points)
        {
            return (null, null);
        }

        var gauge = finding.Instrument is { } id && instruments.Versions(connection, id) is [var newest, ..] ? RecordFacts.Of(newest) : null;
        var watch = LeakWatch.Of(scale.Check, scale.Own, gauge, DateOnly.FromDateTime(finding.At.DateTime), [.. points.Select(p => new LeakPoint(p.Minutes, LeakOutlooks.Bar(p.Pressure)))]);
        if (LeakAnalysis.Of(watch) is not { } report)
        {
            return (null, null);
        }

        scale.LimitMinutes = report.LimitMinutes;
        var at = Scale.At(finding, scale.FromBase(report.AtLimit.Median)) with { Low = scale.FromBase(report.AtLimit.Low), High = scale.FromBase(report.AtLimit.High) };
        return (at, scale.Bound(finding, report.LimitBar, null));
    }

    private static string Said(List<ChartPoint> values, List<ChartPoint> bounds, string unit)
    {
        if (values.Count == 0)
        {
            return "Nothing with figures was found by this check yet.";
        }

        var limit = bounds.ToLookup(b => (b.X, b.Label));
        var outside = values.Count(v => limit[(v.X, v.Label)].Any(b => v.Value < b.Low || v.Value > b.High));
        if (values.Count == 1)
        {
            return string.Create(CultureInfo.InvariantCulture, $"One finding, on {values[0].Label}: {values[0].Value:0.##} {unit}; {(outside == 0 ? "not " : "")}outside the limit.");
        }

        return string.Create(CultureInfo.InvariantCulture, $"{values.Count} findings from {values[0].Label} to {values[^1].Label}: first {values[0].Value:0.##} {unit}, last {values[^1].Value:0.##} {unit}; {outside} outside the limit.");
    }

    private static string Capital(string word) => char.ToUpperInvariant(word[0]) + word[1..];

    /// <summary>Figures of one check in the unit of its limit.</summary>
    private sealed class Scale(Car car, Check check, Limit? own, string unit, Quantity quantity)
    {
        public Check Check => check;

        public CarLimit? Own { get; } = own is null ? null : new RecordFacts(car, DateOnly.MaxValue, new Dictionary<string, DateTimeOffset>()).Of(own);

        public double LimitMinutes { get; set; }

        public double In(Measured value) => quantity.Convert(value.Value, value.Unit, unit);

        public double FromBase(double value) => quantity.Convert(value, quantity.Units[0], unit);

        public static ChartPoint At(Finding finding, double value) => new(Year(finding.At), value, Label: Day(finding.At));

        public ChartPoint Bound(Finding finding, double? low, double? high) =>
            new(Year(finding.At), null, low is { } l ? FromBase(l) : null, high is { } h ? FromBase(h) : null, Day(finding.At));

        private static double Year(DateTimeOffset at) => at.Year + ((at.DayOfYear - 1 + (at.TimeOfDay.TotalDays)) / (DateTime.IsLeapYear(at.Year) ? 366 : 365));

        private static string Day(DateTimeOffset at) => at.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
    }
}
