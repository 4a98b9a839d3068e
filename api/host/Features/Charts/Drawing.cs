using System.Globalization;
using FuelHistory.Contracts;
using ScottPlot;
using ScottPlot.TickGenerators;
using SkiaSharp;

namespace FuelHistory.Host.Features.Charts;

/// <summary>Draws a chart. Everything is told apart by line and mark as well as by colour, so that it survives a black and white printer.</summary>
internal static class Drawing
{
    private const int Marks = 60;
    private const float LegendRow = 20, LegendEdge = 24;
    private const double DaysOfRoom = 20;
    private static readonly Color Ink = Color.FromHex("#111111"), Second = Color.FromHex("#1f4e9c"), Grey = Color.FromHex("#777777"), Red = Color.FromHex("#a01515");

    // short enough that its piece in the legend shows it whole
    private static readonly LinePattern DashDot = new([8, 3, 2, 3], 0, "dash and dot");

    /// <summary>Plain letters, of whatever this machine has; the reader's own where it has none of these.</summary>
    public static readonly string Font = Array.Find(["DejaVu Sans", "Liberation Sans", "Noto Sans", "Segoe UI", "Arial", "Helvetica"], SKFontManager.Default.FontFamilies.Contains) ?? Fonts.Default;

    public static Plot Of(ChartView chart)
    {
        Plot plot = new();
        plot.Font.Set(Font);
        plot.Title(chart.Title, 15);
        if (chart.XUnit == "year")
        {
            chart = chart with { Series = [.. chart.Series.Select(s => s with { Points = [.. s.Points.Select(p => p with { X = Day(p.X) })] })] };
        }

        var (left, right) = Frame(plot, chart);
        plot.XLabel($"{chart.XTitle}{(chart.XUnit == "year" ? "" : $" ({chart.XUnit})")}");
        plot.YLabel($"{chart.YTitle} ({chart.YUnit})");
        foreach (var series in chart.Series.OrderBy(s => s.Kind switch { "limit" => 0, "forecast" => 1, "good" => 2, _ => 3 }))
        {
            Add(plot, chart, series, left, right);
        }

        plot.Legend.FontSize = 12;
        (plot.Legend.OutlineWidth, plot.Legend.ShadowColor) = (0, Colors.Transparent);
        // left to itself the panel is measured one row short, and the last name is cut off a picture
        plot.ShowLegend(Edge.Bottom).MinimumSize = LegendEdge + (LegendRow * chart.Series.Count(s => s.Points.Count > 0));
        return plot;
    }

    private static void Add(Plot plot, ChartView chart, ChartSeries series, double left, double right)
    {
        if (series.Points.Count == 0)
        {
            return;
        }

        switch (series.Kind)
        {
            case "limit" when chart.XUnit == "year":
                Band(plot, series, left, right);
                break;
            case "limit":
                Threshold(plot, series);
                break;
            case "forecast":
                Forecast(plot, series);
                break;
            case "good":
                Line(plot, series, Grey, DashDot, 1.8f).LegendText = series.Name;
                break;
            default:
                Readings(plot, chart, series);
                break;
        }
    }

    private static void Readings(Plot plot, ChartView chart, ChartSeries series)
    {
        var (colour, pattern, shape) = series.Run == 1 ? (Ink, LinePattern.Solid, MarkerShape.FilledCircle) : (Second, LinePattern.DenselyDashed, MarkerShape.OpenSquare);
        foreach (var p in series.Points.Where(p => p is { Low: not null, High: not null }))
        {
            var whisker = plot.Add.Line(p.X, p.Low!.Value, p.X, p.High!.Value);
            (whisker.LineColor, whisker.LineWidth) = (colour.WithAlpha(0.5), 1);
        }

        Line(plot, series, colour, pattern, chart.XUnit == "year" ? 0.8f : 1.8f);

        // of a long log every so many are marked, or the marks would hide the line
        var step = Math.Max(1, series.Points.Count / Marks);
        ChartPoint[] marked = [.. series.Points.Where((p, i) => i % step == 0)];
        var marks = plot.Add.Scatter(marked.Select(p => p.X).ToArray(), marked.Select(p => p.Value ?? 0).ToArray());
        (marks.LineWidth, marks.MarkerShape, marks.MarkerSize, marks.Color, marks.LegendText) = (0, shape, 8, colour, series.Name);
        marks.MarkerLineWidth = 1.5f;
    }

    private static void Forecast(Plot plot, ChartSeries series)
    {
        double[] x = [.. series.Points.Select(p => p.X)], low = [.. series.Points.Select(p => p.Low ?? 0)], high = [.. series.Points.Select(p => p.High ?? 0)];
        var band = plot.Add.FillY(x, low, high);
        (band.FillColor, band.LineColor, band.LineWidth) = (Grey.WithAlpha(series.Run == 1 ? 0.22 : 0.12), Grey, 0);
        foreach (var edge in new[] { low, high })
        {
            var line = plot.Add.Scatter(x, edge);
            (line.MarkerSize, line.Color, line.LinePattern, line.LineWidth) = (0, Grey, LinePattern.Dotted, 1);
        }

        Line(plot, series, series.Run == 1 ? Ink : Second, LinePattern.Dotted, 1.8f).LegendText = series.Name;
    }

