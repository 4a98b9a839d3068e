using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>All checks of the vehicle's fault model; with advice the ones that tell most come first.</summary>
internal sealed class ChecksScreen(Desk desk, Vehicle vehicle, Complaint? complaint, Advice? advice)
    : NarrowedScreen<CheckView>(desk, check => new NamedThing(check.Id, check.Title))
{
    private Advice? _advice = advice;
    private bool _loaded, _openWhenLoaded;

    public override string Title => complaint is null ? $"Checks: {vehicle.Name}" : $"Checks: {complaint.Title}";

    public override bool Loaded => _loaded;

    /// <summary>Once Enter was pressed, what follows is meant for the check that it opens.</summary>
    public override Typing? Typing => _openWhenLoaded ? null : base.Typing;

    public override IReadOnlyList<Bound> Keys =>
    [
        new(Client.Keys.Open, OpenCheck, () => _openWhenLoaded ? "the list is not loaded" : Loaded && Rows == 0 ? "nothing fits what was typed" : null),
    ];

    public override IReadOnlyList<Line> Lines(int width, int height) =>
        Listing.Below([PickLines.Filter], _loaded ? CheckLines.List(Fitting, _advice, width, Signs) : WaitLines.Of(Trouble, width));

    // what is worth most hangs on what is known: it is asked for again where something was entered meanwhile
    public override void Load() => FetchShown(async ct => await (await Desk.Knowledge.Model(vehicle.System, ct)).Then(model => Order(model, ct)), known =>
    {
        (_advice, _loaded) = (known.Advice, true);
        Narrowed.All = InOrder(known.Model.Checks);
        var open = _openWhenLoaded && Desk.Top == this;
        _openWhenLoaded = false;
        if (open && Rows > 0) OpenCheck();
        // nothing fits: what was typed for the check must not narrow the list
        else if (open) Desk.Ahead.Drop();
    });

    private async Task<Answer<(FaultModelView Model, Advice? Advice)>> Order(FaultModelView model, CancellationToken ct) => Stale && _advice is not null
        ? (await Desk.Calls.Ask(api => api.Advice(complaint!.Entry.Id, null, null, ct))).As(now => (model, (Advice?)now))
        : new Got<(FaultModelView, Advice?)>((model, _advice));

    private List<CheckView> InOrder(IReadOnlyList<CheckView> checks)
    {
        var order = _advice?.NextChecks.Select((next, place) => (next.Check, place)).ToDictionary() ?? [];
        return [.. checks.OrderBy(check => order.GetValueOrDefault(check.Id, int.MaxValue))];
    }

    private void OpenCheck()
    {
        if (!Loaded)
        {
            _openWhenLoaded = true;
            return;
        }
        var check = Fitting[Row];
        Desk.Open(new CheckScreen(Desk, vehicle, complaint, check.Id, _advice?.NextChecks.FirstOrDefault(next => next.Check == check.Id), style: _advice?.Figures ?? PlainFigures.Words));
    }
}

/// <summary>Steps and cautions of one check; then its outcome is entered. Tried: what stands in the form beforehand.</summary>
internal sealed class CheckScreen(Desk desk, Vehicle vehicle, Complaint? complaint, string checkId, NextCheck? next, NewFinding? tried = null, string style = PlainFigures.Words) : Screen(desk)
{
    private CheckView? _check;
    private FaultModelView? _model;
    private IReadOnlyList<Limit> _limits = [];

    public override string Title => _check is null ? "Check" : $"Check: {_check.Title}";

    public override bool Loaded => _check is not null;

    public override IReadOnlyList<Bound> Keys =>
    [
        new(Client.Keys.Outcome, Enter, () => Loaded ? null : "the check is not loaded"),
        new(Client.Keys.WatchLive, Watch, WhyNotWatch),
        new(Client.Keys.Limits, () => Desk.Open(new LimitsScreen(Desk, vehicle, _check)), WhyNoLimits),
    ];

    private void Watch() => Desk.Open(new WaitScreen<LeakSetting>(Desk, _check!.Title, ct => LeakStart.Load(Desk, complaint!.Entry.Id, ct), at => LeakStart.Open(Desk, complaint!, _check!, at)));

    private string? WhyNoLimits() => _check is null ? "the check is not loaded" : _check.Kind is "measurement" or "leak-down" ? null : "nothing is measured here";

    private string? WhyNotWatch() => _check is null ? "the check is not loaded" : _check.Kind is not "leak-down" ? "no pressure is watched here"
        : complaint is null ? "a leak-down belongs to an open complaint" : null;

    public override IReadOnlyList<Line> Lines(int width, int height) =>
        _check is null ? WaitLines.Of(Trouble, width) : CheckLines.Of(_check, next, _model?.Tools ?? [], width, Signs, LimitLines.InForce(_limits, checkId), style);

    public override void Load()
    {
        Fetch(ct => Desk.Knowledge.Model(vehicle.System, ct), model => (_model, _check) = (model, model.Checks.FirstOrDefault(check => check.Id == checkId)));
        Shown();
    }

    // a limit may have been taken while this screen was covered
    public override void Shown() => Fetch(ct => Desk.Calls.Ask(api => api.Limits(vehicle.Entry.Id, ct)), limits => _limits = limits);

    /// <summary>Once the outcome is saved the question is answered: back to where it was asked.</summary>
    private void Enter() => OpenForm(
        ct => complaint is null ? FormSource.Vehicle(Desk.Calls, Desk.Clock, vehicle.Entry.Id, ct) : FormSource.Complaint(Desk.Calls, Desk.Clock, complaint.Entry.Id, ct),
        data => tried is null ? FindingForms.Check(data, _check!) : FindingForms.Check(data, _check!).WithFinding(tried),
        sentence => Desk.BackTo(screen => screen is LikelyScreen or RecordScreen, sentence));
}
