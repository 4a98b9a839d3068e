namespace FuelHistory.Core.Assessment;

internal sealed partial class EvidenceList
{
    private void AddEvents()
    {
        foreach (var group in Numbered().Where(f => f.Finding.Event is not null)
            .SelectMany(f => Reports(f.Finding, f.World)).GroupBy(r => r.Event))
        {
            _items.Add(new EventEvidence(group.Key, group.Select(r => r.Report)));
        }
    }

    /// <summary>What one finding says of its event (MODEL.md 4): "only" is these cells present and all others absent, "always" is each cell.</summary>
    private IEnumerable<(EventIndex Event, EventReport Report)> Reports(Observation f, int world)
    {
        if (_index.Told(f.Event!, f.When, f.Then) is not (EventIndex source, ulong cells))
        {
            yield break;
        }

        SessionFact session = _sessions[f.Session];
        if (f.Outcome == "always")
        {
            foreach (int cell in EventIndex.Each(cells))
            {
                yield return (source, new EventReport(f.Id, world, 1UL << cell, true, f.Sure, session));
            }

            yield break;
        }

        yield return (source, new EventReport(f.Id, world, cells, f.Outcome != "absent", f.Sure, session));
        if (f.Outcome == "only" && (source.All & ~cells) != 0)
        {
            yield return (source, new EventReport(f.Id, world, source.All & ~cells, false, f.Sure, session));
        }
    }

    /// <summary>Events present at a finding, the main one first, then in the order of the file: event and open cells.</summary>
    private (EventIndex Event, ulong Cells)[] PresentAt(int finding)
    {
        var told = new Dictionary<EventIndex, OpenCells>();
        for (int i = 0; i < finding; i++)
        {
            foreach ((EventIndex source, EventReport report) in _investigation.Findings[i].Event is null ? [] : Reports(_investigation.Findings[i], 0))
            {
                if (!told.TryGetValue(source, out OpenCells? open))
                {
                    told[source] = open = new OpenCells();
                }

                open.Take(report);
            }
        }

        // told later in the same stretch, it was there all the same
        if (told.Values.All(o => o.All == 0))
        {
            int world = _investigation.StretchOf(finding);
            return [.. _items.OfType<EventEvidence>().Where(e => e.LastPresent?.World == world).Select(e => (e.Source, e.Open)).OrderByDescending(e => IsMain(e.Source)).ThenBy(e => e.Source.Index)];
        }

        return [.. told.Where(e => e.Value.All != 0).OrderByDescending(e => IsMain(e.Key)).ThenBy(e => e.Key.Index).Select(e => (e.Key, e.Value.All))];
    }

    private bool IsMain(EventIndex source) =>
        _investigation.Input.Complaint.Main is string main && _index.Told(main, [], []) is (EventIndex told, _) && ReferenceEquals(told, source);
}
