using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Life;

/// <summary>The last day that the car drove, where nobody knows since when it has not run well: what immobilises a car was not there then.</summary>
/// <param name="Kept">Per component: how likely each mode would have let it drive.</param>
internal sealed record Drove(DateOnly Day, Func<Component, double[]> Kept);

/// <summary>How likely a car drives although a mode, alone on it, is there: P(no event that immobilises it shows), the events taken as
/// independent and their backgrounds left out (MODEL.md 2). Worked out once per fault model, when first asked for.</summary>
internal sealed class DrivesWith(FaultModel model)
{
    private readonly Lazy<Dictionary<string, double[]>> _kept = new(() => Compute(model));

    public double[] Of(Component component) => _kept.Value[component.Id];

    private static Dictionary<string, double[]> Compute(FaultModel model)
    {
        var map = new ModelMap(model);
        string[] events = [.. model.Cells.Where(s => s.Immobilises).Select(s => s.Id)];
        ModeTrace sound = ModeTrace.Of(map, null);
        return model.Components.ToDictionary(c => c.Id, c => c.Modes.Select(m =>
        {
            ModeTrace trace = ModeTrace.Of(map, $"{c.Id}.{m.Id}");
            return events.Aggregate(1.0, (kept, e) => kept * Ratio(1 - trace.Cells[e], 1 - sound.Cells[e]));
        }).ToArray());
    }

    private static double Ratio(double absent, double background) => background > 0 ? Math.Min(1, absent / background) : 1;
}
