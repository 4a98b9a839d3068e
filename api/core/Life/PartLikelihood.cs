using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Life;

/// <summary>What a past finding says about one part: only findings that name the part itself (MODEL.md 2, "tested good, seen good").</summary>
internal static class PartLikelihood
{
    /// <summary>P(finding | ok), then per mode; null where it is no yes/no check that names a mode of the component.</summary>
    public static double[]? OfCheck(FaultModel model, Observation finding, Component component)
    {
        Check? check = finding.Check is null ? null : model.Checks.FirstOrDefault(c => c.Id == finding.Check);
        return check?.Kind == CheckKind.YesNo && finding.Outcome is "yes" or "no" ? YesNo(check, finding, component) : null;
    }

    /// <summary>What a finding of a part says of it.</summary>
    public static LookResult LookOf(Observation finding) => new(finding.Outcome == "bad", finding.Mode, finding.How, finding.Sure);

    /// <summary>Likelihood per state of a part that was looked at or tested (MODEL.md 1).</summary>
    /// <param name="prior">P(ok), P(mode) before the look: who opens a part and sees it broken is believed, however rare the defect is.
    /// Empty: not known.</param>
    public static double[] Seen(Component component, LookResult look, ReadOnlySpan<double> prior) =>
        look.Bad ? Bad(component, look, prior) : Good(component, look);

    private static double[] Bad(Component component, LookResult look, ReadOnlySpan<double> prior)
    {
        (double there, double elsewhere) = (look.How, look.Sure) switch
        {
            (Look.Seen, true) => (0.98, Math.Min(0.002, Share(component, look.Mode, prior) / 20)),
            (_, true) or (Look.Seen, false) => (0.9, 0.05),
            _ => (0.6, 0.15),
        };
        return [elsewhere, .. component.Modes.Select(m => look.Mode is null || m.Id == look.Mode ? there : 0.2)];
    }

    private static double[] Good(Component component, LookResult look)
    {
        double unseen = look.How == Look.Tested ? 0.25 : 1, seen = look.How == Look.Tested ? 0.25 : 0.05;
        return [1, .. component.Modes.Select(m => Halfway(m.Visible ? seen : unseen, look.Sure))];
    }

    /// <summary>Of one who is not sure half of it is taken.</summary>
    private static double Halfway(double p, bool sure) => sure ? p : (1 + p) / 2;

    /// <summary>How likely the defect was before it was seen; never so little that the sound part were ruled out.</summary>
    private static double Share(Component component, string? mode, ReadOnlySpan<double> prior)
    {
        double sum = 0;
        for (int m = 0; m + 1 < prior.Length; m++)
        {
            sum += mode is null || component.Modes[m].Id == mode ? prior[m + 1] : 0;
        }

        return prior.IsEmpty ? 1 : Math.Max(sum, 1e-9);
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
