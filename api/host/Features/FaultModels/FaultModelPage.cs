using System.Globalization;
using System.Text;
using FuelHistory.Contracts;
using static FuelHistory.Host.Http.Markup;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>A fault model as one web page to read or print.</summary>
internal static class FaultModelPage
{
    private const string Style = """
        body{font-family:sans-serif;line-height:1.4;margin:1rem auto;max-width:62rem;padding:0 1rem;color:#111;background:#fff}
        table{border-collapse:collapse;width:100%;margin:.5rem 0 1.5rem}th,td{border:1px solid #888;padding:.25rem .5rem;text-align:left;vertical-align:top;font-size:.9rem}
        th{background:#eee}ul,ol{margin:.2rem 0 .6rem;padding-left:1.3rem}h2{margin-top:2rem;border-bottom:2px solid #444}h3{margin-bottom:.2rem}#faults+table th:nth-child(2){width:16%}#faults+table th:nth-child(n+3){width:29%}
        .check{break-inside:avoid-page;border-left:3px solid #bbb;padding-left:.8rem;margin:1rem 0}.caution{border:2px solid #a00;padding:.2rem .6rem;margin:.4rem 0}
        .trust{border:1px solid #666;border-radius:.2rem;padding:0 .3rem;font-size:.8rem;white-space:nowrap}.trust.memory{background:#fde9c8}.small{font-size:.85rem;color:#333}
        @media print{body{margin:0;max-width:none;font-size:9.5pt}tr{break-inside:avoid}thead{display:table-header-group}h2,h3{break-after:avoid}nav{display:none}a{color:inherit;text-decoration:none}}
        """;

    public static string Of(FaultModelView model, FaultModelStudy study)
    {
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $$"""
            <!doctype html>
            <html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>{{Text(model.Title)}}</title>
            <style>{{Style}}</style></head>
            <body><h1>{{Text(model.Title)}}</h1>
            <p>{{Text(model.About)}}</p>
            <p class="small">Fault model {{Text(model.Id)}}, revision {{Text(model.Revision)}}. The workshop manual of the car goes before everything here. Percentages and bits are worked out from the file: each fault alone on a car
            with nothing else wrong, gauges without error. A check says 1 bit about a fault if its outcome settles whether the fault is there, 0 if it tells nothing.</p>
            <nav><a href="#faults">Faults</a> · <a href="#conditions">What pushes what</a> · <a href="#events">What a driver notices</a> · <a href="#checks">Checks</a> · <a href="#trials">Trials</a> · <a href="#alike">Hard to tell apart</a> · <a href="#limits">Limits</a> · <a href="#sources">Sources</a></nav>

            """);
        Faults(text, study);
        Conditions(text, study);
        Events(text, model, study);
        text.Append("<h2 id=\"checks\">Checks</h2>\n");
        foreach (var check in model.Checks)
        {
            Check(text, model, check, study);
        }

