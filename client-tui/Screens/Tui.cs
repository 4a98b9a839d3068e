using FuelHistory.Client.Api;
using FuelHistory.Client.Words;
using Terminal.Gui.App;
using Terminal.Gui.Input;
using System.Runtime.InteropServices;

namespace FuelHistory.Client.Screens;

/// <summary>Runs the screens on a terminal until they are left or the program is told to end.</summary>
internal static class Tui
{
    /// <summary>Must be done before the toolkit is made: by its default Esc would end the program.</summary>
    public static void SettleKeys() => Application.SetDefaultKeyBinding(Command.Quit, Bind.All(Keys.Leave.Key));

    public static void Run(ApiCalls calls, Look look, CancellationToken stop)
    {
        SettleKeys();
        using var app = Application.Create();
        app.Init();
        app.Mouse.IsMouseDisabled = true;
        Loop loop = new(action => app.Invoke(action), (wait, action) => app.AddTimeout(wait, () => { action(); return false; }));
        Desk desk = new(calls, look, TimeProvider.System, loop);
        using Shell shell = new(desk);
        desk.Ended += () => app.RequestStop();
        using var stopping = stop.Register(() => app.Invoke(() => app.RequestStop()));
        using var hangUp = StopOn(PosixSignal.SIGHUP, app);
        desk.Open(new VehiclesScreen(desk));
        Watch.Start(desk);
        app.Run(shell);
    }

    private static PosixSignalRegistration StopOn(PosixSignal signal, IApplication app) =>
        PosixSignalRegistration.Create(signal, context =>
        {
            context.Cancel = true;
            app.Invoke(() => app.RequestStop());
        });
}
