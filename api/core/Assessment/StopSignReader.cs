using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>Holds findings against the signs of stop notes. A doubtful sign begins a note all the same; a doubtful all-clear does not end it.</summary>
internal sealed class StopSignReader(ModelIndex index)
{
    public bool Begins(StopNote note, Observation finding) => note.When.Any(s => Shows(s, finding, begins: true));

    public bool Ends(StopNote note, Observation finding) => finding.Sure && note.EndedBy.Any(s => Shows(s, finding, begins: false));

    /// <summary>What brought it up, found the other way later: each sign is ended by itself, so that one dry hose does not clear another, and an
    /// event told for some cells is ended where it is absent in all of these.</summary>
    public bool Answers(StopNote note, Observation first, Observation later)
    {
        if (!later.Sure || Begins(note, later) || (later.Check, later.Component) != (first.Check, first.Component))
        {
            return false;
        }

        return first.Event is null
            ? later.Event is null && later.Trial is null && later.Own is null
            : later.Outcome == "absent" && Told(first) is var (source, cells) && Told(later) is var (again, clear) && again == source && (cells & ~clear) == 0;
    }

    private bool Shows(StopSign sign, Observation finding, bool begins)
    {
        if (sign.Event is not null)
        {
            return Meets(sign.Event, finding, begins);
        }

        return sign.Check is not null ? finding.Check == sign.Check && sign.Outcomes.Contains(finding.Outcome ?? "")
            : sign.Part is not null && finding is { Component: not null, Trial: null, Own: null } && Looked(sign.Part, finding, begins);
    }

    /// <summary>The event is there where any of the sign's cells may be; it is absent where all of them are.</summary>
    private bool Meets(string id, Observation finding, bool begins)
    {
        if ((finding.Outcome == "absent") == begins || Told(finding) is not var (source, cells) || index.Told(id, [], []) is not var (sign, meant) || source != sign)
        {
            return false;
        }

        return begins ? (cells & meant) != 0 : (meant & ~cells) == 0;
    }

    private (EventIndex, ulong)? Told(Observation finding) => finding.Event is string id ? index.Told(id, finding.When, finding.Then) : null;

    /// <summary>A part seen bad in a way that was not named may be bad in any; a part seen good is so in all.</summary>
    private static bool Looked(string part, Observation finding, bool bad) =>
        finding.Outcome == (bad ? "bad" : "good")
        && (part == finding.Component || part == $"{finding.Component}.{finding.Mode}"
            || ((!bad || finding.Mode is null) && part.StartsWith($"{finding.Component}.", StringComparison.Ordinal)));
}
