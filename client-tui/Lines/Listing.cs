using System.Collections;
using FuelHistory.Client.Words;

namespace FuelHistory.Client.Lines;

/// <summary>Lines that stay at the top, and below them a list, one line for each row. A line of the list is made when it is seen, so a
/// key costs the same on ten rows and on ten thousand.</summary>
internal sealed class Listing(IReadOnlyList<Line> head, int rows, Func<int, Line> row) : IReadOnlyList<Line>
{
    /// <summary>How many lines stay while the list scrolls.</summary>
    public int Pinned => head.Count;

    public int Count => head.Count + rows;

    public Line this[int index] => index < head.Count ? head[index] : row(index - head.Count);

    /// <summary>A list, or the text that stands in its place, below more lines; above a list they stay too.</summary>
    public static IReadOnlyList<Line> Below(IEnumerable<Line> above, IReadOnlyList<Line> rest) => rest is Listing list ? list.Under(above) : [.. above, .. rest];

    private Listing Under(IEnumerable<Line> above) => new([.. above, .. head], rows, row);

    public IEnumerator<Line> GetEnumerator()
    {
        for (var i = 0; i < Count; i++) yield return this[i];
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
