using FuelHistory.Client.Words;

namespace FuelHistory.Client.Lines;

/// <summary>Shown while a screen has no data yet.</summary>
internal static class WaitLines
{
    /// <param name="trouble">Why the last try brought nothing; empty where none has failed.</param>
    public static IReadOnlyList<Line> Of(string trouble, int width) => trouble.Length > 0
        ?
        [
            Line.Blank,
            .. Cells.Wrap($"There is no answer yet: {trouble}.", width - 4).Select(text => Line.Of("  " + text, Role.Warning)),
            .. Cells.Wrap($"It is tried again by itself; {Keys.Again.Shown} tries now.", width - 4).Select(text => Line.Of("  " + text)),
        ]
        : [Line.Blank, Line.Of("  Asking the server ...", Role.Faint)];
}
