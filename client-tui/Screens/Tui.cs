using System.Runtime.InteropServices;
using FuelHistory.Client.Api;
using Terminal.Gui.App;
using Terminal.Gui.Input;

namespace FuelHistory.Client.Screens;

/// <summary>Runs the screens on a terminal until they are left or the program is told to end.</summary>
internal static class Tui
{
    // the toolkit asks for every movement of the mouse; without it the terminal's own selection keeps working
    private const string MouseOff = "\u001b[?1000l\u001b[?1002l\u001b[?1003l\u001b[?1006l\u001b[?1015l";

    // a key waits at most this long; more rounds would only warm the processor of an idle program
    private const ushort RoundsPerSecond = 15;

    private const int HungUp = 128 + 1;
    private static readonly TimeSpan HangUpPatience = TimeSpan.FromSeconds(1.5);

    /// <summary>Must be done before the toolkit is made: by its default Esc would end the program.</summary>
    public static void SettleKeys() => Application.SetDefaultKeyBinding(Command.Quit, Bind.All(Keys.Leave.Key));

    public static void Run(ApiCalls calls, Look look, KeptRuns? kept, CancellationToken stop)
    {
        SettleKeys();
        Application.MaximumIterationsPerSecond = RoundsPerSecond;
        using var app = Application.Create();
        app.Init();
        app.Mouse.IsMouseDisabled = true;
        app.Driver!.WriteRaw(MouseOff);
        Loop loop = new(action => app.Invoke(action), (wait, action) => app.AddTimeout(wait, () => { action(); return false; }));
        Desk desk = new(calls, look, TimeProvider.System, loop, kept);
        using Shell shell = new(desk);
        app.Paste += shell.TakePaste;
        desk.Ended += () => app.RequestStop();
        using var stopping = stop.Register(() => app.Invoke(() => app.RequestStop()));
        using var hangUp = StopOnHangUp(app);
        desk.Open(new VehiclesScreen(desk));
        Watch.Start(desk);
        desk.SendKept();
        app.Run(shell);
    }

    /// <summary>Where the terminal is gone, the toolkit's reader never ends; the program does all the same.</summary>
    private static PosixSignalRegistration StopOnHangUp(IApplication app) =>
        PosixSignalRegistration.Create(PosixSignal.SIGHUP, context =>
        {
            context.Cancel = true;
            app.Invoke(() => app.RequestStop());
            new Thread(() =>
            {
                Thread.Sleep(HangUpPatience);
                Environment.Exit(HungUp);
            })
            { IsBackground = true }.Start();
        });
}
