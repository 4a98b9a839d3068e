using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>What was found, told, tried or done as a mechanic would say it of one part, and whether it speaks for or against it.</summary>
internal sealed class ReasonClauses(AnswerTexts texts, IReadOnlyList<RankedItem> items)
{
    private Gathered Gathered => texts.Gathered;

    private FaultModel Model => texts.Model;

    /// <summary>"A new one was fitted last year, which speaks clearly against it".</summary>
    public string Sentence(WhyFactor reason, string component) => $"{Of(reason, component)}, {Speaks(reason)} it";

    public static string Speaks(WhyFactor reason) => $"which speaks {PlainFigures.Strength(reason.Factor)} {(reason.Factor >= 1 ? "for" : "against")}";

    /// <param name="component">The part that is spoken of as "it".</param>
    public string Of(WhyFactor reason, string component)
    {
        if (Gathered.Findings.FirstOrDefault(f => f.Entry.Id == reason.Id) is { } finding)
        {
            var found = Found(finding, component);
            return reason.Factor < 1 && InVain(finding, component) is { } work ? $"{Done(work, component)} and {Sentences.Low(found)} all the same" : found;
        }

        if (Gathered.Work.FirstOrDefault(w => w.Entry.Id == reason.Id) is { } done)
        {
            return Done(done, component);
        }

        if (Gathered.Incidents.FirstOrDefault(i => i.Entry.Id == reason.Id) is { } incident)
        {
            return $"{Sentences.Of(incident, Model)} {When(incident.Date)}";
        }

        return reason switch
        {
            { Id: "onset" } => $"The trouble came about {Onset()}",
            { Kind: "lay-up" } => "The car stood for a long time",
            { Kind: "ran-well" } => "The car ran well before this began",
            { Kind: "drove" } => "The car still drove before this began",
            { Kind: "complaint" } => "An earlier complaint left a finding of it",
            _ => texts.Entry(reason.Kind, reason.Id),
        };
    }

    private string Onset()
    {
        var told = Sentences.Low(CommonWords.Title(CommonWords.Onsets, Gathered.Complaint.Onset));
        return told.StartsWith("since ", StringComparison.Ordinal) ? $"after {told[6..]}" : told;
    }

    private string Found(Finding f, string component)
    {
        var said = f switch
        {
            { Event: { } id } => Told(f.Outcome, Sentences.EventTitle(Model, new EventAnswer(id, "", f.When, f.Then))),
            { Trial: { } trial } => Tried(trial, f.Outcome, component),
            { Own: { } own } => $"You noted \"{own.Words.Trim()}\"",
            { Check: { } id } when Model.Trials.FirstOrDefault(t => t.Formerly.ContainsKey(id)) is { } trial =>
                Tried(new TrialDone(trial.Id), trial.Formerly[id].GetValueOrDefault(f.Outcome ?? ""), component),
            { Check: { } id, Points: [.., var last] } => Held(f, Sentences.Check(Model, id), last),
            { Check: { } id, Reading: { } reading } => $"{Sentences.Check(Model, id)} read {MeasuredRules.Text(reading)}",
            { Check: { } id } => Showed(id, f.Outcome),
            { Component: { } id } => Looked(f, id == component ? "it" : $"the {Sentences.Low(Sentences.Component(Model, id))}"),
            _ => f.Text,
        };
        return Upper(f.Sure ? said : $"{said} (not sure)");
    }

    private static string Told(string? outcome, string title) => outcome switch
    {
        "absent" => $"\"{title}\" is not there",
        "only" => $"\"{title}\" is there and at no other time",
        "always" => $"\"{title}\" is there at each of these times",
        _ => $"\"{title}\" is there",
    };

    private string Showed(string check, string? outcome)
    {
        var (title, words) = (Sentences.Check(Model, check), Sentences.Outcome(Model, check, outcome));
        return Model.Checks.FirstOrDefault(c => c.Id == check)?.Kind is CheckKind.LeakDown ? $"{title} {words}" : $"{title} showed \"{words}\"";
    }

    private string Held(Finding f, string title, PressurePoint last)
    {
        var pressure = $"{Names.Number(Math.Round(last.Pressure.Value, 2))} {last.Pressure.Unit}";
        return items.Any(i => i.Findings.Contains(f.Entry.Id))
            ? $"{title} was down to {pressure} within {PlainFigures.Minutes(last.Minutes)}"
            : $"{title} stood at {pressure} after {PlainFigures.Minutes(last.Minutes)}";
    }

