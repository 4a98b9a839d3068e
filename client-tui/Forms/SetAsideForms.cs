using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>Says that a proposed check is not wanted, and why.</summary>
internal static class SetAsideForms
{
    public static Form SetAside(FormData data)
    {
        PickField check = new("check", "Check", "Enter shows the list", data.Checks);
        ChoiceField reason = new("reason", "Why", "not fitted and no tool count until they are voided", ChoiceField.Words("not-today: not today", "no-tool: no tool for it", "not-fitted: the car does not have it"));
        TypedField until = new("until", "Not before", "only with not today: the last day on which it is not wanted (2026-03-14); empty for today"), note = VehicleForms.Note();
        return new("Set a check aside", [check, reason, until, note], _ =>
        {
            Draft draft = new(data.Clock);
            NewSetAside body = new(check.Id ?? "", reason.Value, draft.Day(until), note.Value);
            return new(draft.Faults, ct => VehicleForms.Saved(data.Calls.Ask(api => api.SetAside(data.Complaint!.Entry.Id, body, ct)),
                entry => new($"Set aside: {entry.Title}{(entry.Until is null ? "" : $", until {entry.Until}")}", entry.Entry.Id)));
        });
    }
}
