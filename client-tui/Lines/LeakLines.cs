using System.Globalization;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>What the leak-down screen shows: before the stop the cautions and the gauge; then clock, last figure, verdict and curve.</summary>
internal static class LeakLines
{
    private const int DigitRows = 5, DigitWidth = 6, DigitsWidth = 26;

    // one digit per five rows of five cells, drawn for this screen
    private static readonly Dictionary<char, string[]> Digits = new()
    {
        ['0'] = [" ### ", "#   #", "#   #", "#   #", " ### "], ['1'] = ["  #  ", " ##  ", "  #  ", "  #  ", " ### "],
        ['2'] = ["#### ", "    #", " ### ", "#    ", "#####"], ['3'] = ["#### ", "    #", " ### ", "    #", "#### "],
        ['4'] = ["#  # ", "#  # ", "#####", "   # ", "   # "], ['5'] = ["#####", "#    ", "#### ", "    #", "#### "],
        ['6'] = [" ### ", "#    ", "#### ", "#   #", " ### "], ['7'] = ["#####", "   # ", "  #  ", " #   ", " #   "],
        ['8'] = [" ### ", "#   #", " ### ", "#   #", " ### "], ['9'] = [" ### ", "#   #", " ####", "    #", " ### "],
        ['.'] = ["  ", "  ", "  ", "  ", "# "], ['-'] = ["     ", "     ", " ### ", "     ", "     "],
    };

    public static IReadOnlyList<Line> Before(CheckView check, string gauge, int width, Signs signs) =>
    [
        .. check.Cautions.SelectMany(caution => Cells.Wrap($"CAUTION: {caution}", width - 4).Select(text => Line.Of("  " + text, Role.Warning))),
        Line.Blank,
        Line.Of($"  Gauge: {gauge}"),
        Line.Blank,
        Line.Of("  Run the pump until the pressure stands, then stop it and press Space at the same moment.", Role.Title),
        Line.Of($"  After that: Space at each look, the figure in {check.Unit ?? "bar"}, Enter."),
    ];

    public static IReadOnlyList<Line> During(
        TimeSpan since, IReadOnlyList<(double Minutes, double Pressure)> looks, LeakOutlook? analysis, int waiting, string unit, string? asked, string caution, int width, int height, Stroke stroke, Signs signs)
    {
        var large = Large(looks.Count == 0 ? "-" : looks[^1].Pressure.ToString("0.0#", CultureInfo.InvariantCulture), signs);
        var beside = Beside(since, looks, analysis, waiting, unit, width - DigitsWidth - 2);
        List<Line> lines = [.. Enumerable.Range(0, DigitRows + 1).Select(row => Line.Of(
            null, new Span("  " + (row < DigitRows ? large[row] : "").PadRight(DigitsWidth)), new Span(row < beside.Count ? beside[row] : "", row == 1 ? Role.Title : Role.Plain)))];
        lines.Add(Line.Of(asked ?? "", Role.Title));
        lines.AddRange(LeakPlot.Of(looks, analysis, width - 2, Math.Max(6, height - lines.Count - 1), stroke, signs));
        lines.Add(Line.Of("  " + Cells.Cut(caution, width - 2, signs), Role.Warning));
        return lines;
    }

    private static List<string> Beside(TimeSpan since, IReadOnlyList<(double, double)> looks, LeakOutlook? analysis, int waiting, string unit, int width)
    {
        List<string> lines = [string.Create(CultureInfo.InvariantCulture, $"{(int)since.TotalMinutes}:{since.Seconds:00} since the stop; {looks.Count} looks, {unit}{(waiting > 0 ? $"; {waiting} WAIT" : "")}")];
        if (analysis is null)
        {
            lines.Add(waiting > 0 ? "The server is away: looks are kept and sent later." : "No verdict yet: look at the gauge.");
            return lines;
        }
        var shape = analysis.Shapes.MaxBy(each => each.Probability);
        lines.AddRange(Cells.Wrap(analysis.Says, width));
        if (shape is not null) lines.AddRange(Cells.Wrap($"Shape: {shape.Words} ({Figures.Percent(shape.Probability)})", width));
        lines.Add(string.Create(CultureInfo.InvariantCulture, $"To a third in {analysis.Tau.Median:0.#} min ({analysis.Tau.Low:0.#} to {analysis.Tau.High:0.#})"));
        return lines;
    }

    /// <summary>The figure five rows high.</summary>
    public static IReadOnlyList<string> Large(string figure, Signs signs) => [.. Enumerable.Range(0, DigitRows).Select(row =>
        string.Concat(figure.Select(sign => (Digits.TryGetValue(sign, out var rows) ? rows[row] : new string(' ', DigitWidth - 1)) + " ")).Replace("#", signs.Full, StringComparison.Ordinal))];
}
