namespace FuelHistory.Core.Assessment;

/// <summary>Cells of one event reported as present and not since as ended. Told both widely and narrowly, the narrow telling is what it is:
/// "hard to start, cold" beside "cold, then it runs well" is the latter.</summary>
internal sealed class OpenCells
{
    private readonly List<ulong> _told = [];

    public ulong All => _told.Aggregate(0UL, (all, cells) => all | cells);

    public static ulong After(IEnumerable<EventReport> reports)
    {
        var open = new OpenCells();
        foreach (EventReport report in reports)
        {
            open.Take(report);
        }

        return open.All;
    }

    public void Take(EventReport report)
    {
        if (!report.Present)
        {
            for (int i = _told.Count - 1; i >= 0; i--)
            {
                _told[i] &= ~report.Cells;
            }

            _told.RemoveAll(cells => cells == 0);
        }
        else if (!_told.Exists(narrow => (narrow & ~report.Cells) == 0))
        {
            _told.RemoveAll(wide => (report.Cells & ~wide) == 0);
            _told.Add(report.Cells);
        }
    }
}
