using FuelHistory.Client.Api;

namespace FuelHistory.Client.Screens;

/// <summary>Asks now and then whether the server is there, with growing pauses while it is not.</summary>
internal sealed class Watch
{
    private static readonly TimeSpan WhileThere = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan LongestPause = TimeSpan.FromSeconds(30);

    private readonly Desk _desk;
    private int _misses;

    private Watch(Desk desk) => _desk = desk;

    public static void Start(Desk desk) => desk.Loop.Later(WhileThere, new Watch(desk).Ask);

    /// <summary>1, 2, 4 ... 30 seconds, each up to a quarter shorter so that many clients do not come at once.</summary>
    public static TimeSpan Pause(int misses, double chance)
    {
        if (misses == 0) return WhileThere;
        var seconds = Math.Min(LongestPause.TotalSeconds, Math.Pow(2, misses - 1));
        return TimeSpan.FromSeconds(seconds * (1 - 0.25 * chance));
    }

    private void Ask() => _desk.Call(() => _desk.Calls.Ask(api => api.Live(CancellationToken.None)), Hear);

    private void Hear<T>(Answer<T> answer)
    {
        if (answer is Unreachable<T> gone)
        {
            _misses++;
            if (_desk.Server.Silent(gone.Why, _desk.Clock.GetLocalNow())) _desk.Redraw();
        }
        else
        {
            _misses = 0;
            if (_desk.Server.Answered()) Back();
            else if (_desk.Top is { Trouble.Length: > 0, Pending: 0 }) _desk.Top.Load();
        }
        // spreads clients; nothing secret hangs on it
#pragma warning disable CA5394
        _desk.Loop.Later(Pause(_misses, Random.Shared.NextDouble()), Ask);
#pragma warning restore CA5394
    }

    private void Back()
    {
        _desk.Message = "The server is there again.";
        _desk.Top.Load();
        _desk.Redraw();
    }
}
