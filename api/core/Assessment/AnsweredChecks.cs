using FuelHistory.Core.FaultModels;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>Checks that a finding of this round answers already (MODEL.md 8): nobody is sent to ask again what is known.</summary>
internal static class AnsweredChecks
{
    /// <summary>Less than this share of the lower limit is nothing at all.</summary>
    private const double Nothing = 0.05;

    /// <summary>A pressure that stands this near where a leak-down starts is the one it starts from.</summary>
    private const double Near = 0.15;

    /// <summary>A run of this share of the limit's time has shown where it goes.</summary>
    private const double LongEnough = 0.3;

    public static HashSet<string> Of(ModelIndex index, EvidenceList list, Investigation investigation)
    {
        Observation[] round = [.. investigation.ThisRound];
        CheckIndex[] runs = [.. index.Checks.Where(c => c.Section is not null)];
        return
        [
            .. index.Checks.Where(c => c.Source.AnsweredBy.Any(e => Told(index, round, e))).Select(c => c.Source.Id),
            .. Last(index, round).SelectMany(f => Answers(list, f.Check, f.Finding, runs)),
        ];
    }

    /// <summary>What was told last of the event is that it is there.</summary>
    private static bool Told(ModelIndex index, Observation[] round, string name) =>
        Array.FindLast(round, f => f.Event is string id && index.Told(id, f.When, f.Then) is (EventIndex told, _) && told.Id == name)
            is { Outcome: not "absent", Sure: true };

    private static IEnumerable<(CheckIndex Check, Observation Finding)> Last(ModelIndex index, Observation[] round) =>
        round.Where(f => f.Check is not null && f.Sure).GroupBy(f => f.Check!).Select(g => (index.Check(g.Key), g.Last()));

    private static IEnumerable<string> Answers(EvidenceList list, CheckIndex check, Observation finding, CheckIndex[] runs)
    {
        // no pressure, nothing to watch it fall from
        if (check.Condition >= 0 && finding.Value is double value && list.BandsOf(check, finding.Covariates) is BandEdges bands
            && bands.Edges[bands.Zero] > 0 && value <= Nothing * bands.Edges[bands.Zero])
        {
            return runs.Where(r => r.Source.Setup == check.Source.Setup && r.Source.Quantity == check.Source.Quantity
                && list.LimitOf(r) is LeakLimit limit && StartsFrom(bands, limit)).Select(r => r.Source.Id);
        }

        // what loses nothing as a whole loses nothing in its sections
        return check.Section is LeakSection whole && list.LimitOf(check) is LeakLimit own && Held(finding, own)
            ? runs.Where(r => r != check && r.Section!.Watches.All(whole.Watches.Contains) && (r.Section.Store < 0 || r.Section.Store == whole.Store))
                .Select(r => r.Source.Id)
            : [];
    }

    private static bool StartsFrom(BandEdges bands, LeakLimit limit)
    {
        double start = limit.Running ?? limit.From;
        return start >= (1 - Near) * bands.Edges[bands.Zero] && start <= (1 + Near) * bands.Edges[bands.Zero + 1];
    }

    /// <summary>Watched long enough, and above the slowest fall that the limit allows.</summary>
    private static bool Held(Observation finding, LeakLimit limit) => finding.Points.Count > 0
        ? finding.Points.MaxBy(p => p.Minutes)! is LeakPoint last && last.Minutes >= LongEnough * limit.Minutes
            && last.Bar >= limit.From * Math.Exp(-last.Minutes / limit.ShortestTau)
        : finding.Outcome == LeakOutcomes.Names[0];
}
