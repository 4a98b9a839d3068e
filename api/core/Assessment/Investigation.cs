using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>The findings of one complaint laid into stretches: the time between two repairs (MODEL.md 7).</summary>
internal sealed class Investigation
{
    /// <summary>How long before the complaint's start the car is taken to have run well.</summary>
    private const int RanWellDaysBefore = 30;

    /// <summary>The same where it was there before the present owner (judgement): people live with a fault for a year or so; whatever
    /// else came up meanwhile they would have told.</summary>
    private const int RanWellYearsBefore = 1;

    private readonly ModelIndex _index;
    private readonly int[] _stretchOf;

    private Investigation(ModelIndex index, AssessmentInput input, Timeline timeline, Observation[] findings, int[] stretchOf)
    {
        (_index, Input, Findings, History, Repairs, Asks, _stretchOf) = (index, input, findings, timeline.History, timeline.Repairs, timeline.Asks, stretchOf);
        FirstDay = findings.Length == 0 ? input.AsOf : findings.Min(f => f.Day);
    }

    public AssessmentInput Input { get; }

    /// <summary>By stretch, in each in the order in which they were made.</summary>
    public Observation[] Findings { get; }

    /// <summary>Work that lies before every finding: part of the prior.</summary>
    public IReadOnlyList<WorkFact> History { get; }

    /// <summary>Work between stretches; entry k opens stretch k + 1.</summary>
    public List<WorkFact[]> Repairs { get; }

    /// <summary>Questions about work whose date reaches across a finding.</summary>
    public IReadOnlyList<string> Asks { get; }

    public int Stretches => Repairs.Count + 1;

    /// <summary>The day for which the beliefs are taken at the beginning: that of the first finding.</summary>
    public DateOnly FirstDay { get; }

    public int StretchOf(int finding) => _stretchOf[finding];

    /// <summary>Findings since the last repair, in their order.</summary>
    public IEnumerable<Observation> ThisRound => Findings.Where((_, i) => StretchOf(i) == Stretches - 1);

    public static Investigation From(ModelIndex index, AssessmentInput input)
    {
        ComplaintFact complaint = input.Complaint;
        Observation[] findings = [.. input.Car.Findings
            .Where(f => f.Day <= input.AsOf && (f.ComplaintId == complaint.Id || (f.ComplaintId is null && f.Day >= complaint.Since)))
            .Concat(input.Car.Work.Where(w => IsFinding(w, complaint) && w.Day <= input.AsOf).Select(w => AsFinding(w, complaint)))
            .OrderBy(f => Moments.Second(f.At)).ThenBy(f => f.RecordedAt).Select(f => FormerChecks.Read(index.Model, f))];
        Timeline timeline = Timeline.Of(index, input, findings, [.. input.Car.Work.Where(w => w.Day <= input.AsOf && !IsFinding(w, complaint))]);
        Observation[] ordered = [.. findings.OrderBy(timeline.StretchOf)];
        return new Investigation(index, input, timeline, ordered, [.. ordered.Select(timeline.StretchOf)]);
    }

    /// <summary>The last day on which the car is taken to have run well.</summary>
    public DateOnly? RanWell() => BeforeStanding(Input.Complaint.Always
        ? Input.Complaint.Since.AddYears(-RanWellYearsBefore)
        : Input.Complaint.Since.AddDays(-RanWellDaysBefore));

    /// <summary>The last day that the car drove, where nobody knows since when it has not run well: that of the first finding, or the last one
    /// before the complaint where the complaint itself is that it does not drive.</summary>
    public DateOnly? Drove()
    {
        if (!Input.Complaint.Always)
        {
            return null;
        }

        bool stopped = Findings.Any(f => f.Event is string id && f.Outcome != "absent" && _index.Told(id, f.When, f.Then) is (EventIndex told, ulong cells)
            && EventIndex.Each(cells).All(c => told.Cells[c].Immobilises));
        return BeforeStanding(stopped ? Input.Complaint.Since.AddDays(-1) : FirstDay);
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

    /// <summary>The day, or the first of the lay-up that covers it.</summary>
    private DateOnly BeforeStanding(DateOnly day) =>
        Input.Car.LayUps.FirstOrDefault(l => l.From <= day && (l.To ?? DateOnly.MaxValue) >= day)?.From ?? day;

    /// <summary>What an inspection found while the complaint was there counts like a finding of the part, in its place among the others.</summary>
    internal static bool IsFinding(WorkFact work, ComplaintFact complaint) => work.Found is not null && work.Day >= complaint.Since;

    internal static Observation AsFinding(WorkFact work, ComplaintFact complaint) => new()
    {
        Id = work.Id,
        ComplaintId = complaint.Id,
        At = work.At ?? Moments.On(work.Day, work.RecordedAt),
        Day = work.Day,
        RecordedAt = work.RecordedAt,
        Session = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{work.Day:yyyy-MM-dd}"),
        Component = work.Components[0],
        Mode = work.Found!.Mode,
        How = work.Found.How,
        Sure = work.Found.Sure,
        Outcome = work.Found.Bad ? "bad" : "good",
    };
}
