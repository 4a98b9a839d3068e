using System.Globalization;
using System.Text.RegularExpressions;

namespace FuelHistory.Tests.FaultModels;

/// <summary>A row of the table under "Decided by hand" of a system's sources.md: mode, event or check, what the writers say, what the
/// model says, why. Modes and events may be several and hold a star; figures are one or "least to most", as they were when it was
/// decided.</summary>
internal sealed partial record WritersDecision(string Modes, string Where, double[] Writers, double[] Model, string Reason)
{
    private const string Heading = "## Decided by hand";

    /// <summary>A figure that has moved by more wants looking at again.</summary>
    private const double Slack = 0.05;

    public static IReadOnlyList<WritersDecision> Of(string system) =>
        [.. Lines(File.ReadAllLines(RealModels.File(system, "sources.md"))).Select(Read)];

    public bool Covers(WritersDifference d) =>
        Ids(Modes).Any(m => Named(m, d.Mode)) && Ids(Where).Any(w => Named(w, d.Where)) && Near(Writers, d.Target) && Near(Model, d.Model);

    /// <summary>Modes and events of the row that none of these differences has.</summary>
    public IEnumerable<string> Idle(IEnumerable<WritersDifference> found)
    {
        List<WritersDifference> covered = [.. found.Where(Covers)];
        return Ids(Modes).Where(m => !covered.Any(d => Named(m, d.Mode)))
            .Concat(Ids(Where).Where(w => !covered.Any(d => Named(w, d.Where))));
    }

    private static IEnumerable<string> Lines(string[] page) => page.SkipWhile(l => l != Heading).Skip(1)
        .TakeWhile(l => !l.StartsWith("## ", StringComparison.Ordinal)).Where(l => l.StartsWith("| `", StringComparison.Ordinal));

    private static WritersDecision Read(string line)
    {
        string[] cells = line.Trim('|', ' ').Split('|', StringSplitOptions.TrimEntries);
        return cells.Length == 5
            ? new(cells[0], cells[1], Figures(cells[2]), Figures(cells[3]), cells[4])
            : throw new FormatException($"not five cells: {line}");
    }

    private static double[] Figures(string cell) => [.. cell.Split(" to ").Select(f => double.Parse(f, CultureInfo.InvariantCulture))];

    private static bool Near(double[] range, double figure) => figure >= range[0] - Slack && figure <= range[^1] + Slack;

    private static IEnumerable<string> Ids(string cell) => Quoted().Matches(cell).Select(m => m.Groups[1].Value);

    private static bool Named(string pattern, string id) =>
        Regex.IsMatch(id, $"^{Regex.Escape(pattern).Replace("\\*", ".*", StringComparison.Ordinal)}$");

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex Quoted();
}
