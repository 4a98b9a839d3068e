using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Findings;

/// <summary>Whether something tried for a moment was told as the fault model can take it.</summary>
internal static class TrialRules
{
    private const string ExtraFuel = "extra-fuel";

    public static void Check(Faults faults, Car car, TrialDone trial, string? outcome)
    {
        Done(faults, car, trial);
        faults.OneOf("/trial/standIn", trial.StandIn, "new", "new-unbranded", "rebuilt", "used", "unknown");
        if (outcome is null)
        {
            faults.Required("/outcome", $"outcome is missing; for a trial it is one of {string.Join(", ", CommonWords.Ids(CommonWords.TrialResults))}.");
        }
        else
        {
            faults.OneOf("/outcome", outcome, CommonWords.Ids(CommonWords.TrialResults));
        }

        if (trial.Back is { } back)
        {
            faults.OneOf("/trial/back", back, "came-back", "stayed-away");
            if (outcome is not "ended")
            {
                faults.Add("/trial/back", Problems.Unsuitable, $"back says what the old part did after the trouble had ended, but the outcome is {outcome ?? "missing"}; leave it out.");
            }
        }
    }

    private static void Done(Faults faults, Car car, TrialDone trial)
    {
        switch (trial)
        {
            case { Trial: { } id, Do: null, Component: null }:
                if (faults.Known("/trial/trial", "trial", id, car.Model.Trials.Select(t => t.Id)))
                {
                    FittedRules.MakesSense(faults, car, "/trial/trial", id);
                }

                break;
            case { Trial: { } id }:
                faults.Add("/trial", Problems.Unsuitable, $"\"{id}\" says already what was done and to what; leave do and component out.");
                break;
            case { Do: ExtraFuel }:
                faults.Add("/trial/do", Problems.Unsuitable, $"Extra fuel is not given to a component: give trial with one of the fault model's.{Of(car.Model, ExtraFuel)}");
                break;
            case { Do: { } doing, Component: { } component }:
                faults.OneOf("/trial/do", doing, [.. CommonWords.Ids(CommonWords.Doings).Except([ExtraFuel])]);
                Part(faults, car, doing, component);
                break;
            default:
                faults.Required("/trial", "trial is incomplete; give trial (one of the fault model's), or do and component.");
                break;
        }
    }

    private static void Part(Faults faults, Car car, string doing, string id)
    {
        if (!faults.Known("/trial/component", "component", id, car.Model.Components.Where(c => !c.Instrument).Select(c => c.Id)))
        {
            return;
        }

        FittedRules.Has(faults, car, "/trial/component", id);
        var component = car.Model.Components.First(c => c.Id == id);
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
