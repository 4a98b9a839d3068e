using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Records;

/// <summary>Entries in plain words.</summary>
internal static class Sentences
{
    public static string Of(Finding f, FaultModel model)
    {
        var said = f switch
        {
            { Symptom: { } id } => $"{Symptom(model, id)}: {f.Outcome}",
            { Check: { } id, Reading: { } reading } => $"{Check(model, id)}: {MeasuredRules.Text(reading)}{Conditions(f, model)}",
            { Check: { } id, Points: { } points } => $"{Check(model, id)}: {Run(points)}{Conditions(f, model)}",
            { Check: { } id } => $"{Check(model, id)}: {Outcome(model, id, f.Outcome)}",
            { Component: { } id } => $"{Component(model, id)} looked at: {f.Outcome}{(f.Mode is null ? "" : $", {Mode(model, id, f.Mode)}")}",
            _ => f.Outcome ?? "",
        };
        return f.Sure ? said : said + " (not sure)";
    }

    public static string Of(Work w, FaultModel model)
    {
        var parts = string.Join(", ", w.Components.Select(id => Component(model, id)));
        var quality = w.Quality switch
        {
            "new" => ", new",
            "new-unbranded" => ", new without a maker's name",
            "rebuilt" when w.Action != "rebuilt" => ", a rebuilt one",
            "used" => w.PartAgeYears is { } age ? $", used, {Names.Number(age)} years old" : ", used",
            _ => "",
        };
        var known = w.Known switch { "invoice" => " (invoice)", "told" => " (only told)", "seen" => " (seen)", _ => "" };
        return $"{parts} {w.Action}{quality}{known}";
    }

    public static string Of(Odometer o) => o.NewClock is { } clock
        ? $"Odometer {MeasuredRules.Text(o.Reading)}; clock changed, the new one starts at {MeasuredRules.Text(clock)}"
        : $"Odometer {MeasuredRules.Text(o.Reading)}";

    public static string Of(LayUp l) => l.To is null ? $"Laid up since {l.From}" : $"Laid up until {l.To}";

    public static string Of(Incident i, FaultModel model) =>
        model.Incidents.FirstOrDefault(k => k.Id == i.Kind)?.Title ?? i.Kind;

    public static string Of(Limit l, FaultModel model) =>
        $"Limit of {Check(model, l.Check)}: {LimitWords.Figures(l.Unit, l.Low, l.High, l.Points, model.Checks.FirstOrDefault(c => c.Id == l.Check)?.Covariate?.Unit)} ({LimitWords.Origin(l)})";

    public static string Of(Complaint c) =>
        $"Complaint: {c.Title} ({(c.Always ? "as long as it has been here" : c.Course)})";

    public static string Of(Closing c, FaultModel model)
    {
        var causes = c.Causes.Select(cause => cause.Component == "elsewhere" ? model.Elsewhere.Title
            : Component(model, cause.Component) + (cause.Mode is null ? "" : $" ({Mode(model, cause.Component, cause.Mode)})"));
        var result = c.Result switch { "cured" => "cured", "gone-by-itself" => "gone by itself", _ => "given up" };
        return c.Causes.Count == 0 ? $"Complaint closed: {result}" : $"Complaint closed: {result}; cause: {string.Join(", ", causes)}";
    }

    public static string Of(Vehicle v) =>
        $"{v.Name}, built {(v.Year.EndsWith('~') ? "about " : "")}{v.Year.TrimEnd('~')}{(v.InUseSince is null ? "" : $", in use since {v.InUseSince}")}";

    public static string Component(FaultModel model, string id) => model.Components.FirstOrDefault(c => c.Id == id)?.Title ?? id;

    public static string Check(FaultModel model, string id) => model.Checks.FirstOrDefault(c => c.Id == id)?.Title ?? id;

    public static string Symptom(FaultModel model, string id) => model.Symptoms.FirstOrDefault(s => s.Id == id)?.Title ?? id;

    public static string Day(DateTimeOffset at) => at.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    // of a logger's many points a few say how it went
    private static string Run(IReadOnlyList<PressurePoint> points)
    {
        const int Most = 8, Told = 5;
        if (points.Count <= Most)
        {
            return string.Join(", ", points.Select(p => $"{MeasuredRules.Text(p.Pressure)} after {Names.Number(p.Minutes)} min"));
        }

        var told = Enumerable.Range(0, Told).Select(i => points[i * (points.Count - 1) / (Told - 1)])
            .Select(p => $"{Names.Number(Math.Round(p.Pressure.Value, 3))} {p.Pressure.Unit} after {Names.Number(Math.Round(p.Minutes, 2))} min");
        return $"{string.Join(", ", told)} ({points.Count} readings)";
    }

    private static string Mode(FaultModel model, string component, string mode) =>
        model.Components.FirstOrDefault(c => c.Id == component)?.Modes.FirstOrDefault(m => m.Id == mode)?.Title ?? mode;

    private static string Outcome(FaultModel model, string check, string? outcome)
    {
        var known = model.Checks.FirstOrDefault(c => c.Id == check);
        return outcome switch
        {
            "yes" when known?.Yes is { } yes => $"yes, {yes}",
            "no" when known?.No is { } no => $"no, {no}",
            "below" when Measured(known) => "below the limits",
            "within" when Measured(known) => "within limits",
            "above" when Measured(known) => "above the limits",
            "hold" => "held",
            "slow" => "fell slowly",
            "fast" => "fell fast",
            "steep-then-flat" => "dropped at once, then stayed",
            _ => known?.Outcomes?.FirstOrDefault(o => o.Id == outcome)?.Title ?? outcome ?? "",
        };
    }

    private static bool Measured(Check? check) => check?.Kind == CheckKind.Measurement;

    private static string Conditions(Finding f, FaultModel model)
    {
        if (f.Conditions is not { Count: > 0 } conditions)
        {
            return "";
        }

        var titles = model.Checks.Where(c => c.Covariate is not null).Select(c => c.Covariate!).DistinctBy(c => c.Id).ToDictionary(c => c.Id, c => c.Title);
        return $" ({string.Join(", ", conditions.Select(c => $"{titles.GetValueOrDefault(c.Key, c.Key)} {MeasuredRules.Text(c.Value)}"))})";
    }
}
