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
            { Event: { } id } => Of(model, new EventAnswer(id, f.Outcome ?? "", f.When, f.Then)),
            { Trial: { } trial } => Trial(model, trial, f.Outcome),
            { Own: { } own } => $"Own observation: speaks {own.Strength} {own.Direction} {(own.Component is { } part ? Component(model, part) : Side(own.Side))}: {own.Words}",
            { Check: { } id } when model.Trials.FirstOrDefault(t => t.Formerly.ContainsKey(id)) is { } trial => Formerly(model, trial, id, f.Outcome),
            { Check: { } id, Reading: { } reading } => $"{Check(model, id)}: {MeasuredRules.Text(reading)}{Conditions(f, model)}",
            { Check: { } id, Points: { } points } => $"{Check(model, id)}: {Run(points)}{Conditions(f, model)}",
            { Check: { } id } => $"{Check(model, id)}: {Outcome(model, id, f.Outcome)}",
            { Component: { } id } => $"{Component(model, id)} {(f.How == "tested" ? "tested" : "looked at")}: {f.Outcome}{(f.Mode is null ? "" : $", {Mode(model, id, f.Mode)}")}",
            _ => f.Outcome ?? "",
        };
        return f.Sure ? said : said + " (not sure)";
    }

    public static string Of(FaultModel model, EventAnswer told) => $"{EventTitle(model, told)}: {Answer(told.Answer)}";

    /// <summary>The event with the facets told.</summary>
    public static string EventTitle(FaultModel model, EventAnswer told) => Event(model, told.Event) + Facets(model, told.When ?? [], told.Then ?? []);

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
        return w switch
        {
            { Action: "unknown" } => $"{parts}: something done, nobody knows what{known}",
            { Outcome: { } outcome } => $"{parts} {(w.How == "tested" ? "tested" : "inspected")}: {Looked(w, outcome, model)}{known}",
            _ => $"{parts} {w.Action}{quality}{known}",
        };
    }

    /// <summary>A date as it stands behind an entry.</summary>
    public static string When(string date) => date == "unknown" ? "date unknown" : date;

    private static string Looked(Work w, string outcome, FaultModel model)
    {
        var mode = w.Mode is null ? "" : $", {Mode(model, w.Components[0], w.Mode)}";
        return $"{outcome}{mode}{(w.Sure ? "" : " (not sure)")}";
    }

    public static string Of(Odometer o) => o.NewClock is { } clock
        ? $"Odometer {MeasuredRules.Text(o.Reading)}; clock changed, the new one starts at {MeasuredRules.Text(clock)}"
        : $"Odometer {MeasuredRules.Text(o.Reading)}";

    public static string Of(LayUp l) => l switch
    {
        { To: null, From: "unknown" } => "Laid up, nobody knows since when",
        { To: null } => $"Laid up since {l.From}",
        { To: "unknown" } => "Laid up, nobody knows until when",
        _ => $"Laid up until {l.To}",
    };

    public static string Of(Incident i, FaultModel model) =>
        model.Incidents.FirstOrDefault(k => k.Id == i.Kind)?.Title ?? i.Kind;

    public static string Of(Limit l, FaultModel model) =>
        $"Limit of {Check(model, l.Check)}: {LimitWords.Figures(l.Unit, l.Low, l.High, l.Points, model.Checks.FirstOrDefault(c => c.Id == l.Check)?.Covariate?.Unit)} ({LimitWords.Origin(l)})";

    public static string Of(SetAside s) => $"{s.Title} set aside: " + s.Reason switch
    {
        "not-fitted" => "not fitted",
        "no-tool" => "no tool for it",
        _ => $"not today (until {s.Until})",
    };

    public static string Of(Complaint c) =>
        $"Complaint: {c.Title} ({(c.Always ? "as long as it has been here" : c.Course)})";

    public static string Of(Closing c, FaultModel model)
    {
        var causes = c.Causes.Select(cause => cause.Component == "elsewhere" ? model.Elsewhere.Title
            : Component(model, cause.Component) + (cause.Mode is null ? "" : $" ({Mode(model, cause.Component, cause.Mode)})"));
        var result = Result(c.Result);
        return c.Causes.Count == 0 ? $"Complaint closed: {result}" : $"Complaint closed: {result}; cause: {string.Join(", ", causes)}";
    }

    public static string Result(string result) => result switch { "resolved" => "resolved", "gone-by-itself" => "ended without a repair", _ => "given up" };

    public static string Of(Vehicle v) =>
        $"{v.Name}, built {(v.Year.EndsWith('~') ? "about " : "")}{v.Year.TrimEnd('~')}{(v.InUseSince is null ? "" : $", in use since {v.InUseSince}")}";

    public static string Component(FaultModel model, string id) => model.Components.FirstOrDefault(c => c.Id == id)?.Title
        ?? (model.SplitInto(id) is { Count: > 0 } now ? string.Join(", ", now) : id);

    public static string Check(FaultModel model, string id) =>
        model.Checks.FirstOrDefault(c => c.Id == id)?.Title ?? model.Trials.FirstOrDefault(t => t.Formerly.ContainsKey(id))?.Title ?? id;

    /// <summary>The event, or a cell; an id of an earlier revision as it is meant now.</summary>
    public static string Event(FaultModel model, string id)
    {
        if (model.Events.All(e => e.Id != id) && model.Events.FirstOrDefault(e => e.Formerly.ContainsKey(id)) is { } meant)
        {
            return meant.Title + Facets(model, meant.Formerly[id].When, meant.Formerly[id].Then);
        }

        return model.Events.FirstOrDefault(e => e.Id == id)?.Title ?? model.Cells.FirstOrDefault(c => c.Id == id)?.Title ?? id;
    }

    /// <summary>A check of an earlier revision that is a trial in truth, said as that trial.</summary>
    private static string Formerly(FaultModel model, Trial trial, string check, string? outcome) =>
        Trial(model, new TrialDone(trial.Id), outcome is null ? null : trial.Formerly[check].GetValueOrDefault(outcome, outcome));

    public static string TrialTitle(FaultModel model, string id) => model.Trials.FirstOrDefault(t => t.Id == id)?.Title ?? id;

    private static string Side(string? id) => CommonWords.Title(CommonWords.Sides, id).ToLowerInvariant();

    private static string Answer(string? outcome) => outcome switch { "only" => "present, and at no other time", "always" => "present at each of these times", _ => outcome ?? "" };

    private static string Facets(FaultModel model, IReadOnlyList<string> when, IReadOnlyList<string> then)
    {
        string[] said = [
            .. when.Select(id => model.When.FirstOrDefault(w => w.Id == id)?.Title ?? id),
            .. then.Select(id => model.Then.FirstOrDefault(t => t.Id == id)?.Title ?? id)];
        return said.Length == 0 ? "" : $", {string.Join(", ", said)}";
    }

    private static string Trial(FaultModel model, TrialDone trial, string? outcome)
    {
        var part = trial.Component is { } id ? Component(model, id) : "";
        var what = trial.Trial is { } known ? TrialTitle(model, known) : $"{part}: {CommonWords.Title(CommonWords.Doings, trial.Do)}";
        var then = CommonWords.Title(CommonWords.TrialResults, outcome);
        var back = trial.Back switch { "came-back" => "; with the old part back it came back", "stayed-away" => "; with the old part back it stayed away", _ => "" };
        return $"{what}: {then}{back}";
    }

    /// <summary>For the middle of a sentence; a title that begins with an abbreviation stays as it is.</summary>
    public static string Low(string text) =>
        text.Length > 1 && char.IsUpper(text[0]) && !char.IsUpper(text[1]) ? char.ToLowerInvariant(text[0]) + text[1..] : text;

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

    public static string Mode(FaultModel model, string component, string mode) =>
        model.Components.FirstOrDefault(c => c.Id == component)?.Modes.FirstOrDefault(m => m.Id == mode)?.Title ?? mode;

    public static string Outcome(FaultModel model, string check, string? outcome)
    {
        var known = model.Checks.FirstOrDefault(c => c.Id == check);
        return outcome switch
        {
            "yes" when known?.Yes is { } yes => $"yes, {yes}",
            "no" when known?.No is { } no => $"no, {no}",
            _ when Measured(known) => CommonWords.Title(CommonWords.LimitWords, outcome),
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
