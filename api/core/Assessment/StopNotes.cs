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
        return [.. model.StopNotes
            .Select(n => (Note: n, Last: Array.FindLast(findings, f => n.When.Any(s => Shows(s, f, begins: true)) && !Ended(n, f, findings, input))))
            .Where(n => n.Last is not null)
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

    /// <summary>A doubtful sign begins a note all the same; a doubtful all-clear does not end it.</summary>
    private static bool Shows(StopSign sign, Observation finding, bool begins)
    {
        if (!begins && !finding.Sure)
        {
            return false;
        }

        if (sign.Event is not null)
        {
            return finding.Symptom == sign.Event && finding.Outcome == (begins ? "present" : "absent");
        }

        return sign.Check is not null ? finding.Check == sign.Check && sign.Outcomes.Contains(finding.Outcome ?? "")
            : sign.Part is not null && finding.Component is not null && Looked(sign.Part, finding, begins);
    }

    /// <summary>A part seen bad in a way that was not named may be bad in any; a part seen good is so in all.</summary>
    private static bool Looked(string part, Observation finding, bool bad) =>
        finding.Outcome == (bad ? "bad" : "good")
        && (part == finding.Component || part == $"{finding.Component}.{finding.Mode}"
            || ((!bad || finding.Mode is null) && part.StartsWith($"{finding.Component}.", StringComparison.Ordinal)));

    private static bool Ended(StopNote note, Observation first, Observation[] findings, AssessmentInput input) =>
        findings.SkipWhile(f => f != first).Skip(1).Any(f => note.EndedBy.Any(s => Shows(s, f, begins: false)) || Answers(note, first, f))
        || input.Car.Work.Any(w => w.Day <= input.AsOf && w.Action != WorkAction.Inspected && After(w, first)
            && (note.EndedBy.Any(s => s.Work is not null && w.Components.Contains(s.Work)) || (first.Component is not null && w.Components.Contains(first.Component))));

    /// <summary>What brought it up, found the other way later: each sign is ended by itself, so that one dry hose does not clear another.</summary>
    private static bool Answers(StopNote note, Observation first, Observation later) =>
        later.Sure && (later.Symptom, later.Check, later.Component) == (first.Symptom, first.Check, first.Component)
        && !note.When.Any(s => Shows(s, later, begins: true));

    /// <summary>Within a day the instants decide where the work has one, else the order of recording.</summary>
    private static bool After(WorkFact work, Observation finding) => work.At is DateTimeOffset at
        ? at > finding.At || (at == finding.At && work.RecordedAt > finding.RecordedAt)
        : work.Day > finding.Day || (work.Day == finding.Day && work.RecordedAt >= finding.RecordedAt);
}
