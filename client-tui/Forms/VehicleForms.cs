using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>The forms about a car as a whole.</summary>
internal static class VehicleForms
{
    internal const string DateHint =
        "14.3.2026, 2026-03, 2026, about 1995, before 1995, after 1995, between 1990 and 1995, unknown, today, or -3 for three days ago";

    public static Form Vehicle(FormData data, Save<NewVehicle>? save = null)
    {
        TypedField name = new("name", "Name", "what you call the car"), year = new("year", "Year", "1981, or about 1981", reads: Reads.Date(data.Clock));
        ChoiceField system = new("system", "Fuel system", "", Systems(data));
        TypedField engine = new("engine", "Engine", "may be left empty: its code, or 1.6 four-cylinder");
        TypedField make = new("make", "Make", "may be left empty; published limits are looked up by it"), model = new("model", "Model", "may be left empty; as documents call it");
        ChoiceField unit = new("odometerUnit", "Odometer counts", "", ChoiceField.Words("km: kilometres", "mi: miles"), data.Unit("distance"));
        TypedField since = new("inUseSince", "In use since", "may be left empty: 1982-05, 1982, about 1982, before 1985", reads: Reads.Date(data.Clock));
        ChoiceField complete = new("recordComplete", "Record is complete", "yes: nothing was ever done to the car that the record does not name", ChoiceField.Words("no", "yes"));
        TypedField options = new("options", "What is fitted", OptionHint(data));
        TypedField note = Note();
        return new("Add a vehicle", [name, year, system, make, model, engine, unit, since, complete, options, note], _ =>
        {
            Draft draft = new(data.Clock);
            if (system is { Value: "", Choices.Count: > 0 }) draft.Wrong(system, "choose the fuel system of the car; what it is asked and how it is judged hang on it");
            NewVehicle body = new(
                name.Value ?? "", draft.Year(year) ?? "", system.Value, unit.Value, engine.Value, draft.Day(since), complete.Value is "yes", note.Value, make.Value, model.Value, draft.Named(options));
            return new(draft.Faults, ct => save?.Invoke(body, ct) ?? Saved(data.Calls.Ask(api => api.AddVehicle(body, ct)), vehicle => new($"Added: {vehicle.Name}, {vehicle.Year}", vehicle.Entry.Id)));
        });
    }

    /// <summary>The options of the vehicle's fuel system, where that is known already.</summary>
    private static string OptionHint(FormData data)
    {
        var known = (data.Model?.Options ?? []).Select(option => $"{option.Id}={string.Join('|', option.Choices.Select(choice => choice.Id))}");
        return "may be left empty: option=choice, separated by commas, as \"fuel names\" lists them; " + string.Join(", ", known);
    }

    /// <summary>Where there are several, none is taken for granted.</summary>
    private static IReadOnlyList<NamedThing> Systems(FormData data)
    {
        IReadOnlyList<NamedThing> all = [.. data.Systems.Select(head => new NamedThing(head.Id, head.Own ? $"{head.Title} (your own)" : head.Title))];
        return all.Count < 2 ? all : [new NamedThing("", FindingForms.Choose), .. all];
    }

    public static Form Archive(FormData data, string vehicleId, string name)
    {
        TypedField reason = new("reason", "Reason", "sold, scrapped ...; the record stays readable, nothing more can be entered"), sure = new("sure", "Type y to archive it", $"archives {name}; there is no way back");
        return new($"Archive {name}", [reason, sure], _ =>
        {
            Draft draft = new(data.Clock);
            if (sure.Value is not ("y" or "Y")) draft.Wrong(sure, "y is not typed: nothing was archived");
            return new(draft.Faults, ct => Saved(data.Calls.Ask(api => api.Archive(vehicleId, new VoidRequest(reason.Value ?? ""), ct)), vehicle => new($"Archived: {vehicle.Name}", vehicle.Entry.Id)));
        });
    }

    public static Form Odometer(FormData data, Save<NewOdometer>? save = null)
    {
        TypedField date = new("date", "Date", DateHint, "today", Reads.Date(data.Clock));
        TypedField reading = new("reading", "Odometer shows", $"84210 {DistanceUnit(data)}", reads: Reads.Odometer(DistanceUnit(data)));
        TypedField clock = new("newClock", "New clock starts at", "only where the clock was changed that day: what the new one started at", reads: Reads.Odometer(DistanceUnit(data))), note = Note();
        return new("Enter an odometer reading", [date, reading, clock, note], _ =>
        {
            Draft draft = new(data.Clock);
            var shown = draft.Measure(reading, DistanceUnit(data), thousands: true);
            if (shown is null && draft.Faults.Count == 0) draft.Wrong(reading, "what the odometer shows is missing");
            var start = draft.Measure(clock, DistanceUnit(data), thousands: true);
            NewOdometer body = new(draft.Day(date) ?? "", shown!, start, note.Value);
            return new(draft.Faults, ct => save?.Invoke(body, ct) ?? Saved(data.Calls.Ask(api => api.AddOdometer(data.Vehicle!.Entry.Id, body, ct)),
                entry => new($"Entered: odometer {Words.Figures.Of(entry.Reading)} on {entry.Date}", entry.Entry.Id)));
        });
    }