    private static void Threshold(Plot plot, ChartSeries series)
    {
        var p = series.Points[0];
        var line = plot.Add.HorizontalLine(p.Low ?? p.High ?? 0, 2, Red);
        line.LinePattern = series.Run == 1 ? LinePattern.Solid : LinePattern.DenselyDashed;
        line.LegendText = series.Name;
        var mark = plot.Add.Marker(p.X, p.Low ?? p.High ?? 0, MarkerShape.FilledTriangleDown, 12, Red);
        mark.MarkerStyle.LineWidth = 0;
        var label = plot.Add.Text("limit", p.X, p.Low ?? p.High ?? 0);
        (label.LabelFontColor, label.LabelBold, label.LabelAlignment, label.OffsetY) = (Red, true, Alignment.LowerCenter, -8);
    }

    // each finding has its own limit where it depends on the circumstances; between and beyond them the band is a guide for the eye
    private static void Band(Plot plot, ChartSeries series, double left, double right)
    {
        ChartPoint[] points = [series.Points[0] with { X = left }, .. series.Points, series.Points[^1] with { X = right }];
        double[] x = [.. points.Select(p => p.X)];
        if (points.All(p => p is { Low: not null, High: not null }))
        {
            var band = plot.Add.FillY(x, [.. points.Select(p => p.Low!.Value)], [.. points.Select(p => p.High!.Value)]);
            (band.FillColor, band.LineWidth) = (Grey.WithAlpha(0.18), 0);
        }

        var named = false;
        foreach (var (side, word) in new (Func<ChartPoint, double?> Side, string)[] { (p => p.Low, "low limit"), (p => p.High, "high limit") })
        {
            if (points.All(p => side(p) is not null))
            {
                double[] y = [.. points.Select(p => side(p)!.Value)];
                var line = plot.Add.Scatter(x, y);
                (line.MarkerSize, line.Color, line.LineWidth, line.LinePattern) = (0, Red, 2, LinePattern.Solid);
                line.LegendText = named ? "" : series.Name;
                named = true;
                var label = plot.Add.Text(word, x[0], y[0]);
                (label.LabelFontColor, label.LabelBold, label.LabelAlignment, label.OffsetY) = (Red, true, Alignment.LowerLeft, -2);
            }
        }
    }

    private static ScottPlot.Plottables.Scatter Line(Plot plot, ChartSeries series, Color colour, LinePattern pattern, float width)
    {
        var line = plot.Add.Scatter(series.Points.Select(p => p.X).ToArray(), series.Points.Select(p => p.Value ?? 0).ToArray());
        (line.MarkerSize, line.Color, line.LinePattern, line.LineWidth) = (0, colour, pattern, width);
        return line;
    }

    private static (double Left, double Right) Frame(Plot plot, ChartView chart)
    {
        var points = chart.Series.SelectMany(s => s.Points).ToList();
        double[] y = [.. points.SelectMany(p => new[] { p.Value, p.Low, p.High }).OfType<double>()];
        double left = points.Count == 0 ? 0 : points.Min(p => p.X), right = points.Count == 0 ? 1 : points.Max(p => p.X), top = y.Length == 0 ? 1 : y.Max(), bottom = Math.Min(0, y.Length == 0 ? 0 : y.Min());
        if (chart.XUnit == "year")
        {
            var room = Math.Max(DaysOfRoom, (right - left) * 0.05);
            (left, right) = (left - room, right + room);
            plot.Axes.DateTimeTicksBottom();
            ((DateTimeAutomatic)plot.Axes.Bottom.TickGenerator).LabelFormatter = day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        }
        else
        {
            (left, right) = (0, Math.Max(1, right));
            plot.Axes.Bottom.TickGenerator = new NumericAutomatic { LabelFormatter = x => x.ToString("0.##", CultureInfo.InvariantCulture) };
        }

        plot.Axes.SetLimits(left, right, bottom, top * 1.1);
        plot.Axes.Left.TickGenerator = new NumericAutomatic { LabelFormatter = v => v.ToString("0.##", CultureInfo.InvariantCulture) };
        return (left, right);
    }

    // a year and its share as the axis counts days
    private static double Day(double year)
    {
        var whole = (int)Math.Floor(year);
        return new DateTime(whole, 1, 1, 0, 0, 0, DateTimeKind.Unspecified).AddDays((year - whole) * (DateTime.IsLeapYear(whole) ? 366 : 365)).ToOADate();
    }
}
