using FuelHistory.Client.Api;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>One look at the gauge, with an id of this client's making: however often it is sent, it is taken once.</summary>
internal sealed record Glance(string Id, double Minutes, Measured Pressure, bool Confirmed = false);

/// <summary>A leak-down while it is watched. What is entered stands at once; it goes to the server in order, again and again until
/// the server answers.</summary>
internal sealed class LeakRun(Desk desk, string complaintId, CheckView check, string unit, string? instrument)
{
    private readonly List<Glance> _own = [];
    private readonly List<Step> _waiting = [];
    private readonly HashSet<string> _undone = [], _tried = [];
    private bool _sending, _scheduled, _beginMayHaveArrived;
    private int _misses;

    public CheckView Check { get; } = check;

    public string Unit { get; } = unit;

    public string ComplaintId { get; } = complaintId;

    /// <summary>Null until the server has begun it.</summary>
    public string? Id { get; private set; }

    public DateTimeOffset? StoppedAt { get; private set; }

    public LeakDownView? View { get; private set; }

    /// <summary>Entries that the server has not heard yet.</summary>
    public int Waiting => _waiting.Count;

    /// <summary>Whether the last try brought no answer.</summary>
    public bool Silent => _misses > 0;

    /// <summary>A look that the server finds implausible, until it is confirmed or dropped.</summary>
    public Glance? Doubted { get; private set; }

    /// <summary>Looks that stand, heard by the server or not, in the order of time.</summary>
    public IReadOnlyList<Glance> Standing =>
    [
        .. (View?.Readings ?? []).Where(each => each.TakenBack is null).Select(each => new Glance(each.Id, each.Minutes, each.Pressure))
            .Concat(_own).DistinctBy(each => each.Id).Where(each => !_undone.Contains(each.Id)).OrderBy(each => each.Minutes),
    ];

    /// <summary>Whether the server's words are about all that stands.</summary>
    public bool UpToDate => Waiting == 0;

    /// <summary>One that was begun before, here or elsewhere.</summary>
    public static LeakRun Of(Desk desk, LeakDown begun, CheckView check) =>
        new(desk, begun.ComplaintId, check, begun.Unit, begun.Instrument) { Id = begun.Entry.Id, StoppedAt = begun.StoppedAt };

    public void Stop(DateTimeOffset at)
    {
        StoppedAt = at;
        Enqueue(new Begin(new NewLeakDown(Check.Id, at, Unit, instrument)));
    }

    public void Take(DateTimeOffset at, double pressure)
    {
        Doubted = null;
        Glance glance = new(Guid.CreateVersion7().ToString("N"), Math.Round((at - StoppedAt!.Value).TotalMinutes, 4), new Measured(pressure, Unit));
        _own.Add(glance);
        Enqueue(new Put(glance));
    }

    public void Confirm()
    {
        var sure = Doubted! with { Confirmed = true };
        Doubted = null;
        _own.Add(sure);
        Enqueue(new Put(sure));
    }

    /// <summary>Undoes the newest look; one that was never sent is just forgotten.</summary>
    public void TakeBackLast()
    {
        if (Doubted is not null) { Doubted = null; return; }
        var last = Standing[^1];
        _undone.Add(last.Id);
        if (!_tried.Contains(last.Id) && _waiting.RemoveAll(step => step is Put put && put.Glance.Id == last.Id) > 0) return;
        Enqueue(new Undo(last.Id));
    }

    public void Seen(LeakDownView view) => View = view;

    private void Enqueue(Step step)
    {
        _waiting.Add(step);
        Next();
    }

    /// <summary>Sends what waits first, where nothing is under way.</summary>
    public void Next()
    {
        if (_sending || _waiting.Count == 0) return;
        _sending = true;
        switch (_waiting[0])
        {
            case Begin begin: Send(() => BeginOnce(begin.Body), begun => Id = begun.Entry.Id); break;
            case Put put:
                _tried.Add(put.Glance.Id);
                Send(() => desk.Calls.Ask(api => api.AddLeakReadings(Id!, new([new(put.Glance.Pressure, put.Glance.Minutes, Id: put.Glance.Id, Confirmed: put.Glance.Confirmed)]), CancellationToken.None)), Seen);
                break;
            case Undo undo: Send(() => desk.Calls.Ask(api => api.TakeBackLeakReading(Id!, undo.Reading, CancellationToken.None)), Seen); break;
            default: throw new InvalidOperationException("an entry of a leak-down is one of three");
        }
    }

    /// <summary>A beginning carries no id of ours: where it may have arrived, the server is asked before it is sent again.</summary>
    private async Task<Answer<LeakDown>> BeginOnce(NewLeakDown body)
    {
        if (!_beginMayHaveArrived) return await Post(body);
        return await (await desk.Calls.Ask(api => api.LeakDowns(ComplaintId, CancellationToken.None)))
            .Then(async known => known.FirstOrDefault(each => each.Check == body.Check && (each.StoppedAt - body.StoppedAt).Duration() < TimeSpan.FromSeconds(1)) is { } there ? new Got<LeakDown>(there) : await Post(body));
    }

    private Task<Answer<LeakDown>> Post(NewLeakDown body) => desk.Calls.Ask(api => api.BeginLeakDown(ComplaintId, body, CancellationToken.None));

    private void Send<T>(Func<Task<Answer<T>>> call, Action<T> got) =>
        desk.Call(call, answer =>
        {
            _sending = false;
            Hear(answer, got);
            desk.Redraw();
        });

    private void Hear<T>(Answer<T> answer, Action<T> got)
    {
        if (answer is Unreachable<T> gone)
        {
            if (_waiting[0] is Begin) _beginMayHaveArrived |= gone.MayHaveArrived;
            if (!gone.MayHaveArrived) desk.Server.Silent(gone.Why, desk.Clock.GetLocalNow());
            _misses++;
            if (!_scheduled) desk.Loop.Later(Watch.Pause(_misses, 0), () => { _scheduled = false; Next(); });
            _scheduled = true;
            return;
        }
        _misses = 0;
        desk.Server.Answered();
        var step = _waiting[0];
        _waiting.RemoveAt(0);
        if (answer is Got<T> value) got(value.Value);
        if (answer is Refused<T> no) Refuse(step, no.Problem);
        Next();
    }

    private void Refuse(Step step, Problem problem)
    {
        var detail = problem.Errors is [var fault, ..] ? fault.Detail : problem.Detail;
        if (step is Begin)
        {
            // nothing that follows can be stored
            StoppedAt = null;
            _waiting.Clear();
            _own.Clear();
        }
        if (step is Put put)
        {
            _own.RemoveAll(each => each.Id == put.Glance.Id);
            if (problem.Errors?.Any(each => each.Code == Problems.Implausible) is true && !_undone.Contains(put.Glance.Id)) Doubted = put.Glance;
        }
        // a look that never arrived needs no undoing
        if (step is not Undo || problem.Code != Problems.NotFound) desk.Message = $"Not stored: {detail}";
    }

    private abstract record Step;

    private sealed record Begin(NewLeakDown Body) : Step;

    private sealed record Put(Glance Glance) : Step;

    private sealed record Undo(string Reading) : Step;
}
