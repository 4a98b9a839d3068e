using System.Collections.Concurrent;
using FuelHistory.Client.Api;
using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;
using Terminal.Gui.App;
using Terminal.Gui.Drivers;
using Terminal.Gui.Input;
using Terminal.Gui.Testing;
using Terminal.Gui.Time;
using Xunit;

namespace FuelHistory.Tests.Client;

/// <summary>The toolkit keeps some state for the whole process, so screens are driven one at a time.</summary>
[CollectionDefinition(Name)]
public sealed class OneScreenAtATime
{
    public const string Name = "screens";
}

/// <summary>The screens without a terminal: keys go in, text comes out. What calls post is run by the test itself, so nothing races.</summary>
internal sealed class ScreenHost : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly BlockingCollection<Action> _posted = [];
    private readonly Connection _connection;
    private readonly IApplication _app;
    private readonly Shell _shell;
    private readonly SessionToken _token;

    public ScreenHost(Uri address, bool colour = true, bool ascii = false, int width = 80, int height = 24, TimeProvider? clock = null, TimeSpan? patience = null, KeptRuns? kept = null)
    {
        Tui.SettleKeys();
        _connection = Connection.To(address, patience ?? Connection.OnScreen);
        _app = Application.Create(new VirtualTimeProvider());
        _app.Init(DriverRegistry.Names.ANSI);
        _app.Driver!.SetScreenSize(width, height);
        Desk = new Desk(_connection.Calls, new Look(colour, ascii ? Signs.Plain : Signs.Unicode), clock ?? TimeProvider.System, new Loop(_posted.Add, (wait, action) => Timers.Add((wait, action))), kept);
        _shell = new Shell(Desk);
        _app.Paste += _shell.TakePaste;
        Desk.Ended += () => Ended = true;
        Desk.Open(new VehiclesScreen(Desk));
        _token = _app.Begin(_shell)!;
        Draw();
    }

    public Desk Desk { get; }

    public bool Ended { get; private set; }

    public List<(TimeSpan Wait, Action Action)> Timers { get; } = [];

    public string Text => _app.Driver!.ToString()!.Replace("\r", "", StringComparison.Ordinal);

    public string[] Rows => Text.TrimEnd('\n').Split('\n');

    public string Footer => string.Join('\n', Rows.TakeLast(2));

    public IDriver Driver => _app.Driver!;

    public void Open(Screen screen)
    {
        Desk.Open(screen);
        Draw();
    }

    public void Press(params Key[] keys)
    {
        foreach (var key in keys)
        {
            _app.InjectKey(key);
            Draw();
        }
    }

    /// <summary>Types text, or presses letters where no text field is open.</summary>
    public void Type(string text) => Press([.. text.Select(letter => new Key(letter))]);

    public void Paste(string text)
    {
        _app.RaisePasteEvent(text);
        Draw();
    }

    public void Resize(int width, int height)
    {
        _app.Driver!.SetScreenSize(width, height);
        Draw();
        while (_posted.TryTake(out var action)) action();
        Draw();
    }

    /// <summary>Runs what calls have posted until the screen shows the text.</summary>
    public string WaitFor(string text) => WaitUntil(() => Text.Contains(text, StringComparison.Ordinal), $"\"{text}\"");

    /// <summary>Until the form itself is there: what it offers is loaded. Keys may be pressed before.</summary>
    public string WaitForForm(string title) =>
        WaitUntil(() => Desk.Top is FormScreen && Text.Contains(title, StringComparison.Ordinal), $"the form \"{title}\"");

    public string WaitUntil(Func<bool> wanted, string what)
    {
        using CancellationTokenSource enough = new(Patience);
        while (!wanted())
        {
            if (!_posted.TryTake(out var action, (int)Patience.TotalMilliseconds, CancellationToken.None) || enough.IsCancellationRequested)
                throw new InvalidOperationException($"The screen never showed {what}. It shows:\n{Text}");
            action();
            Draw();
        }
        return Text;
    }

    public void FireTimers()
    {
        var due = Timers.ToList();
        Timers.Clear();
        foreach (var (_, action) in due) action();
    }

    public void Dispose()
    {
        _app.End(_token);
        _shell.Dispose();
        _app.Dispose();
        _connection.Dispose();
        _posted.Dispose();
    }

    private void Draw() => _app.LayoutAndDraw();
}
