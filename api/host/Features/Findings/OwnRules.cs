using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Findings;

using OwnObservation = FuelHistory.Contracts.OwnObservation;

/// <summary>Whether a judgement of one's own says for or against what, how strongly, and why.</summary>
internal static class OwnRules
{
    public static void Check(Faults faults, FaultModel model, OwnObservation own, string? outcome)
    {
        FindingRules.Misplaced(faults, "/outcome", outcome is not null, "direction and strength say it");
        faults.OneOf("/own/direction", own.Direction, "for", "against");
        faults.OneOf("/own/strength", own.Strength, "slightly", "clearly", "strongly");
        faults.Text("/own/words", own.Words, Lengths.Note, required: true);
        switch (own)
        {
            case { Component: { } component, Side: null }:
                faults.Known("/own/component", "component", component, model.Components.Where(c => !c.Instrument).Select(c => c.Id));
                break;
            case { Component: null, Side: { } side }:
                faults.OneOf("/own/side", side, [.. CarSides.Titles.Keys]);
                break;
            default:
                faults.Add("/own", Problems.Unsuitable, $"Say what it speaks for or against: give either component or side ({string.Join(", ", CarSides.Titles.Keys)}).");
                break;
        }
    }
}