    private string Looked(Finding f, string what)
    {
        var mode = f.Mode is null ? "" : $" ({Sentences.Mode(Model, f.Component!, f.Mode)})";
        return (f.How, f.Outcome) switch
        {
            ("tested", "good") => $"{what} was tested and is fine",
            ("tested", _) => $"{what} was tested and is bad{mode}",
            (_, "good") => $"{what} was looked at and is fine",
            _ => $"{what} was looked at and is bad{mode}",
        };
    }

    private string Tried(TrialDone done, string? outcome, string component)
    {
        var known = Model.Trials.FirstOrDefault(t => t.Id == done.Trial);
        var id = known?.Component ?? done.Component;
        var part = id is null ? "" : Sentences.Low(Sentences.Component(Model, id));
        var it = id == component ? "it" : $"the {part}";
        var how = (known?.Do ?? done.Do) switch
        {
            "another" when id == component => "With another one in its place",
            "another" when id is not null => $"With another {part}",
            "bypass" when id is not null => $"With {it} fed or bypassed directly",
            "unplug" when id is not null => $"With {it} unplugged",
            "touch" when id is not null => $"When {it} was moved, struck, warmed or cooled",
            _ => $"With \"{Sentences.Low(known?.Title ?? "something changed")}\"",
        };
        var became = outcome switch { "ended" => "the trouble was over", "better" => "the trouble got less", "worse" => "the trouble got worse", _ => "the trouble stayed the same" };
        var back = done.Back switch { "came-back" => " and came back with the old part", "stayed-away" => " and stayed away with the old part", _ => "" };
        return $"{how} {became}{back}";
    }

    /// <summary>Work on this part since the trouble began, after which this was found bad all the same.</summary>
    private Work? InVain(Finding f, string component)
    {
        bool bad = f is { Event: not null, Outcome: not "absent" } || items.Any(i => i.Findings.Contains(f.Entry.Id));
        return !bad ? null : Gathered.Work.LastOrDefault(w => w.Action is not ("inspected" or "unknown") && w.Components.Contains(component)
            && RoughDate.Parse(w.Date) is var day && day.Latest <= DateOnly.FromDateTime(f.At.DateTime) && day.Earliest >= RoughDate.Parse(Gathered.Complaint.Since).Earliest);
    }

    public string Done(Work w, string component)
    {
        var known = w.Known switch { "told" => "by what was told ", "invoice" => "by an invoice ", _ => "" };
        if (!w.Components.Contains(component) && Carrier(w, component) is { } carrier)
        {
            return Upper($"{known}it came with {One(w)} {Sentences.Low(Sentences.Component(Model, carrier))} {When(w.Date)}");
        }

        var others = string.Join(", ", w.Components.Select(c => Sentences.Low(Sentences.Component(Model, c))));
        return Upper((w.Action, w.Components.Contains(component)) switch
        {
            ("fitted", true) => $"{known}{One(w)} one was fitted {When(w.Date)}",
            ("unknown", _) => $"{known}something was done to {others} {When(w.Date)}",
            ("inspected", true) => $"{known}it was {(w.How == "tested" ? "tested" : "looked at")} {When(w.Date)}{(w.Outcome is { } o ? o == "good" ? " and was fine" : " and was bad" : "")}",
            (_, true) => $"{known}it was {w.Action} {When(w.Date)}",
            _ => $"{known}work was done ({others} {w.Action}) {When(w.Date)}",
        });
    }

    /// <summary>The part fitted in this work that brings the component along.</summary>
    private string? Carrier(Work w, string component) =>
        w.Action is "fitted" or "rebuilt" ? w.Components.FirstOrDefault(id => Model.Components.FirstOrDefault(c => c.Id == id)?.Includes.Contains(component) == true) : null;

    private static string One(Work w) => w.Action == "rebuilt" ? "a rebuilt" : w.Quality switch
    {
        "new" => "a new",
        "new-unbranded" => "a new, unbranded",
        "rebuilt" => "a rebuilt",
        "used" => "a used",
        _ => "another",
    };

    /// <summary>"last year"; a half-known date as it was told.</summary>
    private string When(string date)
    {
        var rough = RoughDate.Parse(date);
        return rough.IsUnknown ? "at a time that nobody knows"
            : char.IsAsciiDigit(rough.Text[0]) && !rough.Text.EndsWith('~') ? PlainFigures.Ago(rough.Middle, Gathered.Input.AsOf)
            : rough.Text.EndsWith('~') ? $"about {rough.Text.TrimEnd('~')}" : rough.Text;
    }

    public static string Upper(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
