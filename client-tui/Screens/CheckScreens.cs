using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>All checks of the vehicle's fault model; with an assessment the ones that tell most come first.</summary>
internal sealed class ChecksScreen(Desk desk, Vehicle vehicle, Complaint? complaint, Advice? advice) : Screen(desk)
{
    private List<CheckView>? _checks;
    private string _filter = "";
    private bool _openWhenLoaded;

    public override string Title => complaint is null ? $"Checks: {vehicle.Name}" : $"Checks: {complaint.Title}";

    public override bool Loaded => _checks is not null;

    public override int Rows => Fitting.Count;

    /// <summary>From the first moment: what is typed while the list is loading narrows it and means no key.</summary>
    public override Typing? Typing => new(0, PickLines.FilterColumn, 40, _filter, Narrow);

    public override IReadOnlyList<Bound> Keys =>
    [
        new(Client.Keys.Open, OpenCheck, () => Loaded && Rows == 0 ? "nothing fits what was typed" : null),
        new(Client.Keys.Down, () => Go(1)), new(Client.Keys.Up, () => Go(-1)), new(Client.Keys.PageDown, () => Go(10)), new(Client.Keys.PageUp, () => Go(-10)),
    ];

    private List<CheckView> Fitting => [.. (_checks ?? []).Where(check => Names.Fits(new NamedThing(check.Id, check.Title), _filter))];

    public override IReadOnlyList<Line> Lines(int width, int height) =>
        [PickLines.Filter, .. _checks is null ? WaitLines.Of(Trouble, width) : CheckLines.List(Fitting, advice, width, Signs)];

    public override void Load() => Fetch(ct => Desk.Knowledge.Model(vehicle.System, ct), model =>
    {
        _checks = InOrder(model.Checks);
        if (_openWhenLoaded && Rows > 0 && Desk.Top == this) OpenCheck();
        _openWhenLoaded = false;
    });

    private List<CheckView> InOrder(IReadOnlyList<CheckView> checks)
    {
        var order = advice?.NextChecks.Select((next, place) => (next.Check, place)).ToDictionary() ?? [];
        return [.. checks.OrderBy(check => order.GetValueOrDefault(check.Id, int.MaxValue))];
    }

    private void Narrow(string text) => (_filter, Row) = (text.Trim(), 0);

    private void Go(int by) => Row = Math.Clamp(Row + by, 0, Math.Max(0, Rows - 1));

    private void OpenCheck()
    {
        if (!Loaded)
        {
            _openWhenLoaded = true;
            return;
        }
        var check = Fitting[Row];
        Desk.Open(new CheckScreen(Desk, vehicle, complaint, check.Id, advice?.NextChecks.FirstOrDefault(next => next.Check == check.Id), style: advice?.Figures ?? PlainFigures.Words));
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
        new(Client.Keys.WatchLive, () => Fetch(ct => LeakStart.Load(Desk, complaint!.Entry.Id, ct), at => LeakStart.Open(Desk, complaint!, _check!, at)), WhyNotWatch),
        new(Client.Keys.Limits, () => Desk.Open(new LimitsScreen(Desk, vehicle, _check)), WhyNoLimits),
    ];

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
