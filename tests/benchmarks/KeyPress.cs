using System.Diagnostics;
using System.Globalization;
using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;
using Terminal.Gui.App;
using Terminal.Gui.Drivers;
using Terminal.Gui.Input;
using Terminal.Gui.Time;

namespace FuelHistory.Benchmarks;

/// <summary>What one key costs on a long list, from the key to the painted screen, beside the same key on a list that fits the screen.</summary>
internal static class KeyPress
{
    private const int Short = 15, Rounds = 200, Warm = 200, Width = 80, Height = 24;

    private static readonly (string Name, Func<int, Key> Of)[] Presses =
    [
        ("down", _ => Key.CursorDown),
        ("page down, page up", round => round % 2 == 0 ? Key.PageDown : Key.PageUp),
        ("a letter, rubbed out", round => round % 2 == 0 ? new Key('e') : Key.Backspace),
    ];

    public static void Print(int rows)
    {
        // the toolkit must not look for a terminal here
        Environment.SetEnvironmentVariable("DisableRealDriverIO", "1");
        Tui.SettleKeys();
        Console.WriteLine($"median of {Rounds} keys, {Width} x {Height}; floor: a list of {Short}");
        foreach (var (name, press) in Presses)
        {
            var (floor, cost) = (Median(Short, press), Median(rows, press));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: {cost:0.00} ms on {rows} rows, floor {floor:0.00} ms, ratio {cost / floor:0.0}"));
        }
    }

    private static double Median(int rows, Func<int, Key> press)
    {
        using var connection = Connection.To(new Uri("http://127.0.0.1:9"), TimeSpan.FromSeconds(1));
        using var app = Application.Create(new VirtualTimeProvider());
        app.Init(DriverRegistry.Names.ANSI);
        app.Driver!.SetScreenSize(Width, Height);
        Desk desk = new(connection.Calls, new Look(true, Signs.Unicode), TimeProvider.System, new Loop(_ => { }, (_, _) => { }));
        using Shell shell = new(desk);
        PickField pick = new("part", "Part", "", [.. Enumerable.Range(0, rows).Select(i => new NamedThing($"part-{i}", $"Name {i} of some part of the engine"))]);
        desk.Open(new PickScreen(desk, pick, () => { }));
        using var token = new Session(app, app.Begin(shell)!);
        List<double> times = [];
        for (var round = 0; round < Warm + Rounds; round++)
        {
            var start = Stopwatch.GetTimestamp();
            app.Keyboard.RaiseKeyDownEvent(press(round));
            app.LayoutAndDraw();
            if (round >= Warm) times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
        times.Sort();
        return times[Rounds / 2];
    }

    private sealed class Session(IApplication app, SessionToken token) : IDisposable
    {
        public void Dispose() => app.End(token);
    }
}
