using System.Globalization;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>Work laid among the findings of an investigation: what lies before all of them, and what divides them into stretches. A repair
/// opens a stretch only if a finding lies before it; repairs with no finding between them open one together (MODEL.md 7).</summary>
internal sealed class Timeline
{
    private readonly Dictionary<string, int> _stretchOf;

    private Timeline(List<WorkFact> history, List<(HashSet<string> Before, List<WorkFact> Work)> repairs, IEnumerable<Observation> findings, IReadOnlyList<string> asks)
    {
        (History, Asks) = (history, asks);
        Repairs = [.. repairs.Select(r => r.Work.ToArray())];
        _stretchOf = findings.ToDictionary(f => f.Id, f => repairs.Count(r => !r.Before.Contains(f.Id)));
    }

    public IReadOnlyList<WorkFact> History { get; }

    public List<WorkFact[]> Repairs { get; }

    /// <summary>Questions about work whose date reaches across a finding.</summary>
    public IReadOnlyList<string> Asks { get; }

    public int StretchOf(Observation finding) => _stretchOf[finding.Id];

    public static Timeline Of(ModelIndex index, AssessmentInput input, Observation[] findings, IReadOnlyList<WorkFact> work)
    {
        DateOnly since = input.Complaint.Since;
        var history = new List<WorkFact>();
        var repairs = new List<(HashSet<string> Before, List<WorkFact> Work)>();
        var asks = new List<string>();
        HashSet<string> before = [];
        foreach (WorkFact entry in work.OrderBy(w => w.Day).ThenBy(w => Moments.Second(w.At ?? w.RecordedAt)).ThenBy(w => w.RecordedAt))
        {
            bool changes = ChangesParts(index, entry);
            if (changes && ReachesAcross(entry, findings, since))
            {
                asks.Add(Ask(index, entry));
            }

            // what a repair before this one follows, this one follows too
            string[] own = entry.Day < since ? [] : [.. findings.Where(f => Precedes(f, entry)).Select(f => f.Id)];
            if (own.Length == 0 && before.Count == 0)
            {
                history.Add(entry);
            }
            else if (changes)
            {
                HashSet<string> all = [.. before, .. own];
                if (repairs.Count == 0 || all.Count > before.Count)
                {
                    repairs.Add((all, []));
                }

                repairs[^1].Work.Add(entry);
                before = all;
            }
        }

        return new Timeline(history, repairs, findings, asks);
    }

    private static bool ChangesParts(ModelIndex index, WorkFact work) =>
        work.Action != WorkAction.Inspected && work.Components.Any(c => index.HasPart(c) && !index.Parts[index.Part(c)].Source.Instrument);

    /// <summary>Within a day the instants decide where the work has one, else the order of recording; so it does within one second.</summary>
    private static bool Precedes(Observation finding, WorkFact work)
    {
        bool recorded = finding.RecordedAt <= work.RecordedAt;
        if (work.At is not DateTimeOffset at)
        {
            return finding.Day < work.Day || (finding.Day == work.Day && recorded);
        }

        DateTimeOffset found = Moments.Second(finding.At), done = Moments.Second(at);
        return found < done || (found == done && recorded);
    }

    /// <summary>By one of its possible days a finding lies before it, by another after it.</summary>
    private static bool ReachesAcross(WorkFact work, Observation[] findings, DateOnly since) =>
        work.At is null && work.Within is DaySpan span && span.To >= since && findings.Any(f => f.Day > span.From && f.Day < span.To);

    private static string Ask(ModelIndex index, WorkFact work)
    {
        string parts = string.Join(", ", work.Components.Where(index.HasPart).Select(c => index.Parts[index.Part(c)].Source.Title));
        string action = work.Action == WorkAction.Unknown ? "worked on" : work.Action.ToString().ToLowerInvariant();
        DaySpan span = work.Within!.Value;
        return string.Create(CultureInfo.InvariantCulture, $"{parts} {action} between {span.From:yyyy-MM-dd} and {span.To:yyyy-MM-dd}: ")
            + string.Create(CultureInfo.InvariantCulture, $"before or after what was found meanwhile? It counts as done on {work.Day:yyyy-MM-dd}; give the day.");
    }
}
