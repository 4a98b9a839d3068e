using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;

namespace FuelHistory.Client.Screens;

/// <summary>What of a screen is seen: as many lines as there is room for, which line of the whole comes first below those that stay, and the
/// place in the whole in words; empty where all of it is seen.</summary>
internal sealed record Seen(IReadOnlyList<Line> Lines, int Pinned, int First, string Place)
{
    /// <summary>On which row of the body a line of the whole stands.</summary>
    public int RowOf(int line) => line < Pinned ? line : line - First;

    /// <param name="wanted">First and last line that have to be seen.</param>
    /// <param name="top">The first line that was seen before; it stays where it can.</param>
    public static Seen Of(IReadOnlyList<Line> all, (int First, int Last) wanted, int top, int height, int row, int rows)
    {
        var pinned = all is Listing list ? Math.Clamp(list.Pinned, 0, Math.Max(0, height - 1)) : 0;
        var room = Math.Max(1, height - pinned);
        var most = Math.Max(0, all.Count - pinned - room);
        var (first, last) = (wanted.First - pinned, Math.Min(wanted.Last, wanted.First + room - 1) - pinned);
        if (last >= top + room) top = last - room + 1;
        if (first >= 0 && first < top) top = first;
        top = Math.Clamp(top, 0, most);
        var shown = Math.Min(room, all.Count - pinned - top);
        List<Line> lines = [];
        for (var i = 0; i < pinned; i++) lines.Add(all[i]);
        for (var i = 0; i < shown; i++) lines.Add(all[pinned + top + i]);
        return new(lines, pinned, top, PlaceOf(all, lines, top, most, row, rows));
    }

    private static string PlaceOf(IReadOnlyList<Line> all, List<Line> lines, int top, int most, int row, int rows)
    {
        var place = rows > 0 ? $"{Math.Min(row + 1, rows)} of {rows}" : $"lines {top + 1}-{top + lines.Count} of {all.Count}";
        if (top < most) return place + ", more below";
        if (top > 0) return place + ", more above";
        // a screen that keeps a window around its mark by itself fits as a whole, and yet not all of its rows are seen
        return all is Listing && rows > 1 || lines.Select(line => line.Row).OfType<int>().Distinct().Count() < rows ? place : "";
    }
}