    public static Form LayUp(FormData data, Save<NewLayUp>? save = null)
    {
        TypedField from = new("from", "Stood from", DateHint, reads: Reads.Date(data.Clock)), to = new("to", "Until", "empty while it still stands; unknown where nobody knows", reads: Reads.Date(data.Clock)), note = Note();
        return new("Enter a lay-up", [from, to, note], _ =>
        {
            Draft draft = new(data.Clock);
            NewLayUp body = new(draft.Day(from) ?? "", draft.Day(to), note.Value);
            return new(draft.Faults, ct => save?.Invoke(body, ct) ?? Saved(data.Calls.Ask(api => api.AddLayUp(data.Vehicle!.Entry.Id, body, ct)),
                entry => new($"Entered: lay-up from {entry.From} to {entry.To ?? "now"}", entry.Entry.Id)));
        });
    }

    public static Form Incident(FormData data, Save<NewIncident>? save = null)
    {
        TypedField date = new("date", "Date", DateHint, "today", Reads.Date(data.Clock)), note = Note();
        PickField kind = new("kind", "What happened", "Enter shows the list", data.Model?.Incidents ?? []);
        return new("Enter an incident", [date, kind, note], _ =>
        {
            Draft draft = new(data.Clock);
            NewIncident body = new(draft.Day(date) ?? "", kind.Id ?? "", note.Value);
            return new(draft.Faults, ct => save?.Invoke(body, ct) ?? Saved(data.Calls.Ask(api => api.AddIncident(data.Vehicle!.Entry.Id, body, ct)),
                entry => new($"Entered: {kind.Shown} on {entry.Date}", entry.Entry.Id)));
        });
    }

    public static Form Work(FormData data, Save<NewWork>? save = null)
    {
        TypedField date = new("date", "Date", DateHint, data.Complaint is null ? "" : "today", Reads.Date(data.Clock));
        TypedField at = new("at", "Time", "only where the order within a day matters: now, 15:30, or 14.3.2026 15:30", data.Complaint is null ? "" : "now", Reads.Moment(data.Clock));
        ChoiceField action = new("action", "What was done", "", ChoiceField.Words("fitted", "rebuilt", "cleaned", "adjusted", "inspected: looked at or tested", "unknown: something, nobody knows what"));
        PickField parts = new("components", "To what", "Enter shows the list", data.Components, many: true);
        ChoiceField known = new("known", "How we know", "", ChoiceField.Words("did-it: did it", "seen: saw it", "invoice: an invoice", "told: only told"));
        ChoiceField quality = new("quality", "Quality of the part", "", ChoiceField.Words("unknown", "new", "new-unbranded: new, unbranded", "rebuilt", "used"));
        TypedField age = new("partAgeYears", "Age of a used part", "in years; only for a used part", reads: Reads.Number()), odometer = new("odometer", "Odometer", $"84210 {DistanceUnit(data)}; may be left empty", reads: Reads.Odometer(DistanceUnit(data)));
        TypedField maker = new("maker", "Maker", "of the part"), number = new("partNumber", "Part number", ""), cost = new("cost", "Cost", $"120 {data.Currency}", reads: Reads.Money(data.Currency));
        ChoiceField reason = new("reason", "Why", "", ChoiceField.Words("unknown", "failed: the old one had failed", "preventive"));
        ChoiceField outcome = new("outcome", "Inspected, it was", "only where one part was inspected", [new NamedThing("", "(nothing told)"), .. ChoiceField.Words("good", "bad")]);
        PickField mode = new("mode", "Fault", "what was wrong with it, where it was bad", FindingForms.Modes(data));
        ChoiceField how = new("how", "How", "of an inspection", [new NamedThing("", "(not told)"), .. FindingForms.Looks]);
        ChoiceField sure = new("sure", "Sure of it", "of what was found; no: you think so", FindingForms.Sure);
        TypedField note = Note();
        return new("Enter work", [date, action, parts, known, quality, odometer, maker, number, cost, reason, age, at, outcome, mode, how, sure, note], _ =>
        {
            Draft draft = new(data.Clock);
            NewWork body = new(draft.Day(date) ?? "", action.Value, parts.Ids, known.Value, draft.Moment(at), quality.Value, draft.Number(age), draft.Measure(odometer, DistanceUnit(data), thousands: true),
                maker.Value, number.Value, draft.Money(cost, data.Currency), reason.Value, note.Value,
                Told(outcome), FindingForms.ModeOnly(mode.Id), Told(how), sure.Value is not "no");
            return new(draft.Faults, ct => save?.Invoke(body, ct) ?? Saved(data.Calls.Ask(api => api.AddWork(data.Vehicle!.Entry.Id, body, ct)), entry => new($"Entered: {Said(parts.Shown, entry)}, {(entry.Date is "unknown" ? "date unknown" : entry.Date)}", entry.Entry.Id)));
        });
    }

    private static string Said(string parts, Work entry) => entry switch
    {
        { Action: "unknown" } => $"{parts}: something done, nobody knows what",
        { Outcome: { } outcome } => $"{parts} {(entry.How is "tested" ? "tested" : "inspected")}: {outcome}",
        _ => $"{parts} {entry.Action}",
    };

    private static string? Told(ChoiceField choice) => choice.Value is "" ? null : choice.Value;

    internal static TypedField Note() => new("note", "Note", "anything worth remembering");

    internal static async Task<Api.Answer<Stored>> Saved<T>(Task<Api.Answer<T>> call, Func<T, Stored> stored) => (await call.ConfigureAwait(false)).As(stored);

    private static string DistanceUnit(FormData data) => data.Vehicle?.OdometerUnit ?? data.Unit("distance") ?? "km";
}
