using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;

namespace FuelHistory.Client.Lines;

/// <summary>Shown while a screen has no data yet.</summary>
internal static class WaitLines
{
    public static IReadOnlyList<Line> Of(ServerState server, int width) => server.Offline
        ?
        [
            Line.Blank,
            .. Cells.Wrap($"The server is not there: {server.Why}.", width - 4).Select(text => Line.Of("  " + text, Role.Warning)),
            .. Cells.Wrap($"It is tried again by itself; {Keys.Again.Shown} tries now.", width - 4).Select(text => Line.Of("  " + text)),
        ]
        : [Line.Blank, Line.Of("  Asking the server ...", Role.Faint)];
}
