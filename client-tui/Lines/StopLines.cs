using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>What must not be done now, before everything else that is said.</summary>
internal static class StopLines
{
    private const int MostRows = 5;

    /// <summary>For a screen: the first note as far as it fits into a few rows, of each further one the beginning.</summary>
    public static IEnumerable<Line> Short(Assessment assessment, int width, Signs signs)
    {
        foreach (var (note, at) in assessment.StopNotes.Select((note, at) => (note, at)))
        {
            var most = at == 0 ? MostRows : 2;
            var rows = Cells.Wrap(Clean.Of($"STOP: {Sentence(note)}", signs), width - 4);
            var shown = rows.Count <= most ? rows : [.. rows.Take(most - 1), Cells.Cut(string.Join(' ', rows.Skip(most - 1)), width - 4, signs)];
            foreach (var row in shown) yield return Line.Of("  " + row, Role.Warning);
        }
    }

    /// <summary>In full, a line each.</summary>
    public static IEnumerable<Line> Full(Assessment assessment, Signs signs) =>
        assessment.StopNotes.Select(note => Line.Of(Clean.Of($"STOP: {Sentence(note)}", signs), Role.Warning));

    private static string Sentence(StopNote note) => $"{note.Title}. {note.Text} Until {note.Until}. (Because of: {note.Why})";
}
