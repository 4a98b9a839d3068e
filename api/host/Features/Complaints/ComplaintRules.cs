using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Complaints;

public sealed class ComplaintRules(ComplaintStore store, FindingStore findings)
{
    private const string Elsewhere = "elsewhere";

    public Refused? Check(Step step, NewComplaint input)
    {
        Content(step, new ComplaintChange(input.Title, input.Since, input.Course, input.Always, input.Note, input.Main, input.Onset));
        step.Days.Past(step.Faults, "/at", input.At);
        var claims = input.Events.Select((answer, i) => EventRules.Check(step.Faults, step.Car!.Model, answer, $"/events/{i}", "/answer") is { } told ? new EventClaims(told, answer.Answer) : null).ToList();
        for (var i = 0; i < claims.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                if (input.Events[i].Sure && input.Events[j].Sure && claims[i] is { } later && claims[j] is { } earlier && later.Contradicts(earlier))
                {
                    step.Faults.Add($"/events/{i}", Problems.Unsuitable, $"Events {j + 1} ({Said(step, input.Events[j])}) and {i + 1} ({Said(step, input.Events[i])}) cannot both be right; take one of them out.");
                }
            }
        }

        if (input.Main is { } main && step.Faults.None && !claims.Any(c => c is { Answer: not "absent" } && c.Told.Event == EventOf(step, main)))
        {
            step.Faults.Add("/main", Problems.Unsuitable, $"main \"{main}\" is none of the events that are answered as present; add it to events, or name one of those.");
        }

        return null;
    }

    public Refused? Check(Step step, ComplaintChange input)
    {
        Content(step, input);
        return store.Shut(step.Session.Connection, step.Present!.EntryId);
    }

    public Refused? Check(Step step, Closing input)
    {
        var complaint = store.Versions(step.Session.Connection, step.Present!.EntryId)[0];
        step.Faults.OneOf("/result", input.Result, "cured", "gone-by-itself", "given-up");
        step.Faults.Text("/note", input.Note, Lengths.Note);
        step.Days.Past(step.Faults, "/at", input.At);
        if (DateOnly.FromDateTime(input.At.DateTime) < RoughDate.Parse(complaint.Since).Earliest)
        {
            step.Faults.Add("/at", Problems.ImpossibleDate, $"at {input.At:yyyy-MM-dd} lies before the complaint began ({complaint.Since}).");
        }

        if (input.Result == "cured" && input.Causes.Count == 0)
        {
            step.Faults.Required("/causes", "causes is empty; say which component was confirmed as the cause (or \"elsewhere\"), or close with result gone-by-itself.");
        }

        Causes(step, input.Causes);
        Proof(step, complaint, input.ProvedBy);
        return store.Shut(step.Session.Connection, step.Present.EntryId);
    }

    private static void Content(Step step, ComplaintChange input)
    {
        step.Faults.Text("/title", input.Title, Lengths.Name, required: true);
        step.Faults.Text("/note", input.Note, Lengths.Note);
        step.Faults.OneOf("/course", input.Course, "constant", "intermittent");
        step.Days.Past(step.Faults, "/since", input.Since);
        if (input.Main is { } main && EventOf(step, main) is null)
        {
            step.Faults.Known("/main", "event", main, EventRules.Ids(step.Car!.Model));
        }

        if (input.Onset is { } onset)
        {
            step.Faults.OneOf("/onset", onset, [.. CarSides.Onsets.Keys]);
        }
    }

    private static string? EventOf(Step step, string id) => ToldEvent.Of(step.Car!.Model, id, [], [])?.Event;

    private static string Said(Step step, EventAnswer answer) => Sentences.Event(step.Car!.Model, answer);

    private static void Causes(Step step, IReadOnlyList<ConfirmedCause> causes)
    {
        for (var i = 0; i < causes.Count; i++)
        {
            var (here, cause) = ($"/causes/{i}", causes[i]);
            if (causes.Take(i).Contains(cause))
            {
                step.Faults.Add(here, Problems.Unsuitable, $"Cause {i + 1} is given twice; once is enough.");
            }

            if (cause.Component == Elsewhere)
            {
                if (cause.Mode is not null)
                {
                    step.Faults.Add(here + "/mode", Problems.Unsuitable, "\"elsewhere\" has no modes; leave mode out and say more in the note.");
                }
            }
            else if (step.Faults.Known(here + "/component", "component", cause.Component, [.. step.Car!.Model.Components.Where(c => !c.Instrument).Select(c => c.Id), Elsewhere]) && cause.Mode is not null)
            {
                step.Faults.Known(here + "/mode", $"mode of {cause.Component}", cause.Mode, step.Car.Component(cause.Component)!.Modes.Select(m => m.Id));
            }
        }
    }

    private void Proof(Step step, Complaint complaint, IReadOnlyList<string> provedBy)
    {
        var own = findings.OfVehicle(step.Session.Connection, step.Car!)
            .Where(f => f.ComplaintId == complaint.Entry.Id && f.Entry.VoidReason is null).Select(f => f.Entry.Id).ToHashSet();
        for (var i = 0; i < provedBy.Count; i++)
        {
            if (!own.Contains(provedBy[i]))
            {
                step.Faults.Add($"/provedBy/{i}", Problems.Unknown, $"\"{provedBy[i]}\" is no finding of this complaint (void ones do not count); give the id of the finding that repeated the failing check.");
            }
        }
    }
}
