using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>Says that a proposed check or trial is not wanted, and why.</summary>
internal static class SetAsideForms
{
    /// <param name="proposal">What is proposed now; null: it is picked.</param>
    public static Form SetAside(FormData data, NextCheck? proposal)
    {
        PickField check = new("check", "Check", "this, or a trial; Enter shows the list", data.Checks);
        PickField trial = new("trial", "Trial", "this, or a check; Enter shows the list", data.Trials);
        ChoiceField reason = new("reason", "Why", "not fitted and no tool count until they are voided", ChoiceField.Words("not-today: not today", "no-tool: no tool for it", "not-fitted: the car does not have it"));
        TypedField until = new("until", "Not before", "only with not today: the last day on which it is not wanted (2026-03-14); empty for today"), note = VehicleForms.Note();
        return new Form("Set a check or trial aside", [check, trial, reason, until, note], _ =>
        {
            Draft draft = new(data.Clock);
            NewSetAside body = new(reason.Value, check.Id, trial.Id, draft.Day(until), note.Value);
            return new(draft.Faults, ct => VehicleForms.Saved(data.Calls.Ask(api => api.SetAside(data.Complaint!.Entry.Id, body, ct)),
                entry => new($"Set aside: {entry.Title}{(entry.Until is null ? "" : $", until {entry.Until}")}", entry.Entry.Id)));
        }).With(proposal is { Trial: true } ? "trial" : "check", proposal?.Check);
    }
}
