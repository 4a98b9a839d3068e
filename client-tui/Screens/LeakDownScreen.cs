using System.Globalization;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>A pressure watched over time: the stop is stamped, then each look; what the looks say so far stands beside them. Nothing is
/// lost with the connection: the stop and the looks are kept here and sent when the server is there again, each once.</summary>
internal sealed class LeakDownScreen(Desk desk, Complaint complaint, CheckView check) : Screen(desk)
{
    private static readonly TimeSpan Tick = TimeSpan.FromMilliseconds(500), SendAgain = TimeSpan.FromSeconds(5);

    private readonly Looks _looks = new(check.Unit ?? "bar");
    private IReadOnlyList<Instrument>? _gauges;
    private int _gauge = -1;
    private LeakDown? _run;
    private LeakOutlook? _analysis;
    private DateTimeOffset? _stopped;
    private DateTimeOffset? _stamped;
    private string _typed = "";
    private bool _ticking, _sending, _later, _ended;
    private Stroke _stroke;

    public override string Title => $"Watching: {check.Title}";

    public override bool Loaded => _gauges is not null;

    public override Typing? Typing => _stamped is null ? null : new(LeakRow, AskedColumn, 12, _typed, text => _typed = text);

    private const int LeakRow = 6, AskedColumn = 24;

    public override IReadOnlyList<Bound> Keys => _stamped is not null
        ? [new(Client.Keys.Noted, Note), new(Client.Keys.NoLook, () => (_stamped, _typed) = (null, ""))]
        : _stopped is null
            ? [new(Client.Keys.PumpStops, Stop, () => Loaded ? null : "the gauges are not loaded"), new(Client.Keys.GaugeNext, NextGauge, () => _gauges is { Count: > 0 } ? null : "no gauge is entered")]
            :
            [
                new(Client.Keys.Glance, () => (_stamped, _typed) = (Desk.Clock.GetUtcNow(), "")),
                new(Client.Keys.TakeBack, TakeBack, () => _looks.LastId is null ? "no figure is noted" : null),
                new(Client.Keys.Confirm, Confirm, () => _looks.Waiting == 0 ? "no figure waits" : null),
                new(Client.Keys.Finish, Finish, () => _run is null || _looks.Waiting > 0 ? "the server does not have every look yet" : _looks.LastId is null ? "no figure is noted" : null),
                new(Client.Keys.Dots, NextStroke),
            ];

    private double Since(DateTimeOffset at) => Math.Max(0, (at - _stopped!.Value).TotalMinutes);

    public override IReadOnlyList<Line> Lines(int width, int height)
    {
        if (_gauges is null) return WaitLines.Of(Trouble, width);
        if (_stopped is null) return LeakLines.Before(check, _gauge < 0 ? "none named" : _gauges[_gauge].Name, width, Signs);
        var asked = _stamped is { } at ? string.Create(CultureInfo.InvariantCulture, $"  At {Since(at):0.00} min it read:") : null;
        var caution = $"CAUTION: {check.Cautions.Where(each => each.Contains("bottle", StringComparison.OrdinalIgnoreCase)).Append("the workshop manual goes first").First()}";
        return LeakLines.During(Desk.Clock.GetUtcNow() - _stopped.Value, _looks.Standing, _analysis, _looks.Waiting, check.Unit ?? "bar", asked, caution, width, height, Signs.Ascii ? Stroke.Letters : _stroke, Signs);
    }

    /// <summary>The gauges, and a watch of this check that is still running: it is gone on with.</summary>
    public override void Load() => Fetch(async ct =>
    {
        var gauges = await Desk.Calls.Ask(api => api.Instruments(ct));
        return await gauges.Then(async list => (await Desk.Calls.Ask(api => api.LeakDowns(complaint.Entry.Id, ct))).As(runs => (list, runs)));
    }, loaded =>
    {
        _gauges = [.. loaded.list.Where(each => each.Quantity == "pressure")];
        _gauge = _gauges.Count > 0 ? 0 : -1;
        if (_run is null && loaded.runs.LastOrDefault(run => run.Check == check.Id && run.State == "running") is { } running) GoOn(running);
    });

