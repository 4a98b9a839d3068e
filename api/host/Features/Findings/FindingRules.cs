using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Features.Instruments;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Findings;

public sealed class FindingRules(ComplaintStore complaints, InstrumentStore instruments, FindingConflicts conflicts)
{
    public Refused? Check(Step step, NewFinding input, string? complaintId)
    {
        if (complaintId is not null && complaints.Shut(step.Session.Connection, complaintId) is { } shut)
        {
            return shut;
        }

        Content(step, input);
        if (complaintId is not null && step.Faults.None)
        {
            conflicts.Check(step, input, complaintId);
        }

        return null;
    }

    /// <summary>Whether the finding is possible by itself, whatever becomes of it.</summary>
    public void Content(Step step, NewFinding input)
    {
        var faults = step.Faults;
        step.Days.Past(faults, "/at", input.At);
        faults.OneOf("/showed", input.Showed, "yes", "no", "unknown");
        faults.Text("/session", input.Session, Lengths.Label);
        faults.Text("/note", input.Note, Lengths.Note);
        var check = What(step, input);
        ReadingRules.Conditions(faults, step.Car!, check, input.Conditions, input.Reading is not null || input.Points is not null, input.Confirmed);
        Instrument(step, input, check);
    }

    private static Check? What(Step step, NewFinding input)
    {
        var (faults, model) = (step.Faults, step.Car!.Model);
        object?[] told = [input.Event, input.Check, input.Component, input.Trial, input.Own];
        if (told.Count(t => t is not null) != 1)
        {
            faults.Add("", Problems.Unsuitable, "A finding is of one thing: give exactly one of event, check, component, trial and own.");
            return null;
        }

        Misplaced(faults, "/when", input.Event is null && input.When is not null, "when belongs to an event");
        Misplaced(faults, "/then", input.Event is null && input.Then is not null, "then belongs to an event");
        Only(faults, input);
        switch (input)
        {
            case { Event: { } happened }:
                EventRules.Check(faults, model, new EventAnswer(happened, input.Outcome ?? "", input.When, input.Then), "", "/outcome");
                return null;
            case { Check: { } id }:
                return OfCheck(step, id, input);
            case { Component: { } component }:
                Seen(step, input, component);
                return null;
            case { Trial: { } trial }:
                TrialRules.Check(faults, model, trial, input.Outcome);
                return null;
            default:
                OwnRules.Check(faults, model, input.Own!, input.Outcome);
                return null;
        }
    }

    private static Check? OfCheck(Step step, string id, NewFinding input)
    {
        var model = step.Car!.Model;
        if (model.Trials.FirstOrDefault(t => t.Formerly.ContainsKey(id)) is { } trial)
        {
            step.Faults.Add("/check", Problems.Unknown, $"\"{id}\" is a trial now: leave check out, and give trial with \"trial\": \"{trial.Id}\" and what came of it as outcome.");
            return null;
        }

        if (!step.Faults.Known("/check", "check", id, model.Checks.Select(c => c.Id)))
        {
            return null;
        }

        var check = step.Car.Check(id)!;
        OfCheck(step.Faults, check, input);
        return check;
    }

    private static void OfCheck(Faults faults, Check check, NewFinding input)
    {
        switch (check.Kind)
        {
            case CheckKind.Measurement:
                Misplaced(faults, "/points", input.Points is not null, $"\"{check.Id}\" is one measurement; give reading");
                Misplaced(faults, "/outcome", input.Outcome is not null, $"\"{check.Id}\" is measured; give reading");
                Misplaced(faults, "/sure", !input.Sure, "doubt about a measurement belongs to the instrument's accuracy and the note");
                if (input.Reading is null)
                {
                    faults.Required("/reading", $"reading is missing; \"{check.Id}\" is measured in {string.Join(", ", ReadingRules.QuantityOf(check).Units)}.");
                }
                else
                {
                    ReadingRules.Reading(faults, check, input.Reading, input.Confirmed);
                }

                break;
            case CheckKind.LeakDown:
                LeakDown(faults, check, input);
                break;
            case CheckKind.YesNo:
                NoFigures(faults, check, input);
                Outcome(faults, input.Outcome, $"\"{check.Id}\"", "yes", "no");
                break;
            default:
                NoFigures(faults, check, input);
                Outcome(faults, input.Outcome, $"\"{check.Id}\"", [.. check.Outcomes!.Select(o => o.Id)]);
                break;
        }
    }