        Trials(text, model);
        Alike(text, study);
        Limits(text, model);
        Sources(text, model);
        return text.Append("</body></html>\n").ToString();
    }

    private static void Faults(StringBuilder text, FaultModelStudy study) => Table(text, "faults", "Faults, and what shows them", ["Fault", "Moves", "What the driver notices", "Checks that tell (bits)"],
        study.Faults.Select(f => new[]
        {
            $"<b>{Text(f.Title)}</b> {Trust(f.Trust)}{(f.CausedBy.Count > 0 ? $"<br><span class=\"small\">brought on by: {Names(f.CausedBy)}</span>" : "")}",
            Names(f.Acts),
            string.Join("<br>", f.Events.Select(s => $"{Text(s.Title)} {Percent(s.Value)}")),
            string.Join("<br>", f.Checks.Take(6).Select(c => $"<a href=\"#check-{c.Id}\">{Text(c.Title)}</a> {Number(c.Value)}")) + (f.Checks.Count > 6 ? $"<br><span class=\"small\">and {f.Checks.Count - 6} that tell less</span>" : ""),
        }));

    private static void Conditions(StringBuilder text, FaultModelStudy study) => Table(text, "conditions", "What pushes what", ["Condition of the circuit", "Pushed by"],
        study.Conditions.Select(c => new[] { $"<b>{Text(c.Title)}</b>", Names(c.Causes) }));

    private static void Events(StringBuilder text, FaultModelView model, FaultModelStudy study) => Table(text, "events", "What a driver notices", ["Event", "How", "Question", "Faults that show it, the surest first"],
        model.Events.SelectMany(e => e.Cells.Select((c, i) => new[]
        {
            i == 0 ? $"<b>{Text(e.Title)}</b>" : "",
            e.Cells.Count == 1 && c.When is null && c.Then is null ? "" : Text(c.Title),
            Text(c.Ask),
            string.Join("; ", study.Faults.SelectMany(f => f.Events.Where(x => x.Id == c.Id).Select(x => (f.Title, x.Value))).OrderByDescending(x => x.Value).Select(x => $"{Text(x.Title)} {Percent(x.Value)}")),
        })));

    private static void Trials(StringBuilder text, FaultModelView model)
    {
        text.Append("<h2 id=\"trials\">Trials: something changed for a moment</h2>\n");
        foreach (var trial in model.Trials)
        {
            text.Append(CultureInfo.InvariantCulture, $"<section class=\"check\" id=\"trial-{trial.Id}\"><h3>{Text(trial.Title)}</h3><p>{Number(trial.Minutes)} min; hazard {Text(trial.Hazard)}</p>\n");
            Cautions(text, trial.Cautions);
            text.Append(List("ol", trial.Steps)).Append($"<p class=\"small\">{Text(trial.Source)}</p></section>\n");
        }
    }

    private static void Cautions(StringBuilder text, IReadOnlyList<string> cautions)
    {
        if (cautions.Count > 0)
        {
            text.Append($"<div class=\"caution\"><b>Caution</b>{List("ul", cautions)}</div>");
        }
    }

    private static void Check(StringBuilder text, FaultModelView model, CheckView check, FaultModelStudy study)
    {
        var tools = string.Join(", ", check.Tools.Select(id => model.Tools.FirstOrDefault(t => t.Id == id)?.Title ?? id));
        text.Append(CultureInfo.InvariantCulture, $"<section class=\"check\" id=\"check-{check.Id}\"><h3>{Text(check.Title)}</h3><p>{check.Minutes:0.#} min{(check.SetupMinutes > 0 ? $" and {Number(check.SetupMinutes)} to set up" : "")}; hazard {Text(check.Hazard)}; {(tools.Length > 0 ? Text(tools) : "no tools")}</p>\n");
        Cautions(text, check.Cautions);
        text.Append(List("ol", check.Steps));
        if (check.Limits is not null)
        {
            text.Append($"<p><b>Should read:</b> {Text(check.Limits)}</p>");
        }

        if (check.Outcomes.Count > 0)
        {
            text.Append($"<p><b>Outcomes:</b> {string.Join("; ", check.Outcomes.Select(o => Text(o.Title)))}</p>");
        }

        var told = study.Faults.SelectMany(f => f.Checks.Where(c => c.Id == check.Id).Select(c => (f.Title, c.Value))).OrderByDescending(x => x.Value).ToList();
        text.Append($"<p><b>Tells about (bits):</b> {(told.Count > 0 ? string.Join("; ", told.Select(x => $"{Text(x.Title)} {Number(x.Value)}")) : "the gauge alone")}</p><p class=\"small\">{Text(check.Source)}</p></section>\n");
    }

    private static void Alike(StringBuilder text, FaultModelStudy study)
    {
        if (study.Pairs.Count == 0)
        {
            text.Append("<h2 id=\"alike\">Hard to tell apart</h2><p>No two faults: a check separates each pair.</p>\n");
            return;
        }

        Table(text, "alike", "Hard to tell apart", ["One fault", "The other", "Best check", "Separates (0 to 1)", "Why, and what to do"],
            study.Pairs.Select(p => new[] { Text(p.A.Title), Text(p.B.Title), Text(p.Check.Title), Number(p.Apart), Text(p.Why ?? "") }));
    }

    private static void Limits(StringBuilder text, FaultModelView model) => Table(text, "limits", "Limits, where the car's own are not entered", ["Check", "Should read, with source"],
        model.Checks.Where(c => c.Limits is not null).Select(c => new[] { $"<a href=\"#check-{c.Id}\">{Text(c.Title)}</a>", Text(c.Limits!) }));

    private static void Sources(StringBuilder text, FaultModelView model) => Table(text, "sources", "Sources", ["Key", "Trust", "Source"],
        model.Sources.Select(s => new[] { Text(s.Id), Trust(s.Kind), Text(s.Cite) }));

    private static void Table(StringBuilder text, string id, string title, string[] heads, IEnumerable<string[]> rows) =>
        text.Append($"<h2 id=\"{id}\">{Text(title)}</h2>").Append(HeadedTable(heads, rows));

    private static string List(string tag, IEnumerable<string> entries) => $"<{tag}>{string.Concat(entries.Select(e => $"<li>{Text(e)}</li>"))}</{tag}>\n";

    private static string Names(IEnumerable<NamedThing> things) => string.Join(", ", things.Select(t => Text(t.Title)));

    private static string Trust(string kind) => $"<span class=\"trust {Text(kind)}\">{Text(kind.Replace('-', ' '))}</span>";

    private static string Percent(double value) => $"{Number(Math.Round(100 * value))}&nbsp;%";

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
