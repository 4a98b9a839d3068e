using FuelHistory.Contracts;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Findings;

/// <summary>What may be said of a trial, and of an observation of one's own.</summary>
internal static class TrialRules
{
    public static void Check(Faults faults, Car car, TrialDone trial, string? outcome)
    {
        if (trial.Trial is { } id)
        {
            if (faults.Known("/trial/trial", "trial", id, car.Model.Trials.Select(t => t.Id)))
            {
                FittedRules.MakesSense(faults, car, "/trial/trial", id);
            }
        }
        else if (trial.Do is null || trial.Component is null)
        {
            faults.Required("/trial", "trial is incomplete; give trial (one of the fault model's), or do and component.");
        }

        if (trial.Trial is not null && (trial.Do is not null || trial.Component is not null))
        {
            faults.Add("/trial", Problems.Unsuitable, $"\"{trial.Trial}\" says already what was done and to what; leave do and component out.");
        }

        if (trial.Do is { } done)
        {
            faults.OneOf("/trial/do", done, "another", "bypass", "unplug", "touch", "extra-fuel");
        }

        if (trial.Component is { } component)
        {
            Part(faults, car, "/trial/component", component);
        }

        faults.OneOf("/trial/standIn", trial.StandIn, "new", "new-unbranded", "rebuilt", "used", "unknown");
        faults.OneOf("/outcome", outcome ?? "", "ended", "better", "same", "worse");
        if (trial.Back is { } back)
        {
            faults.OneOf("/trial/back", back, "came-back", "stayed-away");
            if (outcome is not "ended")
            {
                faults.Add("/trial/back", Problems.Unsuitable, $"back says what the old part did after the trouble had ended, but the outcome is {outcome ?? "missing"}; leave it out.");
            }
        }
    }

    /// <param name="before">Own observations of the complaint that count.</param>
    public static void Check(Faults faults, Car car, OwnObservation own, string? outcome, IEnumerable<Finding> before)
    {
        faults.OneOf("/own/direction", own.Direction, "for", "against");
        faults.OneOf("/own/strength", own.Strength, "slightly", "clearly", "strongly");
        faults.Text("/own/words", own.Words, Lengths.Note, required: true);
        if ((own.Component is null) == (own.Side is null))
        {
            faults.Required("/own", "An observation of your own speaks of one thing: give component or side.");
        }

        if (own.Component is { } component)
        {
            Part(faults, car, "/own/component", component);
        }

        if (own.Side is { } side)
        {
            faults.Known("/own/side", "side", side, FaultModels.FaultModelViews.Sides.Select(s => s.Id));
        }

        if (outcome is not null)
        {
            faults.Add("/outcome", Problems.Unsuitable, "outcome does not belong here: direction and strength say it. Leave it out.");
        }

        if (before.FirstOrDefault(f => f.Own is { } o && o.Component == own.Component && o.Side == own.Side && o.Direction != own.Direction) is { } other)
        {
            faults.Add("/own/direction", Problems.Unsuitable, $"This speaks {own.Direction} what \"{other.Own!.Words}\" speaks {other.Own.Direction}. Void or correct that one first, if you think otherwise now.");
        }
    }

    /// <summary>Of the fault model, and on the car.</summary>
    private static void Part(Faults faults, Car car, string pointer, string component)
    {
        if (faults.Known(pointer, "component", component, car.Model.Components.Where(c => !c.Instrument).Select(c => c.Id)))
        {
            FittedRules.Has(faults, car, pointer, component);
        }
    }
}
