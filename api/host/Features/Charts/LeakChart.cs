using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Charts;

/// <summary>One leak-down as a chart, or two in one frame.</summary>
internal static class LeakChart
{
    public static ChartView Of(LeakDownView one, LeakDownView? other)
    {
        var unit = one.LeakDown.Unit;
        List<ChartSeries> series = [.. Series(one, 1, unit, other is null ? "" : $"{Day(one)}: ")];
        var title = $"{one.LeakDown.Title}, {Day(one)}";
        if (other is not null)
        {
            title += $", beside {(other.LeakDown.Check == one.LeakDown.Check ? "" : other.LeakDown.Title + ", ")}{Day(other)}";
            var second = Series(other, 2, unit, $"{Day(other)}: ").ToList();
            if (series.Find(s => s.Kind == "limit") is { } limit && second.Find(s => s.Kind == "limit") is { } its)
            {
                // one line where both have one limit, else each says whose it is
                second.Remove(its);
                var same = its.Name == limit.Name;
                series[series.IndexOf(limit)] = same ? limit : limit with { Name = $"{Day(one)}: {limit.Name}" };
                second.AddRange(same ? [] : [its with { Name = $"{Day(other)}: {its.Name}" }]);
            }

            series.AddRange(second);
        }

        return new ChartView(
            title, other is null ? Said(one) : $"{Said(one)} Beside it, {Day(other)}: {Said(other)}", "Time since the stop", "min", "Pressure", unit, series,
            [.. one.LeakDown.Cautions.Concat(other?.LeakDown.Cautions ?? []).Distinct()]);
    }

    private static IEnumerable<ChartSeries> Series(LeakDownView view, int run, string unit, string prefix)
    {
        double In(double value, string from) => Quantity.Pressure.Convert(value, from, unit);
        double? Maybe(double? value, string from) => value is { } v ? In(v, from) : null;
        var standing = view.Readings.Where(r => r.TakenBack is null)
            .Select(r => new ChartPoint(r.Minutes, In(r.Pressure.Value, r.Pressure.Unit), Maybe(r.Lowest, r.Pressure.Unit), Maybe(r.Highest, r.Pressure.Unit)));
        yield return new ChartSeries($"{prefix}readings", "readings", run, [.. standing]);
        if (view.Analysis is not { } a)
        {
            yield break;
        }

        // what is past is read, what is to come is foreseen
        var coming = a.Forecast.Where(f => f.Minutes >= a.AsOfMinutes).ToList();
        if (coming.Count > 1)
        {
            yield return new ChartSeries($"{prefix}to come, with the band that holds 95 %", "forecast", run, [.. coming.Select(f => new ChartPoint(f.Minutes, In(f.Median, a.Unit), In(f.Low, a.Unit), In(f.High, a.Unit)))]);
        }

        if (run == 1)
        {
            yield return new ChartSeries("a tight section would show", "good", run, [.. a.Forecast.Select(f => new ChartPoint(f.Minutes, In(f.Good, a.Unit)))]);
        }

        var limit = In(a.Limit, a.Unit);
        yield return new ChartSeries($"limit: at least {Names.Number(Math.Round(limit, 2))} {unit} at {Names.Number(a.LimitMinutes)} min ({LimitWords.Brief(a.LimitSource)})", "limit", run, [new ChartPoint(a.LimitMinutes, null, Low: limit)]);
    }

    private static string Said(LeakDownView view)
    {
        var standing = view.Readings.Where(r => r.TakenBack is null).ToList();
        if (standing.Count == 0)
        {
            return "No reading yet.";
        }

        var (first, last) = (standing[0], standing[^1]);
        var fall = $"The pressure went from {Text(first)} to {Text(last)} in {standing.Count} readings.";
        return view.Analysis is { Shapes: [var shape, ..] } a
            ? $"{fall} {a.Says} Likeliest shape: {shape.Words} ({PlainFigures.Chance(shape.Probability, a.Figures)}); {a.Tau.Words()}."
            : fall;
    }

    private static string Text(LeakReading r) =>
        string.Create(CultureInfo.InvariantCulture, $"{r.Pressure.Value:0.##} {r.Pressure.Unit} at {r.Minutes:0.##} min");

    private static string Day(LeakDownView view) => view.LeakDown.StoppedAt.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
