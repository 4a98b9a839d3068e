using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;

namespace FuelHistory.Client.Screens;

/// <summary>A pressure watched live: a key takes the time of a look, figures after it are the pressure.</summary>
internal sealed class LeakDownScreen(Desk desk, LeakRun run) : Screen(desk)
{
    private static readonly TimeSpan Beat = TimeSpan.FromMilliseconds(500);
    private const int MostTyped = 8;

    private CancellationToken _closed;
    private bool _beating;
    private DateTimeOffset _at;
    private string? _typed;

    public override string Title => run.Check.Title.StartsWith("Leak-down", StringComparison.OrdinalIgnoreCase) ? run.Check.Title : $"Leak-down: {run.Check.Title}";

    public override bool Loaded => run.Id is null || run.View is not null;

    public override IReadOnlyList<Bound> Keys => run.StoppedAt is null ? [new(Client.Keys.PumpStopped, () => run.Stop(Desk.Clock.GetLocalNow())), About]
        : _typed is not null ? [new(Client.Keys.TakeGlance, Take), new(Client.Keys.RubOut, RubOut), new(Client.Keys.DropGlance, () => _typed = null), .. Figures]
        :
        [
            new(Client.Keys.Glance, () => Look("")),
            .. Figures,
            new(Client.Keys.TakeBack, run.TakeBackLast, () => run.Standing.Count > 0 || run.Doubted is not null ? null : "no reading stands"),
            new(Client.Keys.Confirm, run.Confirm, () => run.Doubted is null ? "no reading is in doubt" : null),
            About,
            new(Client.Keys.Finish, Finish, WhyNotFinish),
        ];

    private Bound About => new(Client.Keys.AboutRun, () => Desk.Open(new FormScreen(Desk, LeakForms.Details(
        Desk.Clock, run.Temperature, run.Details, filled => Desk.Loop.Post(() => run.Describe(filled))))));

    private IEnumerable<Bound> Figures => Client.Keys.Figures.Select(use => new Bound(use, () => Figure((char)use.Key.AsRune.Value)));

    public override IReadOnlyList<Line> Lines(int width, int height) => LeakLines.Of(Now(), width, height, Signs);

    public override void Load()
    {
        _closed = Closed;
        if (!_beating) Tick();
        run.Next();
        if (run is { Id: { } id, Waiting: 0 }) Fetch(ct => Desk.Calls.Ask(api => api.LeakDown(id, ct)), run.Seen);
    }

    /// <summary>The clock on the screen goes on without a key.</summary>
    private void Tick()
    {
        _beating = true;
        if (_closed.IsCancellationRequested) return;
        if (Desk.Top == this && run.StoppedAt is not null) Desk.Redraw();
        Desk.Loop.Later(Beat, Tick);
    }

    private LeakState Now() => new(
        run.Check, run.Unit, run.StoppedAt is { } stop ? Desk.Clock.GetLocalNow() - stop : null, run.Standing, run.View?.Analysis, run.UpToDate,
        _typed, _typed is null ? default : _at - run.StoppedAt!.Value, run.Waiting, run.Silent, run.Safe, run.Doubted, run.Details);

    private void Look(string typed) => (_at, _typed) = (Desk.Clock.GetLocalNow(), typed);

    private void Figure(char figure)
    {
        if (_typed is null) Look(figure.ToString());
        else if (_typed.Length < MostTyped) _typed += figure;
    }

    private void RubOut() => _typed = _typed!.Length > 0 ? _typed[..^1] : _typed;

    private void Take()
    {
        if (!Draft.TryNumber(_typed!, out var pressure))
        {
            Desk.Message = _typed!.Length == 0 ? "Type the pressure that the gauge showed, then Enter." : $"\"{_typed}\" is no number; write one such as 2.6.";
            return;
        }
        _typed = null;
        run.Take(_at, pressure);
    }

    private string? WhyNotFinish() => run.Standing.Count == 0 ? "no reading is taken yet" : run.Waiting > 0 ? $"the server has not heard all of it yet ({run.Waiting} wait)" : null;

    private void Finish()
    {
        var count = run.Standing.Count;
        Fetch(ct => Desk.Calls.Ask(api => api.FinishLeakDown(run.Id!, ct)), _ =>
        {
            Desk.Runs.Remove(run);
            Desk.Saved();
            Desk.BackTo(screen => screen is LikelyScreen or RecordScreen, $"Entered: {run.Check.Title}, one finding of {count} readings.");
        });
    }
}
