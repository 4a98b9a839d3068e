using System.Runtime.ExceptionServices;
using FuelHistory.Client.Api;
using FuelHistory.Client.Words;

namespace FuelHistory.Client.Screens;

/// <summary>The loop that owns the screen. Post: run on the loop soon. Later: run on the loop after a while.</summary>
internal sealed record Loop(Action<Action> Post, Action<TimeSpan, Action> Later);

/// <summary>What the screens share: the calls, what was loaded once, the look, the clock, and the pile they lie on.</summary>
/// <param name="kept">Where what waits for the server outlives the program; null: nowhere.</param>
internal sealed class Desk(ApiCalls calls, Look look, TimeProvider clock, Loop loop, KeptRuns? kept = null)
{
    private readonly List<Screen> _pile = [];
    private bool _warned;

    public ApiCalls Calls { get; } = calls;

    public Look Look { get; } = look;

    public Signs Signs => Look.Signs;

    public TimeProvider Clock { get; } = clock;

    public Loop Loop { get; } = loop;

    public Knowledge Knowledge { get; } = new(calls);

    public ServerState Server { get; } = new();

    /// <summary>One sentence for the message line; gone with the next key.</summary>
    public string Message { get; set; } = "";

    public Screen Top => _pile[^1];

    public int Depth => _pile.Count;

    /// <summary>Leak-downs watched here; what the server has not heard yet waits in them, whatever screen is open.</summary>
    public List<LeakRun> Runs { get; } = [];

    public KeptRuns? Kept { get; } = kept;

    /// <summary>What was typed for a screen that is still loading.</summary>
    public TypeAhead Ahead { get; } = new();

    /// <summary>How often something was saved from here; a screen that asked before is out of date.</summary>
    public int Changes { get; private set; }

    public event Action? Changed;

    public event Action? Ended;

    /// <summary>Runs a call off the loop and hands its answer over on the loop; a bug in it ends the program there.</summary>
    public void Call<T>(Func<Task<Answer<T>>> call, Action<Answer<T>> heard) =>
        Task.Run(call).ContinueWith(done => Loop.Post(() =>
        {
            if (done.Exception?.InnerException is { } bug) ExceptionDispatchInfo.Throw(bug);
            heard(done.Result);
        }), CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);

    /// <summary>Sends what an earlier run of this program could not.</summary>
    public void SendKept()
    {
        foreach (var (name, run) in Kept?.All() ?? [])
        {
            Runs.Add(LeakRun.Of(this, name, run));
            Message = $"Sending {run.Waiting.Count} entries of the leak-down of {Figures.Moment(run.StoppedAt)} that waited.";
            Runs[^1].Next();
        }
    }

    public void Open(Screen screen)
    {
        _pile.Add(screen);
        screen.Load();
        Redraw();
    }

    /// <summary>Opens something in the place of the topmost screen.</summary>
    public void Replace(Screen screen, Action open)
    {
        Remove(screen);
        open();
        Redraw();
    }

    public void Saved() => Changes++;

    /// <summary>Closes the topmost screen; the lowest one stays.</summary>
    public void Back()
    {
        if (_pile.Count <= 1)
        {
            Message = $"This is the first screen. {Keys.Leave.Shown} leaves the program.";
            Redraw();
            return;
        }
        Remove(Top);
        Top.Shown();
        Redraw();
    }

    /// <summary>Closes the topmost screen and loads the one below again, since something was saved.</summary>
    public void BackAndReload(string message) => BackTo(_ => true, message);

    /// <summary>Closes the topmost screen and all below it up to one that is wanted, and loads that one again.</summary>
    public void BackTo(Func<Screen, bool> wanted, string message)
    {
        do Remove(Top); while (_pile.Count > 1 && !wanted(Top));
        Top.Load();
        Message = message;
        Redraw();
    }

    public void End()
    {
        if (_pile.OfType<FormScreen>().FirstOrDefault(form => form.Dirty) is { } unsaved)
        {
            while (Top != unsaved) Remove(Top);
            unsaved.AskToLeave(EndNow);
            Redraw();
            return;
        }
        if (Runs.Sum(run => run.Waiting) is > 0 and var waiting && !_warned)
        {
            _warned = true;
            Message = Runs.Where(run => run.Waiting > 0).All(run => run.Safe)
                ? $"{waiting} entries wait; they are kept and sent at the next opening. {Keys.Leave.Shown} leaves."
                : $"{waiting} entries of a leak-down wait for the server and would be lost. {Keys.Leave.Shown} again leaves all the same.";
            Redraw();
            return;
        }
        EndNow();
    }

    public void EndNow()
    {
        foreach (var screen in _pile) screen.Dispose();
        Ended?.Invoke();
    }

    public void Redraw() => Changed?.Invoke();

    private void Remove(Screen screen)
    {
        _pile.Remove(screen);
        screen.Dispose();
    }
}
