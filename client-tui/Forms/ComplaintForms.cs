using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>The forms about what is wrong with a car.</summary>
internal static class ComplaintForms
{
    private const string Elsewhere = "elsewhere";

    public static Form Complaint(FormData data)
    {
        TypedField title = new("title", "Complaint", "in your own words: restarts badly after a short stop"), since = new("since", "Since", VehicleForms.DateHint, reads: Reads.Date(data.Clock));
        ChoiceField course = new("course", "Course", "", ChoiceField.Words("constant", "intermittent: comes and goes"));
        ChoiceField always = new("always", "As long as I had it", "yes: nobody here has known the car without it", ChoiceField.Words("no", "yes"));
        PickField events = new("events", "What it does", "Enter shows the questions; what is not there counts as well as what is", Events.Of(data.Model), many: true, ["present", "absent"], Events.Questions(data.Model));
        PickField main = new("main", "Main trouble", "the one that matters most, if there are several", Events.Titles(data.Model));
        ChoiceField onset = Onset(data);
        TypedField note = VehicleForms.Note();
        return new("Open a complaint", [title, since, course, always, events, main, onset, note], _ =>
        {
            Draft draft = new(data.Clock);
            NewComplaint body = new(title.Value ?? "", draft.Day(since) ?? "", [.. events.Picked.Select(picked => new EventAnswer(picked.Id, picked.Answer))], course.Value, always.Value is "yes", data.Clock.GetLocalNow(), note.Value, main.Id, Given(onset));
            return new(draft.Faults, ct => VehicleForms.Saved(data.Calls.Ask(api => api.AddComplaint(data.Vehicle!.Entry.Id, body, ct)),
                complaint => new($"Opened: {complaint.Title}", complaint.Entry.Id)));
        });
    }

    /// <summary>What may be corrected of a complaint; its events are findings and are corrected there.</summary>
    public static Form Change(FormData data, Save<ComplaintChange> save)
    {
        TypedField title = new("title", "Complaint", "in your own words"), since = new("since", "Since", VehicleForms.DateHint, reads: Reads.Date(data.Clock));
        ChoiceField course = new("course", "Course", "", ChoiceField.Words("constant", "intermittent: comes and goes"));
        ChoiceField always = new("always", "As long as I had it", "yes: nobody here has known the car without it", ChoiceField.Words("no", "yes"));
        PickField main = new("main", "Main trouble", "the one that matters most, if there are several", Events.Titles(data.Model));
        ChoiceField onset = Onset(data);
        TypedField note = VehicleForms.Note();
        return new("Correct the complaint", [title, since, course, always, main, onset, note], _ =>
        {
            Draft draft = new(data.Clock);
            ComplaintChange body = new(title.Value ?? "", draft.Day(since) ?? "", course.Value, always.Value is "yes", note.Value, main.Id, Given(onset));
            return new(draft.Faults, ct => save(body, ct));
        });
    }

    public static Form Close(FormData data)
    {
        ChoiceField result = new("result", "Result", "", ChoiceField.Words("resolved: resolved by a repair", "gone-by-itself: ended without a repair", "given-up: given up"));
        PickField causes = new("causes", "What it was", "Enter shows components and what can be wrong with them", Causes(data), many: true);
        PickField proof = new("provedBy", "Proved by", "the finding that repeated the failing check after the repair", [.. data.Findings.OrderByDescending(each => each.At).Select(each => new NamedThing(each.Entry.Id, each.Text))], many: true);
        TypedField at = new("at", "Day and time", "now, 15:30, or 14.3.2026 15:30", "now", Reads.Moment(data.Clock)), note = VehicleForms.Note();
        return new("Close the complaint", [result, causes, proof, at, note], _ =>
        {
            Draft draft = new(data.Clock);
            Closing body = new(draft.Moment(at) ?? data.Clock.GetLocalNow(), result.Value, [.. causes.Ids.Select(Cause)], proof.Ids, note.Value);
            return new(draft.Faults, ct => VehicleForms.Saved(data.Calls.Ask(api => api.CloseComplaint(data.Complaint!.Entry.Id, body, ct)), complaint => new($"Closed: {complaint.Title}, {result.Shown}", complaint.Entry.Id)));
        });
    }

    public static Form Void(FormData data, string kind, string id, string text)
    {
        TypedField reason = new("reason", "Reason", "why the entry no longer counts; it stays readable"), sure = new("sure", "Type y to void it", $"voids this {kind}: {text}");
        return new($"Void this {kind}", [reason, sure], _ =>
        {
            Draft draft = new(data.Clock);
            if (sure.Value is not ("y" or "Y")) draft.Wrong(sure, "y is not typed: nothing was voided");
            return new(draft.Faults, ct => VehicleForms.Saved(Voiding.Call(data.Calls, kind, id, new VoidRequest(reason.Value ?? ""), ct), _ => new($"Voided: {text}", id)));
        });
    }

    /// <summary>How it came about, asked once.</summary>
    private static ChoiceField Onset(FormData data) =>
        new("onset", "How it came", "suddenly, slowly, since work was done, ...", [new NamedThing("", "(not known)"), .. data.Model?.Onsets ?? []]);

    private static string? Given(ChoiceField field) => string.IsNullOrEmpty(field.Value) ? null : field.Value;

    /// <summary>A component as a whole, each of its modes, and another cause. A mode is named component.mode here.</summary>
    private static List<NamedThing> Causes(FormData data) =>
    [
        .. (data.Model?.Components ?? []).Where(part => !part.Instrument).SelectMany(part => part.Modes
            .Select(mode => new NamedThing($"{part.Id}.{mode.Id}", $"{part.Title}: {mode.Title}")).Prepend(new NamedThing(part.Id, part.Title))),
        new(Elsewhere, "Another cause: nothing that this model covers"),
    ];

    private static ConfirmedCause Cause(string id)
    {
        var parts = id.Split('.', 2);
        return new ConfirmedCause(parts[0], parts.Length > 1 ? parts[1] : null);
    }
}
