using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>Which stop notes of the fault model stand on a day: brought up by a finding, and by nothing later ended. A pure function
/// over findings and work (MODEL.md 10).</summary>
public static class StopNotes
{
    public static IReadOnlyList<StopNoteStanding> Standing(CompiledModel model, AssessmentInput input)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(input);
        return Standing(model.Index, input);
    }

    internal static IReadOnlyList<StopNoteStanding> Standing(ModelIndex index, AssessmentInput input)
    {
        if (index.Model.StopNotes.Count == 0)
        {
            return [];
        }

        var signs = new StopSignReader(index);
        Observation[] findings = [.. Open(input).OrderBy(f => Moments.Second(f.At)).ThenBy(f => f.RecordedAt)];
        return [.. index.Model.StopNotes
            .Select(n => (Note: n, Last: Array.FindLast(findings, f => signs.Begins(n, f) && !Ended(signs, n, f, findings, input))))
            .Where(n => n.Last is not null)
            .Select(n => new StopNoteStanding(n.Note, n.Last!.Id))];
    }

    /// <summary>Danger does not mind under which complaint it was found: all of the car's count but those of complaints that are closed.
    /// What an inspection found counts as well.</summary>
    private static IEnumerable<Observation> Open(AssessmentInput input)
    {
        HashSet<string> closed = [.. input.Car.Closed.Select(c => c.Complaint.Id).Where(id => id != input.Complaint.Id)];
        return input.Car.Findings.Where(f => f.Day <= input.AsOf
                && (f.ComplaintId is null ? f.Day >= input.Complaint.Since : !closed.Contains(f.ComplaintId)))
            .Concat(input.Car.Work.Where(w => Investigation.IsFinding(w, input.Complaint) && w.Day <= input.AsOf).Select(w => Investigation.AsFinding(w, input.Complaint)));
    }

    private static bool Ended(StopSignReader signs, StopNote note, Observation first, Observation[] findings, AssessmentInput input) =>
        findings.SkipWhile(f => f != first).Skip(1).Any(f => signs.Ends(note, f) || signs.Answers(note, first, f))
        || input.Car.Work.Any(w => w.Day <= input.AsOf && w.Action is not (WorkAction.Inspected or WorkAction.Unknown) && After(w, first)
            && (note.EndedBy.Any(s => s.Work is not null && w.Components.Contains(s.Work)) || (first.Component is not null && w.Components.Contains(first.Component))));

    /// <summary>Within a day the instants decide where the work has one, else the order of recording. Where the day is half known the work
    /// may have been before: that does not end it.</summary>
    private static bool After(WorkFact work, Observation finding) => work.At is DateTimeOffset at
        ? Moments.Second(at) > Moments.Second(finding.At) || (Moments.Second(at) == Moments.Second(finding.At) && work.RecordedAt > finding.RecordedAt)
        : First(work) > finding.Day || (First(work) == finding.Day && work.RecordedAt >= finding.RecordedAt);

    private static DateOnly First(WorkFact work) => work.Within?.From ?? work.Day;
}