    private static void LeakDown(Faults faults, Check check, NewFinding input)
    {
        Misplaced(faults, "/reading", input.Reading is not null, $"\"{check.Id}\" is a leak-down; give points (minutes since the stop and pressure)");
        if (input.Points is null)
        {
            Outcome(faults, input.Outcome, $"the leak-down \"{check.Id}\" without points", "hold", "slow", "fast", "steep-then-flat");
            return;
        }

        Misplaced(faults, "/outcome", input.Outcome is not null, "with points the outcome is computed");
        Misplaced(faults, "/sure", !input.Sure, "doubt about points belongs to the instrument's accuracy and the note");
        ReadingRules.Points(faults, check, input.Points, input.Confirmed);
    }

    private static void Seen(Step step, NewFinding input, string id)
    {
        if (!step.Faults.Known("/component", "component", id, step.Car!.Model.Components.Select(c => c.Id)))
        {
            return;
        }

        Outcome(step.Faults, input.Outcome, $"the part \"{id}\"", "good", "bad");
        if (input.Mode is { } mode)
        {
            Misplaced(step.Faults, "/mode", input.Outcome == "good", "a good part has no mode");
            step.Faults.Known("/mode", $"mode of {id}", mode, step.Car.Component(id)!.Modes.Select(m => m.Id));
        }
    }

    private void Instrument(Step step, NewFinding input, Check? check)
    {
        if (input.Instrument is not { } id)
        {
            return;
        }

        var instrument = instruments.Versions(step.Session.Connection, id);
        if (instrument is not [{ Entry.VoidReason: null } found, ..])
        {
            step.Faults.Add("/instrument", Problems.Unknown, $"There is no instrument with the id \"{id}\"; enter the gauge first, or leave instrument out.");
        }
        else if (check?.Kind is CheckKind.Measurement or CheckKind.LeakDown && ReadingRules.QuantityOf(check).Id != found.Quantity)
        {
            step.Faults.Add("/instrument", Problems.Unsuitable, $"\"{found.Name}\" reads {found.Quantity}, but \"{check.Id}\" is a {ReadingRules.QuantityOf(check).Id}; name the instrument that was used.");
        }
        else if (check?.Kind is CheckKind.YesNo or CheckKind.Outcomes)
        {
            Misplaced(step.Faults, "/instrument", true, $"\"{check.Id}\" is not measured");
        }
    }

    internal static void Outcome(Faults faults, string? outcome, string what, params string[] allowed)
    {
        if (outcome is null)
        {
            faults.Required("/outcome", $"outcome is missing; for {what} it is one of {string.Join(", ", allowed)}.");
        }
        else if (!allowed.Contains(outcome))
        {
            faults.Add("/outcome", Problems.Unsuitable, $"outcome \"{outcome}\" does not fit {what}; it is one of {string.Join(", ", allowed)}.");
        }
    }

    private static void Only(Faults faults, NewFinding input)
    {
        var what = input switch
        {
            { Event: not null } => "an event",
            { Check: not null } => "a check",
            { Trial: not null } => "a trial",
            { Own: not null } => "an observation of your own",
            _ => "a part that was looked at",
        };
        Misplaced(faults, "/mode", input.Component is null && input.Mode is not null, $"mode belongs to a part that was looked at, not to {what}");
        Misplaced(faults, "/reading", input.Check is null && input.Reading is not null, $"{what} has no reading");
        Misplaced(faults, "/points", input.Check is null && input.Points is not null, $"{what} has no points");
        Misplaced(faults, "/instrument", input.Check is null && input.Instrument is not null, $"{what} has no instrument");
    }

    private static void NoFigures(Faults faults, Check check, NewFinding input)
    {
        Misplaced(faults, "/reading", input.Reading is not null, $"\"{check.Id}\" is answered with an outcome");
        Misplaced(faults, "/points", input.Points is not null, $"\"{check.Id}\" is answered with an outcome");
    }

    internal static void Misplaced(Faults faults, string pointer, bool there, string why)
    {
        if (there)
        {
            faults.Add(pointer, Problems.Unsuitable, $"{Names.Field(pointer)} does not belong here: {why}. Leave it out.");
        }
    }
}
