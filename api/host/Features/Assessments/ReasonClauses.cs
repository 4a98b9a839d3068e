using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.Life;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>What was found, told, tried or done, as the first half of a sentence.</summary>
internal sealed class ReasonClauses(AnswerTexts texts, Answered? answered)
{
    public string Of(WhyFactor reason, RankedFault fault)
    {
        var gathered = texts.Gathered;
        if (gathered.Findings.FirstOrDefault(f => f.Entry.Id == reason.Id) is { } finding)
        {
            return Found(finding);
        }

        if (gathered.Work.FirstOrDefault(w => w.Entry.Id == reason.Id) is { } work)
        {
            return Done(work, fault);
        }

        if (gathered.Incidents.FirstOrDefault(i => i.Entry.Id == reason.Id) is { } incident)
        {
            return $"{Sentences.Of(incident, texts.Model)} {Ago(incident.Date)}";
        }

        return reason.Kind switch
        {
            "lay-up" => "The car stood for a long time",
            "ran-well" => "The car ran well before this began",
            "complaint" => "An earlier complaint left something behind",
            _ => texts.Entry(reason.Kind, reason.Id),
        };
    }

    private string Found(Finding f) => f switch
    {
        { Event: { } id } => Told(f, Sentences.EventTitle(texts.Model, new EventAnswer(id, "", f.When, f.Then))),
        { Trial: { } trial } => Tried(trial, f.Outcome),
        { Own: { } own } => $"Your own judgement is that \"{own.Words.Trim()}\"",
        { Check: { } id } when texts.Model.Trials.FirstOrDefault(t => t.Formerly.ContainsKey(id)) is { } trial =>
            Tried(new TrialDone(trial.Id), trial.Formerly[id].GetValueOrDefault(f.Outcome ?? "")),
        { Check: { } id, Points: [.., var last] } => Held(f, Sentences.Check(texts.Model, id), last),
        { Check: { } id, Reading: { } reading } => $"{Sentences.Check(texts.Model, id)} read {MeasuredRules.Text(reading)}",
        { Component: { } id } => $"{Sentences.Component(texts.Model, id)} looked at and found {f.Outcome}{Doubt(f)}",
        _ => f.Text,
    };

    private static string Told(Finding f, string title) => f.Outcome switch
    {
        "absent" => $"\"{title}\" is not there{Doubt(f)}",
        "only" => $"\"{title}\" is there and nothing else of the kind{Doubt(f)}",
        "always" => $"\"{title}\" is there every time{Doubt(f)}",
        _ => $"\"{title}\" is there{Doubt(f)}",
    };

    private static string Doubt(Finding f) => f.Sure ? "" : " (not sure)";

    private string Held(Finding f, string title, PressurePoint last)
    {
        var pressure = $"{Names.Number(Math.Round(last.Pressure.Value, 2))} {last.Pressure.Unit}";
        var failed = answered?.Items.Any(i => i.Findings.Contains(f.Entry.Id)) == true;
        return failed ? $"{title} was down to {pressure} within {PlainFigures.Minutes(last.Minutes)}" : $"{title} still stood at {pressure} after {PlainFigures.Minutes(last.Minutes)}";
    }

    private string Tried(TrialDone done, string? outcome)
    {
        var known = texts.Model.Trials.FirstOrDefault(t => t.Id == done.Trial);
        var part = (known?.Component ?? done.Component) is { } id ? Sentences.Low(Sentences.Component(texts.Model, id)) : "";
        var how = (known?.Do ?? done.Do, part.Length > 0) switch
        {
            ("another", true) => $"With another {part} it",
            ("bypass", true) => $"With the {part} bypassed it",
            ("unplug", true) => $"With the {part} unplugged it",
            ("touch", true) => $"When the {part} was touched it",
            _ => $"With \"{Sentences.Low(known?.Title ?? "something changed")}\" it",
        };
        var became = outcome switch { "ended" => "was over", "better" => "got better", "worse" => "got worse", _ => "stayed the same" };
        var back = done.Back switch { "came-back" => " and came back with the old one", "stayed-away" => " and stayed away with the old one", _ => "" };
        return $"{how} {became}{back}";
    }

    private string Done(Work w, RankedFault fault)
    {
        var what = w.Components.Contains(fault.Component) ? "it" : string.Join(", ", w.Components.Select(c => Sentences.Low(Sentences.Component(texts.Model, c))));
        var known = w.Known switch { "told" => ", as was told,", _ => "" };
        return (w.Action, w.Quality) switch
        {
            ("fitted", "new" or "new-unbranded") when what == "it" => $"A new one was{known} fitted {Ago(w.Date)}",
            ("fitted", "used" or "rebuilt") when what == "it" => $"A {w.Quality} one was{known} fitted {Ago(w.Date)}",
            ("fitted", _) when what == "it" => $"Another one was{known} fitted {Ago(w.Date)}",
            _ => $"Work was done ({what} {w.Action}{(w.Known == "told" ? ", as was told" : "")}) {Ago(w.Date)}",
        };
    }

    private string Ago(string date) => PlainFigures.Since(RoughDate.Parse(date).Middle, texts.Gathered.Input.AsOf);
}
