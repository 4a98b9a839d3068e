using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Findings;

using OwnObservation = FuelHistory.Contracts.OwnObservation;

/// <summary>Whether a judgement of one's own says for or against what, how strongly, and why.</summary>
internal static class OwnRules
{
    public static void Check(Faults faults, Car car, OwnObservation own, string? outcome)
    {
        FindingRules.Misplaced(faults, "/outcome", outcome is not null, "direction and strength say it");
        faults.OneOf("/own/direction", own.Direction, "for", "against");
        faults.OneOf("/own/strength", own.Strength, "slightly", "clearly", "strongly");
        faults.Text("/own/words", own.Words, Lengths.Note, required: true);
        switch (own)
        {
            case { Component: { } component, Side: null }:
                if (faults.Known("/own/component", "component", component, car.Model.Components.Where(c => !c.Instrument).Select(c => c.Id)))
                {
                    FittedRules.Has(faults, car, "/own/component", component);
                }

                break;
            case { Component: null, Side: { } side }:
                faults.Known("/own/side", "side", side, CommonWords.Ids(CommonWords.Sides));
                break;
            default:
                faults.Required("/own", $"An observation of your own speaks of one thing: give either component or side ({string.Join(", ", CommonWords.Ids(CommonWords.Sides))}).");
                break;
        }
    }
}
