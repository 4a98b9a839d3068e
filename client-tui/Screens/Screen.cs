using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>Where text is typed: the line of the screen, the column, the cells, the text so far and who takes it.</summary>
internal sealed record Typing(int Line, int Column, int Width, string Text, Action<string> Changed);

/// <summary>A screen is state, lines made from it by a pure function, and keys.</summary>
internal abstract class Screen(Desk desk) : IDisposable
{
    private readonly CancellationTokenSource _closed = new();
    private CancellationTokenSource? _newest;

    protected Desk Desk { get; } = desk;

    protected Signs Signs => Desk.Signs;

    protected CancellationToken Closed => _closed.Token;

    public abstract string Title { get; }

    public abstract IReadOnlyList<Bound> Keys { get; }

    /// <summary>The whole content for a body of this size; what is longer is scrolled.</summary>
    public abstract IReadOnlyList<Line> Lines(int width, int height);

    /// <summary>The marked row of the screen's list, where there are rows.</summary>
    public int Row { get; set; }

    public virtual int Rows => 0;

    /// <summary>The first line shown, kept while the screen is covered.</summary>
    public int Scrolled { get; set; }

    public virtual Typing? Typing => null;

    /// <summary>Calls under way.</summary>
    public int Pending { get; private set; }

    /// <summary>Why the last call brought nothing; empty where it did.</summary>
    public string Trouble { get; private set; } = "";

    public virtual void Load() { }

    /// <summary>Called when the screen comes to the top again.</summary>
    public virtual void Shown() { }

    public virtual bool Loaded => true;

    public void Dispose()
    {
        _closed.Cancel();
        _newest?.Dispose();
        _closed.Dispose();
    }

    /// <summary>Runs a call off the loop and applies its answer on the loop, unless the screen was closed meanwhile.</summary>
    protected void Fetch<T>(Func<CancellationToken, Task<Answer<T>>> call, Action<T> got, Action<Problem>? refused = null, Action<Unreachable<T>>? silent = null) =>
        Fetch(call, got, refused, silent, Closed);

    /// <summary>As Fetch, for a question whose answer is out of date with the next one: the older call is ended and its answer passed over.</summary>
    protected void FetchNewest<T>(Func<CancellationToken, Task<Answer<T>>> call, Action<T> got, Action<Problem>? refused = null, Action<Unreachable<T>>? silent = null)
    {
        _newest?.Cancel();
        _newest?.Dispose();
        _newest = CancellationTokenSource.CreateLinkedTokenSource(Closed);
        Fetch(call, got, refused, silent, _newest.Token);
    }

    private void Fetch<T>(Func<CancellationToken, Task<Answer<T>>> call, Action<T> got, Action<Problem>? refused, Action<Unreachable<T>>? silent, CancellationToken token)
    {
        Pending++;
        Desk.Call(() => call(token), answer =>
        {
            Pending--;
            if (!token.IsCancellationRequested) Apply(answer, got, refused, silent);
            Desk.Redraw();
        });
    }

    /// <summary>Loads what a form offers and opens it.</summary>
    protected void OpenForm(Func<CancellationToken, Task<Answer<FormData>>> source, Func<FormData, Form> make, Action<string>? saved = null) =>
        Fetch(source, data => Desk.Open(new FormScreen(Desk, make(data), saved)));

    private void Apply<T>(Answer<T> answer, Action<T> got, Action<Problem>? refused, Action<Unreachable<T>>? silent)
    {
        if (answer is Unreachable<T> gone)
        {
            Trouble = gone.Why;
            // a slow or broken answer is told; only a server that is not there at all makes the header say offline
            if (!gone.MayHaveArrived) Desk.Server.Silent(gone.Why, Desk.Clock.GetLocalNow());
            if (silent is null) Desk.Message = NoAnswer(gone.Why);
            silent?.Invoke(gone);
            return;
        }
        if (Desk.Message == NoAnswer(Trouble)) Desk.Message = "";
        Trouble = "";
        Desk.Server.Answered();
        if (answer is Got<T> value) got(value.Value);
        if (answer is Refused<T> no && refused is null) Desk.Message = $"{no.Problem.Title}: {no.Problem.Detail}";
        if (answer is Refused<T> faults) refused?.Invoke(faults.Problem);
    }

    private static string NoAnswer(string why) => $"No answer: {why}.";
}
