namespace FuelHistory.Core.Assessment;

/// <summary>What one finding says of some cells of an event: one of them at least (present), or none (absent).</summary>
internal sealed record EventReport(string Id, int World, ulong Cells, bool Present, bool Sure, SessionFact Session);

/// <summary>All reports on one event that count (MODEL.md 4), oldest first.</summary>
internal sealed record EventEvidence : Evidence
{
    public EventEvidence(EventIndex source, IEnumerable<EventReport> reports, ulong? open = null)
        : base([.. reports.Select(r => r.Id).Distinct()])
    {
        Source = source;
        Reports = Counting(reports);
        Open = open ?? OpenCells.After(reports);
    }

    public EventIndex Source { get; }

    public IReadOnlyList<EventReport> Reports { get; }

    /// <summary>Cells reported as present and not since as ended: what a repair must end.</summary>
    public ulong Open { get; }

    /// <summary>The last report that is part of <see cref="Open"/>; null: none.</summary>
    public EventReport? LastPresent => Open == 0 ? null : Reports.LastOrDefault(r => r.Present && (r.Cells & Open) != 0);

    /// <summary>Present in some of the open cells for certain, in the world of the last report.</summary>
    public bool SurelyPresent => LastPresent is EventReport last
        && Reports.Any(r => r.Present && r.Sure && r.World == last.World && (r.Cells & ~Open) == 0);

    /// <summary>The same by the reports of one stretch alone.</summary>
    public EventEvidence In(int world) => new(Source, Reports.Where(r => r.World == world), Open);

    /// <summary>Within a stretch a later report replaces an earlier one of the same cells, and what it denies of an earlier one.</summary>
    private static List<EventReport> Counting(IEnumerable<EventReport> reports)
    {
        var counting = new List<EventReport>();
        foreach (EventReport report in reports)
        {
            int same = counting.FindIndex(r => r.World == report.World && r.Cells == report.Cells && r.Id != report.Id);
            if (same >= 0)
            {
                counting.RemoveAt(same);
            }

            if (report.Present)
            {
                Admit(counting, report);
            }
            else
            {
                counting.RemoveAll(r => r.World == report.World && r.Present && r.Id != report.Id && (r.Cells & ~report.Cells) == 0);
            }

            counting.Add(report);
        }

        return counting;
    }

    /// <summary>An earlier "absent" that covers all that is present now no longer covers it.</summary>
    private static void Admit(List<EventReport> counting, EventReport present)
    {
        for (int i = counting.Count - 1; i >= 0; i--)
        {
            EventReport earlier = counting[i];
            if (earlier.World == present.World && !earlier.Present && earlier.Id != present.Id && (present.Cells & ~earlier.Cells) == 0)
            {
                counting[i] = earlier with { Cells = earlier.Cells & ~present.Cells };
                if (counting[i].Cells == 0)
                {
                    counting.RemoveAt(i);
                }
            }
        }
    }

    public override Evidence? AfterFirst()
    {
        var later = Reports.Where(r => r.World > 0).Select(r => r with { World = r.World - 1 }).ToList();
        return later.Count > 0 || Open != 0 ? new EventEvidence(Source, later, Open) : null;
    }

    public override IEnumerable<(int, int)> Asked(ModelIndex index) => Reports.SelectMany(r => Conditions(index, Source, r.Cells, r.World));

    /// <summary>The last report only: it is the one that counts now.</summary>
    public override IEnumerable<Otherwise> Otherwise()
    {
        if (Reports.Count > 0 && Reports.Count(r => r.Id == Reports[^1].Id) == 1)
        {
            EventReport last = Reports[^1];
            yield return new Otherwise(last.Id, last.Present ? 0 : 1, new EventEvidence(Source, [.. Reports.SkipLast(1), last with { Present = !last.Present }]));
        }
    }

    public override void Enter(EvidenceCircuit circuit, Omitted? without)
    {
        Answer[] answers = [
            .. Reports.Select(r => Answer.Of(r.World, r.Cells, r.Present, r.Sure, circuit.Acting(r.Session), !Omitted.Has(without, r.Id))),
            .. circuit.Asked(Source.Index)];
        NoisyOr.Enter(circuit.Circuit, Source, circuit.Hidden(Source.Index), Implied.Without(answers));
    }
}

/// <summary>Answers that say nothing beside others: they would only make tables larger.</summary>
internal static class Implied
{
    /// <summary>"Present in one of many" follows from "present in one of few"; two "absent" of one world are one.</summary>
    public static Answer[] Without(Answer[] answers)
    {
        var kept = new List<Answer>();
        foreach (Answer answer in answers)
        {
            int joined = kept.FindIndex(k => k.World == answer.World && k.Acting == answer.Acting && k.Closed && answer.Closed);
            if (joined >= 0)
            {
                kept[joined] = kept[joined] with { Cells = kept[joined].Cells | answer.Cells };
            }
            else
            {
                kept.Add(answer);
            }
        }

        return [.. kept.Where((a, i) => !kept.Where((o, j) => j != i && Follows(a, o, j < i)).Any())];
    }

    private static bool Follows(Answer wide, Answer narrow, bool earlier) =>
        Present(wide) && Present(narrow) && wide.World == narrow.World && wide.Acting == narrow.Acting
        && (narrow.Cells & ~wide.Cells) == 0 && (narrow.Cells != wide.Cells || earlier);

    private static bool Present(Answer answer) => answer is { Open: true, Gate: < 0, Ignored: 1, Silent: -1 };
}
