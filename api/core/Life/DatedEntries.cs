namespace FuelHistory.Core.Life;

/// <summary>The entries of one component with a day each. Half-known days are taken at equal days of their span, every combination once:
/// eight days of a part fitted, four of anything else, and four of each where there are three spans (MODEL.md 2).</summary>
internal static class DatedEntries
{
    /// <summary>With more spans than this on one component all are taken at their middle days.</summary>
    private const int MostSpans = 3;

    private const int DaysOfFitting = 8, DaysOfOther = 4;

    /// <summary>More half-known days than are gone through.</summary>
    public static bool TakesMiddles(IReadOnlyList<RecordEntry> entries, DateOnly first, DateOnly last) => entries.Count(e => IsLong(e, first, last)) > MostSpans;

    /// <summary>Equally likely lists, each by day, then in the order of recording.</summary>
    public static IEnumerable<IReadOnlyList<RecordEntry>> Of(IReadOnlyList<RecordEntry> entries, DateOnly first, DateOnly last)
    {
        RecordEntry[] open = [.. entries.Where(e => IsLong(e, first, last))];
        if (open.Length == 0 || open.Length > MostSpans)
        {
            return [entries];
        }

        RecordEntry[] settled = [.. entries.Except(open)];
        IEnumerable<RecordEntry[]> combinations = [[]];
        foreach (RecordEntry entry in open)
        {
            DateOnly[] days = entry.Within!.Value.Cut(first, last).Equal(entry.Fits && open.Length < MostSpans ? DaysOfFitting : DaysOfOther);
            combinations = [.. combinations.SelectMany(c => days.Select(day => (RecordEntry[])[.. c, entry with { Day = day }]))];
        }

        return combinations.Select(c => (RecordEntry[])[.. settled.Concat(c).OrderBy(e => e.Day).ThenBy(e => e.Recorded)]);
    }

    private static bool IsLong(RecordEntry entry, DateOnly first, DateOnly last) => entry.Within?.Cut(first, last).IsLong ?? false;
}
