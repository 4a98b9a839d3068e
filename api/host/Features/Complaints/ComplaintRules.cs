using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Features.Findings;
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
        Marks(step, input.Main, input.Onset);
        EventRules told = new(step.Car!.Model);
        for (var i = 0; i < input.Events.Count; i++)
        {
            step.Faults.OneOf($"/events/{i}/answer", input.Events[i].Answer, EventRules.Answers);
            told.Check(step.Faults, $"/events/{i}", "answer", input.Events[i]);
        }

        return null;
    }

    public Refused? Check(Step step, ComplaintChange input)
    {
        Content(step, input.Title, input.Since, input.Course, input.Always, input.Note);
        Marks(step, input.Main, input.Onset);
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

    private static void Content(Step step, string title, string since, string course, bool always, string? note)
    {
        step.Faults.Text("/title", title, Lengths.Name, required: true);
        step.Faults.Text("/note", note, Lengths.Note);
        step.Faults.OneOf("/course", course, "constant", "intermittent");
        step.Days.Past(step.Faults, "/since", since);
    }

    private static void Marks(Step step, string? main, string? onset)
    {
        if (main is not null)
        {
            step.Faults.Known("/main", "event", main, EventRules.Ids(step.Car!.Model));
        }

        if (onset is not null)
        {
            step.Faults.Known("/onset", "onset", onset, FaultModels.FaultModelViews.Onsets.Select(o => o.Id));
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
