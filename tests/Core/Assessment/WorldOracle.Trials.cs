using System.Globalization;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

internal sealed partial class WorldOracle
{
    /// <summary>The parts in the trial's world: the stand-in, or a contact made good, each as likely as the model says; null: no trial.</summary>
    private IEnumerable<(double, Part[]?)> TrialWorlds(Part[][] stretches)
    {
        if (_case.Trials.Count == 0)
        {
            return [(1, null)];
        }

        (Observation f, int stretch) = _case.Trials[0];
        TrialFact trial = f.Trial!;
        int tried = PartOf(trial.Component!);
        List<(double P, Part[] Parts)> worlds = [(1, [.. stretches[stretch]])];
        double moved = trial.Kind == TrialKind.Touched ? 0.7 : trial.CameBack == true ? 0.4 * 0.03 : 0.4;
        worlds = Touch(worlds, [.. _model.Components[tried].Moves.Select(PartOf)], moved);
        return trial.Kind switch
        {
            not TrialKind.Touched when trial.CameBack == false => worlds.Select(w => (w.P, (Part[]?)w.Parts)),
            TrialKind.Touched => Touch(worlds, [tried], 0.7).Select(w => (w.P, (Part[]?)w.Parts)),
            TrialKind.Another => worlds.SelectMany(w => _case.Fresh(_model.Components[tried]).Select((p, i) => (w.P * p, (Part[]?)With(w.Parts, tried, new Part(i - 1, StandIn))))),
            _ => worlds.Select(w => (w.P, (Part[]?)With(w.Parts, tried, w.Parts[tried] with { Mode = -1 }))),
        };
    }

    /// <summary>Metal of the part that a trial puts in.</summary>
    private const int StandIn = 99;

    private List<(double P, Part[] Parts)> Touch(List<(double P, Part[] Parts)> worlds, int[] parts, double right)
    {
        foreach (int part in parts)
        {
            worlds = [.. worlds.SelectMany(w => w.Parts[part].Mode >= 0 && _model.Components[part].Modes[w.Parts[part].Mode].Contact
                ? [(w.P * right, With(w.Parts, part, w.Parts[part] with { Mode = -1 })), (w.P * (1 - right), w.Parts)]
                : new[] { w })];
        }

        return worlds;
    }

    private static Part[] With(Part[] parts, int at, Part part) => [.. parts.Select((x, i) => i == at ? part : x)];
}
