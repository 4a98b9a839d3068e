using System.Globalization;
using System.Text.RegularExpressions;

namespace FuelHistory.Tests.FaultModels;

/// <summary>The table under "Decided by hand" of a system's sources.md: mode, event or check, what the writers say, what the model says, why. Modes and events may be several
/// and hold a star; figures are one or "least to most", as they were when it was decided.</summary>
internal sealed partial record WritersDecision(string Modes, string Where, double[] Writers, double[] Model, string Reason)
{
    public const string Heading = "## Decided by hand";

    /// <summary>A figure that has moved by more wants looking at again.</summary>
    private const double Slack = 0.05;

    public static IReadOnlyList<WritersDecision> Of(string system) =>
        [.. Lines(File.ReadAllLines(RealModels.File(system, "sources.md"))).Select(l => l.Trim('|', ' ').Split('|', StringSplitOptions.TrimEntries)).Select(Read)];

    public bool Covers(WritersDifference d) => Named(Modes, d.Mode) && Named(Where, d.Where) && Near(Writers, d.Target) && Near(Model, d.Model);

    private static IEnumerable<string> Lines(string[] page) =>
        page.SkipWhile(l => l != Heading).Skip(1).TakeWhile(l => !l.StartsWith("## ", StringComparison.Ordinal)).Where(l => l.StartsWith("| `", StringComparison.Ordinal));

    private static WritersDecision Read(string[] cells) => cells.Length == 5
        ? new(cells[0], cells[1], Figures(cells[2]), Figures(cells[3]), cells[4])
        : throw new FormatException($"not five cells: {string.Join(" | ", cells)}");

    private static double[] Figures(string cell) => [.. cell.Split(" to ").Select(f => double.Parse(f, CultureInfo.InvariantCulture))];

    private static bool Near(double[] range, double figure) => figure >= range[0] - Slack && figure <= range[^1] + Slack;

    private static bool Named(string cell, string id) => Quoted().Matches(cell)
        .Any(m => Regex.IsMatch(id, "^" + Regex.Escape(m.Groups[1].Value).Replace("\\*", ".*", StringComparison.Ordinal) + "$"));

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex Quoted();
}
