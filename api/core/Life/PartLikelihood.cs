using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Life;

/// <summary>What a past finding says about one part: only findings that name the part itself (MODEL.md 2, "tested good, seen good").</summary>
internal static class PartLikelihood
{
    /// <summary>P(defect seen | it is there) and P(defect seen | it is not) when a part is opened (MODEL.md 1).</summary>
    public const double SeenIfThere = 0.95, SeenIfNot = 0.02;

    /// <summary>P(finding | ok), then per mode; null where the finding does not name the component.</summary>
    public static double[]? Of(FaultModel model, Observation finding, Component component)
    {
        if (finding.Component is not null)
        {
            return finding.Component == component.Id ? Seen(component, finding.Mode, finding.Outcome == "bad") : null;
        }

        Check? check = finding.Check is null ? null : model.Checks.FirstOrDefault(c => c.Id == finding.Check);
        return check?.Kind == CheckKind.YesNo && finding.Outcome is "yes" or "no" ? YesNo(check, finding, component) : null;
    }

    /// <summary>Likelihood per state of a part that was opened and looked at.</summary>
    public static double[] Seen(Component component, string? mode, bool bad)
    {
        double[] defect = [SeenIfNot, .. component.Modes.Select(m => mode is null || m.Id == mode ? SeenIfThere : SeenIfNot)];
        return bad ? defect : [.. defect.Select(p => 1 - p)];
    }

    private static double[]? YesNo(Check? check, Observation finding, Component component)
    {
        if (check?.Detects is null || !check.Detects.Any(d => d.P is not null && d.Of.StartsWith(component.Id + ".", StringComparison.Ordinal)))
        {
            return null;
        }

        double[] no = [1 - check.FalseAlarm, .. component.Modes.Select(m =>
            (1 - check.FalseAlarm) * (1 - (check.Detects.FirstOrDefault(d => d.Of == $"{component.Id}.{m.Id}")?.P ?? 0)))];
        return [.. no.Select(p => Soften(finding.Outcome == "no" ? p : 1 - p, finding.Sure))];
    }

    private static double Soften(double p, bool sure) => sure ? p : (p / 2) + 0.25;
}
