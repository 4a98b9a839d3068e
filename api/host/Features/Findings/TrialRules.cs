using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Findings;

/// <summary>Whether something tried for a moment was told as the fault model can take it.</summary>
internal static class TrialRules
{
    private static readonly string[] Doings = ["another", "bypass", "unplug", "touch"];

    public static void Check(Faults faults, FaultModel model, TrialDone trial, string? outcome)
    {
        FindingRules.Outcome(faults, outcome, "a trial", "ended", "better", "same", "worse");
        Done(faults, model, trial);
        faults.OneOf("/trial/standIn", trial.StandIn, "new", "new-unbranded", "rebuilt", "used", "unknown");
        if (trial.Back is { } back)
        {
            faults.OneOf("/trial/back", back, "came-back", "stayed-away");
            FindingRules.Misplaced(faults, "/trial/back", outcome != "ended", "what happened with the old part back tells something only where the trial had ended it");
        }
    }

    private static void Done(Faults faults, FaultModel model, TrialDone trial)
    {
        switch (trial)
        {
            case { Trial: { } id, Do: null, Component: null }:
                faults.Known("/trial/trial", "trial", id, model.Trials.Select(t => t.Id));
                break;
            case { Trial: null, Do: "extra-fuel" }:
                faults.Add("/trial/do", Problems.Unsuitable, $"Extra fuel is not given to a component: name the trial of the fault model.{Of(model, "extra-fuel")}");
                break;
            case { Trial: null, Do: { } doing, Component: { } component }:
                faults.OneOf("/trial/do", doing, Doings);
                Part(faults, model, doing, component);
                break;
            default:
                faults.Add("/trial", Problems.Unsuitable, "Say what was tried: give trial (an id of the fault model), or else do and component.");
                break;
        }
    }

    private static void Part(Faults faults, FaultModel model, string doing, string id)
    {
        if (!faults.Known("/trial/component", "component", id, model.Components.Where(c => !c.Instrument).Select(c => c.Id)))
        {
            return;
        }

        var component = model.Components.First(c => c.Id == id);
        if (doing == "another" && !component.Work.Any(w => w.Action == "replace"))
        {
            faults.Add("/trial/component", Problems.Unsuitable, $"\"{id}\" is nothing of which another one is put in; say what was done to it (clean or adjust it as work), or name another component.");
        }
        else if (doing == "touch" && !component.Modes.Any(m => m.Contact) && component.Moves.Count == 0)
        {
            faults.Add("/trial/component", Problems.Unsuitable, $"\"{id}\" has no contact that a knock, a wiggle, cold or warmth could make good; name the plug, relay or wire that was touched.");
        }
    }

    private static string Of(FaultModel model, string doing) =>
        model.Trials.Where(t => t.Do == doing).Select(t => t.Id).ToList() is { Count: > 0 } ids ? $" There is {string.Join(", ", ids)}." : " This model has none.";
}
