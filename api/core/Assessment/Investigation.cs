using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>The findings of one complaint laid into stretches: the time between two repairs (MODEL.md 7).</summary>
internal sealed class Investigation
{
    /// <summary>How long before the complaint's start the car is taken to have run well.</summary>
    private const int RanWellDaysBefore = 30;

    private Investigation(AssessmentInput input, Observation[] findings, WorkFact[] history, List<WorkFact[]> repairs, int[] stretchOf)
    {
        (Input, Findings, History, Repairs, _stretchOf) = (input, findings, history, repairs, stretchOf);
        FirstDay = findings.Length == 0 ? input.AsOf : findings.Min(f => f.Day);
    }

    private readonly int[] _stretchOf;

    public AssessmentInput Input { get; }

    /// <summary>In the order in which they were made.</summary>
    public Observation[] Findings { get; }

    /// <summary>Work that lies before every finding: part of the prior.</summary>
    public WorkFact[] History { get; }

    /// <summary>Work between stretches; entry k opens stretch k + 1.</summary>
    public List<WorkFact[]> Repairs { get; }

    public int Stretches => Repairs.Count + 1;

    /// <summary>The day for which the beliefs are taken at the beginning: that of the first finding.</summary>
    public DateOnly FirstDay { get; }

    public int StretchOf(int finding) => _stretchOf[finding];

    public static Investigation From(ModelIndex index, AssessmentInput input)
    {
        ComplaintFact complaint = input.Complaint;
        Observation[] findings = [.. input.Car.Findings
            .Where(f => f.Day <= input.AsOf && (f.ComplaintId == complaint.Id || (f.ComplaintId is null && f.Day >= complaint.Since)))
            .OrderBy(f => f.At).ThenBy(f => f.RecordedAt).Select(f => FormerChecks.Read(index.Model, f))];
        WorkFact[] done = [.. input.Car.Work.Where(w => w.Day <= input.AsOf).OrderBy(w => w.Day).ThenBy(w => w.At ?? w.RecordedAt).ThenBy(w => w.RecordedAt)];

        // a repair opens a stretch only if a finding lies before it; repairs with no finding between them open one together
        var history = new List<WorkFact>();
        var repairs = new SortedDictionary<int, List<WorkFact>>();
        foreach (WorkFact work in done)
        {
            int before = work.Day < complaint.Since ? 0 : findings.Count(f => Before(f, work));
            if (before == 0)
            {
                history.Add(work);
            }
            else if (ChangesParts(index, work))
            {
                (repairs.TryGetValue(before, out List<WorkFact>? list) ? list : repairs[before] = []).Add(work);
            }
        }

        int[] bounds = [.. repairs.Keys];
        int[] stretch = [.. findings.Select((_, i) => bounds.Count(b => b <= i))];
        return new Investigation(input, findings, [.. history], [.. repairs.Values.Select(r => r.ToArray())], stretch);
    }

    /// <summary>The last day on which the car ran well; null where the complaint is as old as the ownership.</summary>
    public DateOnly? RanWell()
    {
        if (Input.Complaint.Always)
        {
            return null;
        }

        DateOnly day = Input.Complaint.Since.AddDays(-RanWellDaysBefore);
        LayUpSpan? standing = Input.Car.LayUps.FirstOrDefault(l => l.From <= day && (l.To ?? DateOnly.MaxValue) >= day);
        return standing?.From ?? day;
    }

    /// <summary>The record as it stood before the investigation: what the life prior is computed from.</summary>
    public CarRecord Past()
    {
        DateOnly since = Input.Complaint.Since;
        string[] own = [.. Findings.Select(f => f.Id)];
        return Input.Car with
        {
            Work = History,
            Incidents = [.. Input.Car.Incidents.Where(i => i.Day <= FirstDay)],
            Findings = [.. Input.Car.Findings.Where(f => f.Day < since && !own.Contains(f.Id) && !Input.Car.Carried.Any(c => c.ComplaintId == f.ComplaintId))],
        };
    }

    private static bool ChangesParts(ModelIndex index, WorkFact work) =>
        work.Action != WorkAction.Inspected && work.Components.Any(c => index.HasPart(c) && !index.Parts[index.Part(c)].Source.Instrument);

    /// <summary>Within a day the instants decide where the work has one, else the order of recording.</summary>
    private static bool Before(Observation finding, WorkFact work) => work.At is DateTimeOffset at
        ? finding.At <= at
        : finding.Day < work.Day || (finding.Day == work.Day && finding.RecordedAt <= work.RecordedAt);
}
