using System.Globalization;
using System.Text;
using FuelHistory.Contracts;
using static FuelHistory.Host.Http.Markup;

namespace FuelHistory.Host.Features.Records;

/// <summary>One complaint as the report shows it: Now is null where it is closed or no answer can be given; pictures are SVG.</summary>
internal sealed record ReportedComplaint(Complaint Complaint, Assessment? Now, Advice? Next, IReadOnlyList<string> Pictures, IReadOnlyList<string> Cautions);

/// <summary>All of one car as a web page to print: what it should read and how far that can be trusted, what is suspected, what was watched, all that was done.</summary>
internal static class ReportPage
{
    private const int Suspects = 6;

    private const string Style = "body{font-family:sans-serif;line-height:1.4;margin:1rem auto;max-width:62rem;padding:0 1rem;color:#111;background:#fff}svg{max-width:100%;height:auto}"
        + "table{border-collapse:collapse;width:100%;margin:.5rem 0 1.5rem}th,td{border:1px solid #888;padding:.25rem .5rem;text-align:left;vertical-align:top;font-size:.9rem}th{background:#eee}td:first-child:not(:only-child){white-space:nowrap}"
        + ".caution{border:2px solid #a00;padding:.2rem .6rem;margin:.4rem 0}.small{font-size:.85rem;color:#333}@media print{body{margin:0;max-width:none;font-size:9.5pt}tr,svg{break-inside:avoid}h2,h3{break-after:avoid}}";

    public static string Of(RecordView record, string systemTitle, IReadOnlyList<ReportedComplaint> complaints, DateOnly day)
    {
        var car = record.Vehicle;
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $$"""
            <!doctype html>
            <html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>{{Text(car.Name)}}: report</title>
            <style>{{Style}}</style></head>
            <body><h1>{{Text(car.Name)}}, {{Text(car.Year)}}</h1>
            <p>{{Text(string.Join("; ", new[] { systemTitle, car.Make, car.Model, car.Engine, car.InUseSince is { } since ? $"in use since {since}" : null }.OfType<string>()))}}</p>
            <p class="small">Written on {{day:yyyy-MM-dd}}. Chances are worked out from what is recorded and from figures of which each names its source; they decide nothing. The workshop manual of the car, local rules and licensed practice go before them.</p>

            """);
        foreach (var each in complaints)
        {
            OfComplaint(text, each);
        }

        List<RecordLine> limits = [.. record.Lines.Where(l => l is { Kind: "limit", VoidReason: null })];
        text.Append(limits.Count == 0 ? "<h3>What it should read</h3><p>No limit of this car is entered; it is judged by typical limits, each named with source and trust where it is used.</p>\n" : "");
        Table(text, "What it should read, and how far to trust that", ["Limit, with source and trust"], limits.Select(l => new[] { Line(l) }));
        Table(text, "All that is recorded, newest first", ["Date", "Kind", "What"], record.Lines.Select(l => new[] { Text(l.Date), Text(l.Kind), Line(l) }));
        return text.Append("</body></html>\n").ToString();
    }

    private static void OfComplaint(StringBuilder text, ReportedComplaint each)
    {
        var complaint = each.Complaint;
        text.Append($"<h2>{Text(complaint.Title)}</h2><p>Since {Text(complaint.Since)}; {(complaint.Closed is { } closed ? $"closed on {closed.At:yyyy-MM-dd}: {Text(Sentences.Result(closed.Result))}" : "open")}</p>\n");
        if (each.Now is { } now)
        {
            Table(text, $"Most likely on {now.AsOf}", ["Component", "Explains of it", "Bad", "Why"],
                now.Ranking.Take(Suspects).Select(r => new[] { Text(r.Title), PlainFigures.Share(r.Explains, now.Figures), PlainFigures.Chance(r.Bad, now.Figures), Text(r.Sentence) }));
            text.Append($"<p>Of the complaint {PlainFigures.Share(now.NoneOfThese, now.Figures)} would stand though all of these were put right; {PlainFigures.Chance(now.Resolved, now.Figures)} that it is resolved. Fault model {Text(now.FaultModel)}, revision {Text(now.FaultModelRevision)}.</p>\n");
            text.Append(string.Concat(now.Notes.Select(n => $"<p>{Text(n)}</p>\n")));
            Next(text, each.Next?.NextChecks.FirstOrDefault(c => c.Pays));
        }

        Cautions(text, each.Cautions);
        text.AppendJoin("\n", each.Pictures);
    }

    private static void Next(StringBuilder text, NextCheck? check)
    {
        if (check is not null)
        {
            text.Append(CultureInfo.InvariantCulture, $"<h3>Check first: {Text(check.Title)}</h3><p>{check.Minutes:0} min; hazard {Text(check.Hazard)}</p>\n");
            Cautions(text, check.Cautions);
        }
    }

    private static void Cautions(StringBuilder text, IReadOnlyList<string> cautions) =>
        text.Append(cautions.Count > 0 ? $"<div class=\"caution\"><b>Caution</b><ul>{string.Concat(cautions.Select(c => $"<li>{Text(c)}</li>"))}</ul></div>\n" : "");

    private static string Line(RecordLine line) =>
        Text(line.Text) + (line.Detail is { } detail ? $"<br><span class=\"small\">{Text(detail)}</span>" : "") + (line.VoidReason is { } reason ? $"<br><b>void: {Text(reason)}</b>" : "");

    private static void Table(StringBuilder text, string title, string[] heads, IEnumerable<string[]> entries)
    {
        if (entries.ToList() is { Count: > 0 } rows)
        {
            text.Append($"<h3>{Text(title)}</h3>").Append(HeadedTable(heads, rows));
        }
    }
}
