using System.Text.Json.Serialization;
using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>One look at the gauge, with an id of this client's making: however often it is sent, it is taken once.</summary>
internal sealed record Glance(string Id, double Minutes, Measured Pressure, bool Confirmed = false);

[JsonConverter(typeof(JsonStringEnumConverter<LeakStepKind>))]
internal enum LeakStepKind { Begin, Put, Undo, Describe }

/// <summary>Something that the server is to hear. Glance: to put; Reading: to undo.</summary>
internal sealed record LeakStep(LeakStepKind Kind, Glance? Glance = null, string? Reading = null);

/// <summary>A leak-down while it is watched. What is entered stands at once; it goes to the server in order, again and again until
/// the server answers, and lies in a file as long as it waits.</summary>
internal sealed class LeakRun(Desk desk, string complaintId, CheckView check, string unit, string? instrument)
{
    private readonly List<Glance> _own = [];
    private readonly List<LeakStep> _waiting = [];
    private readonly HashSet<string> _undone = [], _tried = [];
    private bool _sending, _scheduled, _beginMayHaveArrived;
    private int _misses;
    private string _name = Guid.CreateVersion7().ToString("N");

    public CheckView Check { get; } = check;

    public string Unit { get; } = unit;

    /// <summary>Unit of a temperature that is written without one.</summary>
    public string Temperature { get; init; } = "°C";

    public string ComplaintId { get; } = complaintId;

    public LeakDetails Details { get; private set; } = LeakDetails.None;

    /// <summary>Whether what waits outlives this program.</summary>
    public bool Safe { get; private set; }

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
        new(desk, begun.ComplaintId, check, begun.Unit, begun.Instrument)
        {
            Id = begun.Entry.Id,
            StoppedAt = begun.StoppedAt,
            Details = new(begun.Ambient, begun.Fuel, begun.Session, begun.Showed, begun.Note),
        };

    /// <summary>One of which something waited when the program ended. Each of it may have arrived all the same.</summary>
    public static LeakRun Of(Desk desk, string name, KeptRun kept)
    {
        LeakRun run = new(desk, kept.ComplaintId, kept.Check, kept.Unit, kept.Instrument)
        {
            Id = kept.Id,
            StoppedAt = kept.StoppedAt,
            Details = kept.Details,
            Safe = true,
            _name = name,
            _beginMayHaveArrived = true,
        };
        run._waiting.AddRange(kept.Waiting);
        run._own.AddRange(kept.Waiting.Select(step => step.Glance).OfType<Glance>());
        run._tried.UnionWith(run._own.Select(each => each.Id));
        run._undone.UnionWith(kept.Waiting.Select(step => step.Reading).OfType<string>());
        return run;
    }

    public void Stop(DateTimeOffset at)
    {
        StoppedAt = at;
        Enqueue(new(LeakStepKind.Begin));
        // apart from the beginning: a refused note must not take the readings with it
        if (Details != LeakDetails.None) Enqueue(new(LeakStepKind.Describe));
    }

    public void Describe(LeakDetails details)
    {
        if (Details == details) return;
        Details = details;
        // several changes that wait are one
        if (StoppedAt is not null && !_waiting.Skip(_sending ? 1 : 0).Any(step => step.Kind is LeakStepKind.Describe)) Enqueue(new(LeakStepKind.Describe));
        else Keep();
    }

    public void Take(DateTimeOffset at, double pressure)
    {
        Doubted = null;
        Glance glance = new(Guid.CreateVersion7().ToString("N"), Math.Round((at - StoppedAt!.Value).TotalMinutes, 4), new Measured(pressure, Unit));
        _own.Add(glance);
        Enqueue(new(LeakStepKind.Put, glance));
    }

    public void Confirm()
    {
        var sure = Doubted! with { Confirmed = true };
        Doubted = null;
        _own.Add(sure);
        Enqueue(new(LeakStepKind.Put, sure));
    }

    /// <summary>Undoes the newest look; one that was never sent is just forgotten.</summary>
    public void TakeBackLast()
    {
        if (Doubted is not null) { Doubted = null; return; }
        var last = Standing[^1];
        _undone.Add(last.Id);
        if (!_tried.Contains(last.Id) && _waiting.RemoveAll(step => step.Glance?.Id == last.Id) > 0)
        {
            Keep();
            return;
        }
        Enqueue(new(LeakStepKind.Undo, Reading: last.Id));
    }

    public void Seen(LeakDownView view) => View = view;

    private void Enqueue(LeakStep step)
    {
        _waiting.Add(step);
        Keep();
        Next();
    }

    private void Keep()
    {
        if (desk.Kept is { } kept && (StoppedAt is not null || _waiting.Count == 0))
            Safe = kept.Keep(_name, new(kept.Server, ComplaintId, Check, Unit, instrument, Id, StoppedAt ?? default, Details, [.. _waiting]));
    }

    private NewLeakDown Body(LeakDetails about) => new(Check.Id, StoppedAt!.Value, Unit, instrument, about.Ambient, about.Fuel, about.Session, about.Showed, about.Note);

    /// <summary>Sends what waits first, where nothing is under way.</summary>
    public void Next()
    {
        if (_sending || _waiting.Count == 0) return;
        _sending = true;
        var (kind, glance, reading) = _waiting[0];
        switch (kind)
        {
            case LeakStepKind.Begin: Send(BeginOnce, begun => Id = begun.Entry.Id); break;
            case LeakStepKind.Put:
                _tried.Add(glance!.Id);
                Send(() => desk.Calls.Ask(api => api.AddLeakReadings(Id!, new([new(glance.Pressure, glance.Minutes, Id: glance.Id, Confirmed: glance.Confirmed)]), CancellationToken.None)), Seen);
                break;
            case LeakStepKind.Undo: Send(() => desk.Calls.Ask(api => api.TakeBackLeakReading(Id!, reading!, CancellationToken.None)), Seen); break;
            default:
                var body = Body(Details);
                Send(() => desk.Calls.Ask(api => api.CorrectLeakDown(Id!, body, CancellationToken.None)), now => View = View is null ? null : View with { LeakDown = now });
                break;
        }
    }

    /// <summary>A beginning carries no id of ours: where it may have arrived, the server is asked before it is sent again.</summary>
    private async Task<Answer<LeakDown>> BeginOnce()
    {
        var body = Body(LeakDetails.None);
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
            if (_waiting[0].Kind is LeakStepKind.Begin) _beginMayHaveArrived |= gone.MayHaveArrived;
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
        Keep();
        Next();
    }

    private void Refuse(LeakStep step, Problem problem)
    {
        var detail = problem.Errors is [var fault, ..] ? fault.Detail : problem.Detail;
        if (step.Kind is LeakStepKind.Begin)
        {
            // nothing that follows can be stored
            StoppedAt = null;
            _waiting.Clear();
            _own.Clear();
        }
        if (step.Glance is { } glance)
        {
            _own.RemoveAll(each => each.Id == glance.Id);
            if (problem.Errors?.Any(each => each.Code == Problems.Implausible) is true && !_undone.Contains(glance.Id)) Doubted = glance;
        }
        // a look that never arrived needs no undoing
        if (step.Kind is not LeakStepKind.Undo || problem.Code != Problems.NotFound) desk.Message = $"Not stored: {detail}";
    }
}