    private void GoOn(LeakDown run)
    {
        (_run, _stopped) = (run, run.StoppedAt);
        Fetch(ct => Desk.Calls.Ask(api => api.LeakDown(run.Entry.Id, ct)), Took);
        StartClock();
    }

    private void Stop()
    {
        _stopped = Desk.Clock.GetLocalNow();
        StartClock();
        Send();
    }

    private void NextGauge() => _gauge = (_gauge + 1) % _gauges!.Count;

    private void NextStroke() => _stroke = _stroke == Stroke.Letters ? Stroke.Dots : _stroke + 1;

    private void StartClock()
    {
        if (_ticking) return;
        _ticking = true;
        void Again() => Desk.Loop.Later(Tick, () =>
        {
            if (Closed.IsCancellationRequested) return;
            if (Desk.Top == this) Desk.Redraw();
            Again();
        });
        Again();
    }

    private void Note()
    {
        if (!double.TryParse(_typed.Trim().Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var pressure))
        {
            Desk.Message = $"\"{_typed}\" is no figure; type a pressure such as 2.6.";
            return;
        }
        _looks.Add(Since(_stamped!.Value), pressure);
        (_stamped, _typed) = (null, "");
        Send();
    }

    private void Confirm()
    {
        _looks.ConfirmLast();
        Send();
    }

    /// <summary>Sends what the server does not have: the stop first, then all looks at once. One call at a time; what fails is sent again.</summary>
    private void Send()
    {
        if (_sending || _ended) return;
        if (_run is null) Begin();
        else if (_looks.Waiting > 0) SendLooks(_run.Entry.Id);
    }

    private void Begin()
    {
        _sending = true;
        NewLeakDown body = new(check.Id, _stopped!.Value, check.Unit ?? "bar", _gauge < 0 ? null : _gauges![_gauge].Entry.Id);
        Fetch(async ct => await (await Desk.Calls.Ask(api => api.LeakDowns(complaint.Entry.Id, ct))).Then(async runs =>
                runs.FirstOrDefault(run => run.Check == check.Id && run.StoppedAt == body.StoppedAt) is { } there
                    ? new Api.Got<LeakDown>(there)               // the answer was lost, not the request
                    : await Desk.Calls.Ask(api => api.StartLeakDown(complaint.Entry.Id, body, ct))),
            run => Sent(() => _run = run), problem => Sent(() => Refused(problem)), _ => NotSent());
    }

    private void SendLooks(string id)
    {
        _sending = true;
        var body = _looks.Unsent();
        Fetch(ct => Desk.Calls.Ask(api => api.AddLeakReadings(id, body, ct)), view => Sent(() => Took(view)), problem => Sent(() => Refused(problem)), _ => NotSent());
    }

    private void Sent(Action then)
    {
        _sending = false;
        var before = _looks.Waiting;
        var started = _run is not null;
        then();
        if (_looks.Waiting < before || (!started && _run is not null)) Send();
    }

    private void NotSent()
    {
        _sending = false;
        if (_later) return;
        _later = true;
        Desk.Loop.Later(SendAgain, () =>
        {
            _later = false;
            if (!Closed.IsCancellationRequested) Send();
        });
    }

    private void Took(LeakDownView view)
    {
        _looks.Take(view);
        _analysis = view.Analysis;
        if (view.LeakDown.State == "running") _run = view.LeakDown;
    }

    private void Refused(Problem problem)
    {
        var fault = problem.Errors is { Count: > 0 } faults ? faults[0].Detail : problem.Detail;
        Desk.Message = $"{fault} ({Client.Keys.TakeBack.Shown} takes it back, {Client.Keys.Confirm.Shown} keeps it if it is right)";
    }

    private void TakeBack()
    {
        var id = _looks.LastId!;
        if (!_looks.LastSent)
        {
            _looks.Remove(id);
            return;
        }
        Fetch(ct => Desk.Calls.Ask(api => api.TakeBackLeakReading(_run!.Entry.Id, id, ct)), Took);
    }

    private void Finish() => Fetch(ct => Desk.Calls.Ask(api => api.FinishLeakDown(_run!.Entry.Id, ct)), _ =>
    {
        _ended = true;
        Desk.BackTo(screen => screen is LikelyScreen or RecordScreen, $"{check.Title}: {_looks.Standing.Count} looks are one finding now.");
    });
}
