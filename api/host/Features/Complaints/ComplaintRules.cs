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
        Content(step, input.Title, input.Since, input.Course, input.Always, input.Note);
        step.Days.Past(step.Faults, "/at", input.At);
        Onset(step, input.Onset);
        List<EventClaims?> claims = [];
        for (var i = 0; i < input.Events.Count; i++)
        {
            step.Faults.OneOf($"/events/{i}/answer", input.Events[i].Answer, EventRules.Answers);
            var claim = EventRules.Check(step.Faults, step.Car!.Model, $"/events/{i}", "answer", input.Events[i]);
            Contradiction(step, input.Events, claims, claim);
            claims.Add(claim);
        }

        MainEvent(step, input.Main, claims);
        return null;
    }

    public Refused? Check(Step step, ComplaintChange input)
    {
        Content(step, input.Title, input.Since, input.Course, input.Always, input.Note);
        Onset(step, input.Onset);
        var told = findings.OfVehicle(step.Session.Connection, step.Car!).Where(f => f.ComplaintId == step.Present!.EntryId && f.Entry.VoidReason is null);
        MainEvent(step, input.Main, [.. told.Select(f => EventClaims.Of(step.Car!.Model, f))]);
        return store.Shut(step.Session.Connection, step.Present!.EntryId);
    }

    public Refused? Check(Step step, Closing input)
    {
        var complaint = store.Versions(step.Session.Connection, step.Present!.EntryId)[0];
        step.Faults.OneOf("/result", input.Result, "resolved", "gone-by-itself", "given-up");
        step.Faults.Text("/note", input.Note, Lengths.Note);
        step.Days.Past(step.Faults, "/at", input.At);
        if (DateOnly.FromDateTime(input.At.DateTime) < RoughDate.Parse(complaint.Since).Earliest)
        {
            step.Faults.Add("/at", Problems.ImpossibleDate, $"at {input.At:yyyy-MM-dd} lies before the complaint began ({complaint.Since}).");
        }

        if (input.Result == "resolved" && input.Causes.Count == 0)
        {
            step.Faults.Required("/causes", "causes is empty; say which component was confirmed as the cause (or \"elsewhere\"), or close with result gone-by-itself.");
        }

        Causes(step, input.Causes);
        Proof(step, complaint, input.ProvedBy);
        return store.Shut(step.Session.Connection, step.Present.EntryId);
    }

    private static void Content(Step step, string title, string since, string course, bool always, string? note)
    {
        step.Faults.Text("/title", title, Lengths.Name, required: true);
        step.Faults.Text("/note", note, Lengths.Note);
        step.Faults.OneOf("/course", course, "constant", "intermittent");
        step.Days.Past(step.Faults, "/since", since);
    }

    /// <summary>Two answers of one opening that cannot both be true.</summary>
    private static void Contradiction(Step step, IReadOnlyList<EventAnswer> said, List<EventClaims?> before, EventClaims? claim)
    {
        var i = before.Count;
        if (claim is null || !said[i].Sure)
        {
            return;
        }

        foreach (var j in Enumerable.Range(0, i).Where(j => said[j].Sure && before[j]?.Contradicts(claim) == true).Take(1))
        {
            step.Faults.Add($"/events/{i}/event", Problems.Unsuitable, $"Event {j + 1} ({Text(step, said[j])}) and event {i + 1} ({Text(step, said[i])}) cannot both be right; take out the one that is mistaken, or give it \"sure\": false.");
        }
    }

    private static void MainEvent(Step step, string? main, List<EventClaims?> claims)
    {
        var model = step.Car!.Model;
        if (main is null || !step.Faults.Known("/main", "event", main, EventRules.Ids(model)) || claims.Any(c => c is { Answer: not "absent" } && c.Told.Event == ToldEvent.Of(model, main, [], [])!.Event))
        {
            return;
        }

        string[] present = [.. claims.Where(c => c is { Answer: not "absent" }).Select(c => c!.Told.Event).Distinct()];
        step.Faults.Add("/main", Problems.Unsuitable, $"main \"{main}\" is none of the events that are present here ({(present.Length == 0 ? "there is none yet" : string.Join(", ", present))}); name one of them, enter it as present first, or leave main out.");
    }

    private static string Text(Step step, EventAnswer said) => Sentences.Of(step.Car!.Model, said);

    private static void Onset(Step step, string? onset)
    {
        if (onset is not null)
        {
            step.Faults.Known("/onset", "onset", onset, CommonWords.Ids(CommonWords.Onsets));
        }
    }

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
            else if (step.Faults.Known(here + "/component", "component", cause.Component, [.. step.Car!.Model.Components.Where(c => !c.Instrument).Select(c => c.Id), Elsewhere])
                && FittedRules.Has(step.Faults, step.Car, here + "/component", cause.Component) && cause.Mode is not null)
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
