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
        if (Things(input) != 1)
        {
            faults.Add("", Problems.Unsuitable, "A finding is of one thing: give exactly one of event, check, component, trial and own.");
            return null;
        }

        if (input.Event is null && (input.When is not null || input.Then is not null))
        {
            faults.Add(input.When is null ? "/then" : "/when", Problems.Unsuitable, "when and then belong to an event; leave them out.");
        }

        switch (input)
        {
            case { Event: { } told }:
                Only(faults, input, readings: false, mode: false, "an event");
                Outcome(faults, input.Outcome, $"the event \"{told}\"", EventRules.Answers);
                EventRules.Check(faults, model, "", "outcome", new EventAnswer(told, input.Outcome ?? "", input.When, input.Then));
                return null;
            case { Trial: { } trial }:
                Only(faults, input, readings: false, mode: false, "a trial");
                TrialRules.Check(faults, step.Car, trial, input.Outcome);
                return null;
            case { Own: { } own }:
                Only(faults, input, readings: false, mode: false, "an observation of your own");
                OwnRules.Check(faults, step.Car, own, input.Outcome);
                return null;
            case { Check: { } former } when model.Trials.FirstOrDefault(t => t.Formerly.ContainsKey(former)) is { } trial:
                FittedRules.MakesSense(faults, step.Car, "/check", trial.Id);
                Only(faults, input, readings: false, mode: false, "a trial");
                Outcome(faults, input.Outcome, $"\"{former}\"", [.. trial.Formerly[former].Keys]);
                return null;
            case { Check: { } id }:
                if (!faults.Known("/check", "check", id, model.Checks.Select(c => c.Id)))
                {
                    return null;
                }

                var check = step.Car.Check(id)!;
                FittedRules.MakesSense(faults, step.Car, "/check", id);
                Only(faults, input, readings: true, mode: false, "a check");
                OfCheck(faults, check, input);
                return check;
            default:
                Only(faults, input, readings: false, mode: true, "a part that was looked at");
                Seen(step, input, input.Component!);
                return null;
        }
    }

    private static int Things(NewFinding f) => new object?[] { f.Event, f.Check, f.Component, f.Trial, f.Own }.Count(thing => thing is not null);

    private static void OfCheck(Faults faults, Check check, NewFinding input)
    {
        switch (check.Kind)
        {
            case CheckKind.Measurement:
                Misplaced(faults, "/points", input.Points is not null, $"\"{check.Id}\" is one measurement; give reading");
                Measurement(faults, check, input);
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

    private static void Measurement(Faults faults, Check check, NewFinding input)
    {
        if (input is { Reading: null, Outcome: not null })
        {
            Outcome(faults, input.Outcome, $"the measurement \"{check.Id}\" without a reading", CommonWords.Ids(CommonWords.LimitWords));
            return;
        }

        Misplaced(faults, "/outcome", input.Outcome is not null, "with a reading the outcome is computed");
        Misplaced(faults, "/sure", !input.Sure, "doubt about a measurement belongs to the instrument's accuracy and the note");
        if (input.Reading is null)
        {
            faults.Required("/reading", $"reading is missing; \"{check.Id}\" is measured in {string.Join(", ", ReadingRules.QuantityOf(check).Units)}. If only the side of the limits is known, give outcome: below, within or above.");
        }
        else
        {
            ReadingRules.Reading(faults, check, input.Reading, input.Confirmed);
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
        if (input.How is { } how)
        {
            step.Faults.OneOf("/how", how, "seen", "tested");
        }

        if (!step.Faults.Known("/component", "component", id, step.Car!.Model.Components.Select(c => c.Id)))
        {
            return;
        }

        FittedRules.Has(step.Faults, step.Car, "/component", id);
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

    private static void Outcome(Faults faults, string? outcome, string what, params string[] allowed)
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

    private static void Only(Faults faults, NewFinding input, bool readings, bool mode, string what)
    {
        Misplaced(faults, "/mode", !mode && input.Mode is not null, $"mode belongs to a part that was looked at, not to {what}");
        Misplaced(faults, "/how", !mode && input.How is not null, $"how belongs to a part that was looked at or tested, not to {what}");
        Misplaced(faults, "/reading", !readings && input.Reading is not null, $"{what} has no reading");
        Misplaced(faults, "/points", !readings && input.Points is not null, $"{what} has no points");
        Misplaced(faults, "/instrument", !readings && input.Instrument is not null, $"{what} has no instrument");
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
