using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using FuelHistory.Contracts;
using FuelHistory.Host.Validation;
using ScottPlot;
using static FuelHistory.Host.Http.Markup;

namespace FuelHistory.Host.Features.Charts;

/// <summary>A chart as picture or as table.</summary>
internal static partial class ChartForms
{
    private const int Width = 960, Height = 640;

    private const string Style = "body{font-family:sans-serif;margin:1rem;max-width:62rem}svg{max-width:100%;height:auto}table{border-collapse:collapse}"
        + "td,th{border:1px solid #777;padding:.15rem .5rem;text-align:right}td:first-child,th:first-child{text-align:left}@media print{tr,svg{break-inside:avoid}}";

    /// <summary>By the word of format=, the first being what is sent where anything will do.</summary>
    public static readonly IReadOnlyList<(string Format, string MediaType)> All =
        [("svg", "image/svg+xml"), ("png", "image/png"), ("html", "text/html"), ("csv", "text/csv"), ("json", "application/json")];

    public static byte[] Of(ChartView chart, string format, JsonSerializerOptions json) => format switch
    {
        "svg" => Encoding.UTF8.GetBytes(Svg(chart)),
        "png" => Drawing.Of(chart).GetImageBytes(Width, Height, ImageFormat.Png),
        "html" => Encoding.UTF8.GetBytes(Html(chart)),
        "csv" => Encoding.UTF8.GetBytes(Csv(chart)),
        _ => JsonSerializer.SerializeToUtf8Bytes(chart, json),
    };

    // the drawing knows no words for who cannot see it; they go in behind its opening tag
    private static string Svg(ChartView chart)
    {
        // its names for clip paths are counted on from drawing to drawing; here one drawing is to be the same every time
        List<string> names = [];
        var drawn = ClipName().Replace(Drawing.Of(chart).GetSvgXml(Width, Height), name =>
        {
            if (!names.Contains(name.Value))
            {
                names.Add(name.Value);
            }

            return $"clip-{names.IndexOf(name.Value)}";
        });
        var begin = drawn.IndexOf("<svg", StringComparison.Ordinal);
        var end = drawn.IndexOf('>', begin);
        var tag = Size().Replace(drawn[begin..end], "");
        return $"{drawn[..begin]}{tag} viewBox=\"0 0 {Width} {Height}\" width=\"{Width}\" height=\"{Height}\" role=\"img\" aria-labelledby=\"chart-title chart-desc\">"
            + $"<title id=\"chart-title\">{Text(chart.Title)}</title><desc id=\"chart-desc\">{Text(chart.Description)}</desc>{drawn[(end + 1)..].Replace($"font-family=\"{Drawing.Font}\"", $"font-family=\"{Drawing.Font}, sans-serif\"", StringComparison.Ordinal)}";
    }

    private static string Csv(ChartView chart)
    {
        StringBuilder text = new();
        text.Append($"series,kind,run,{(chart.XUnit == "year" ? "date" : "minutes")},value,low,high,unit\r\n");
        foreach (var (series, p) in chart.Series.SelectMany(s => s.Points.Select(p => (s, p))))
        {
            text.Append(CultureInfo.InvariantCulture, $"{Cell(series.Name)},{series.Kind},{series.Run},{p.Label ?? Number(p.X)},{Number(p.Value)},{Number(p.Low)},{Number(p.High)},{chart.YUnit}\r\n");
        }

        return text.ToString();
    }

    private static string Html(ChartView chart)
    {
        StringBuilder text = new();
        text.Append($$"""
            <!doctype html>
            <html lang="en"><head><meta charset="utf-8"><title>{{Text(chart.Title)}}</title>
            <style>{{Style}}</style></head>
            <body><h1>{{Text(chart.Title)}}</h1><p>{{Text(chart.Description)}}</p>

            """);
        var picture = Svg(chart);
        text.Append(picture[picture.IndexOf("<svg", StringComparison.Ordinal)..]);
        if (chart.Cautions.Count > 0)
        {
            text.Append("<h2>Before you measure</h2><ul>").AppendJoin("", chart.Cautions.Select(c => $"<li>{Text(c)}</li>")).Append("</ul>");
        }

        text.Append($"<table><caption>The same as figures</caption><thead><tr><th scope=\"col\">series</th><th scope=\"col\">{Text(chart.XUnit == "year" ? "date" : $"{chart.XTitle} ({chart.XUnit})")}</th><th scope=\"col\">{Text(chart.YTitle)} ({Text(chart.YUnit)})</th><th scope=\"col\">low</th><th scope=\"col\">high</th></tr></thead><tbody>");
        foreach (var (series, p) in chart.Series.SelectMany(s => s.Points.Select(p => (s, p))))
        {
            text.Append($"<tr><td>{Text(series.Name)}</td><td>{Text(p.Label ?? Number(p.X))}</td><td>{Number(p.Value)}</td><td>{Number(p.Low)}</td><td>{Number(p.High)}</td></tr>\n");
        }

        return text.Append("</tbody></table></body></html>\n").ToString();
    }

    private static string Number(double? value) => value is { } v ? v.ToString("0.####", CultureInfo.InvariantCulture) : "";

    // a cell that a spreadsheet would take for a formula is given as text
    private static string Cell(string text)
    {
        var safe = text.Length > 0 && "=+-@\t\r".Contains(text[0], StringComparison.Ordinal) ? "'" + text : text;
        return safe.AsSpan().IndexOfAny(",\"\r\n") >= 0 ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }

    [GeneratedRegex("""\s(?:width|height|viewBox)="[^"]*"|/$""")]
    private static partial Regex Size();

    [GeneratedRegex(@"\bcl_[0-9a-f]+\b")]
    private static partial Regex ClipName();
}
