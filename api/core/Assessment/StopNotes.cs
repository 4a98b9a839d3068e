using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>Which stop notes of the fault model stand on a day: brought up by a finding, and by nothing later ended. A pure function
/// over findings and work (MODEL.md 8).</summary>
public static class StopNotes
{
    public static IReadOnlyList<StopNoteStanding> Standing(FaultModel model, AssessmentInput input)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(input);
        Observation[] findings = [.. Open(input).OrderBy(f => f.At).ThenBy(f => f.RecordedAt)];
        return [.. model.StopNotes.Select(n => (Note: n, Last: Array.FindLast(findings, f => n.When.Any(s => Begins(s, f)))))
            .Where(n => n.Last is not null && !Ended(n.Note, n.Last, findings, input))
            .Select(n => new StopNoteStanding(n.Note, n.Last!.Id))];
    }

    /// <summary>Tags that standing notes forbid.</summary>
    public static IReadOnlySet<string> Forbidden(IEnumerable<StopNoteStanding> standing) => standing.SelectMany(s => s.Note.Forbids).ToHashSet();

    /// <summary>Danger does not mind under which complaint it was found: all of the car's count but those of complaints that are closed.</summary>
    private static IEnumerable<Observation> Open(AssessmentInput input)
    {
        HashSet<string> closed = [.. input.Car.Closed.Select(c => c.Complaint.Id).Where(id => id != input.Complaint.Id)];
        return input.Car.Findings.Where(f => f.Day <= input.AsOf
            && (f.ComplaintId is null ? f.Day >= input.Complaint.Since : !closed.Contains(f.ComplaintId)));
    }

    /// <summary>A doubtful sign begins it all the same; a doubtful all-clear does not end it.</summary>
    private static bool Begins(StopSign sign, Observation finding) => Shows(sign, finding, "present", "bad");

    private static bool Ends(StopSign sign, Observation finding) => finding.Sure && Shows(sign, finding, "absent", "good");

    private static bool Shows(StopSign sign, Observation finding, string answer, string look)
    {
        if (sign.Event is not null)
        {
            return finding.Symptom == sign.Event && finding.Outcome == answer;
        }

        return sign.Check is not null ? finding.Check == sign.Check && sign.Outcomes.Contains(finding.Outcome ?? "")
            : sign.Part is not null && finding.Component is not null && finding.Outcome == look && Names(sign.Part, finding, look);
    }

    /// <summary>A part seen bad in a way that was not named may be bad in any; a part seen good is so in all.</summary>
    private static bool Names(string part, Observation finding, string look) =>
        part == finding.Component
        || part == $"{finding.Component}.{finding.Mode}"
        || ((look == "good" || finding.Mode is null) && part.StartsWith($"{finding.Component}.", StringComparison.Ordinal));

    private static bool Ended(StopNote note, Observation last, Observation[] findings, AssessmentInput input)
    {
        // what brought it up, answered the other way, ends it too
        StopSign[] ends = last.Symptom is null ? [.. note.EndedBy] : [.. note.EndedBy, new StopSign { Event = last.Symptom }];
        return findings.SkipWhile(f => f != last).Skip(1).Any(f => ends.Any(s => Ends(s, f)))
            || input.Car.Work.Any(w => w.Day <= input.AsOf && w.Action != WorkAction.Inspected && After(w, last) && ends.Any(s => s.Work is not null && w.Components.Contains(s.Work)));
    }

    /// <summary>Within a day the instants decide where the work has one, else the order of recording.</summary>
    private static bool After(WorkFact work, Observation finding) => work.At is DateTimeOffset at
        ? at > finding.At || (at == finding.At && work.RecordedAt > finding.RecordedAt)
        : work.Day > finding.Day || (work.Day == finding.Day && work.RecordedAt >= finding.RecordedAt);
}
