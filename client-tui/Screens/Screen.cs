using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
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
    private int? _asOf;

    protected Desk Desk { get; } = desk;

    protected Signs Signs => Desk.Signs;

    protected CancellationToken Closed => _closed.Token;

    public abstract string Title { get; }

    public abstract IReadOnlyList<Bound> Keys { get; }

    /// <summary>The whole content for a body of this size; what is longer is scrolled. A long list is a Listing.</summary>
    public abstract IReadOnlyList<Line> Lines(int width, int height);

    /// <summary>What is seen in a body of this size: the marked row, or the line where text is typed, is always in it.</summary>
    public Seen See(int width, int height)
    {
        var all = Lines(width, height);
        var seen = Seen.Of(all, Wanted(all, height), Scrolled, height, Row, Rows);
        Scrolled = seen.First;
        return seen;
    }

    /// <summary>The marked row of the screen's list, where there are rows.</summary>
    public int Row { get; set; }

    public virtual int Rows => 0;

    /// <summary>The first line shown below those that stay, kept while the screen is covered.</summary>
    public int Scrolled { get; set; }

    public virtual Typing? Typing => null;

    /// <summary>Whether the keys of travel move the mark; where text is typed only if it narrows the list.</summary>
    public virtual bool Travels => Typing is null;

    /// <summary>Whether hint and faults below the marked row belong to it and are seen with it.</summary>
    protected virtual bool RowHasMore => false;

    /// <summary>Whether keys that need what is still loading are kept until it is there.</summary>
    public virtual bool Holds => Typing is null && Pending > 0 && (!Loaded || Stale);

    /// <summary>Something was saved since the screen asked for what it shows.</summary>
    public bool Stale => Loaded && _asOf is { } seen && seen != Desk.Changes;

    /// <summary>Calls under way.</summary>
    public int Pending { get; private set; }

    /// <summary>Why the last call brought nothing; empty where it did.</summary>
    public string Trouble { get; private set; } = "";

    public virtual void Load() { }

    /// <summary>Called when the screen comes to the top again.</summary>
    public virtual void Shown()
    {
        if (Stale) Load();
    }

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

    /// <summary>As FetchNewest, for what the screen shows: an older answer never covers a newer one, and the screen knows as of when it is.</summary>
    protected void FetchShown<T>(Func<CancellationToken, Task<Answer<T>>> call, Action<T> got)
    {
        var asOf = Desk.Changes;
        FetchNewest(call, value =>
        {
            _asOf = asOf;
            got(value);
        });
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

    /// <summary>Opens a form at once; it takes the keys while what it offers is loading.</summary>
    protected void OpenForm(Func<CancellationToken, Task<Answer<FormData>>> source, Func<FormData, Form> make, Action<string>? saved = null) =>
        Desk.Open(new WaitScreen<FormData>(Desk, make(FormData.Empty(Desk.Calls, Desk.Clock)).Title, source,
            data => Desk.Open(new FormScreen(Desk, make(data), saved)), () => make(FormData.Empty(Desk.Calls, Desk.Clock))));

    /// <summary>The same for a form that is made by the call itself, such as one that corrects an entry.</summary>
    protected void OpenForm(string title, Func<CancellationToken, Task<Answer<Form>>> source) =>
        Desk.Open(new WaitScreen<Form>(Desk, title, source, form => Desk.Open(new FormScreen(Desk, form))));

    /// <summary>The row of what was marked, in the list as it is now; where it is gone, the same row as far as there is one.</summary>
    protected void KeepMark<T>(IReadOnlyList<T>? was, IReadOnlyList<T> now, Func<T, string> id)
    {
        var at = was is not null && Row > 0 && Row < was.Count ? now.ToList().FindIndex(each => id(each) == id(was[Row])) : -1;
        Row = at >= 0 ? at : Math.Clamp(Row, 0, Math.Max(0, now.Count - 1));
    }

    private (int First, int Last) Wanted(IReadOnlyList<Line> all, int height)
    {
        if (all is Listing list && Rows > 0) return (list.Pinned + Row, list.Pinned + Row);
        if (Rows == 0) return Typing is { } typing ? (typing.Line, typing.Line) : (Scrolled, Scrolled);
        var (first, last) = (-1, -1);
        for (var i = 0; i < all.Count; i++)
        {
            if (all[i].Row == Row) (first, last) = (first < 0 ? i : first, i);
            else if (first >= 0 && RowHasMore && all[i].Row is null && last == i - 1) last = i;
        }
        if (first < 0) return (Scrolled, Scrolled);
        // what stands above the first row is seen with it
        return (Row == 0 && last < height ? 0 : first, last);
    }

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
