using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>What is most likely wrong now, why, and which check to do next.</summary>
internal sealed class LikelyScreen(Desk desk, Complaint complaint) : Screen(desk)
{
    private Complaint _complaint = complaint;
    private Vehicle? _vehicle;
    private Assessment? _assessment;
    private Advice? _advice;

    public override string Title => $"Likely now: {_complaint.Title}" + (_vehicle is null ? "" : $" ({_vehicle.Name})");

    public override bool Loaded => _assessment is not null;

    public override int Rows => _assessment?.Ranking.Count ?? 0;

    private NextCheck? Next => _advice?.NextChecks.Count > 0 ? _advice.NextChecks[0] : null;

    public override IReadOnlyList<Bound> Keys =>
    [
        new(Client.Keys.OpenCheck, OpenNext, () => NotAdvised ?? (Next is null ? "no check is left that tells more" : null)),
        new(Client.Keys.Why, OpenWhy, () => Outdated ?? (Rows == 0 ? "nothing is ranked" : null)),
        new(Client.Keys.Checks, () => Desk.Open(new ChecksScreen(Desk, _vehicle!, Open, _advice)), () => _vehicle is null || Stale ? Outdated : null),
        new(Client.Keys.Plan, () => Desk.Open(new TextScreen(Desk, "Repair plan", PlanText)), () => NotAdvised ?? (_advice?.Plan is null ? "there is no plan" : null)),
        new(Client.Keys.WhatIf, () => Desk.Open(new WhatIfScreen(Desk, _complaint, _assessment!, _advice)), () => Outdated),
        new(Client.Keys.AddAnswer, () => Enter(data => FindingForms.Event(data)), WhyClosed),
        new(Client.Keys.AddSeen, () => Enter(data => FindingForms.Seen(data)), WhyClosed),
        new(Client.Keys.AddWork, () => Enter(data => VehicleForms.Work(data))),
        new(Client.Keys.Limits, () => Desk.Open(new LimitsScreen(Desk, _vehicle!, null)), () => _vehicle is null ? "it is not loaded" : null),
        new(Client.Keys.Study, OpenStudy, () => _vehicle is null || Rows == 0 ? "nothing is ranked" : null),
        new(Client.Keys.SetAside, () => Enter(data => SetAsideForms.SetAside(data, Next)), () => Next is null ? "no check is proposed" : WhyClosed()),
        new(Client.Keys.Close, () => Enter(ComplaintForms.Close), WhyClosed),
    ];

    /// <summary>Why nothing is opened from what is shown: there is nothing yet, or something was entered since.</summary>
    private string? Outdated => !Loaded ? "it is not loaded" : Stale ? "it is being worked out again" : null;

    /// <summary>Why nothing is opened from the advice, which comes after the ranking.</summary>
    private string? NotAdvised => Outdated ?? (_advice is null ? "the advice is not loaded" : null);

    /// <summary>The advice too is waited for: no key for it is lost while it is being worked out.</summary>
    public override bool Holds => base.Holds || Pending > 0 && _advice is null;

    private Complaint? Open => _complaint is { Closed: null, Entry.VoidReason: null } ? _complaint : null;

    public override IReadOnlyList<Line> Lines(int width, int height) =>
        _assessment is null ? WaitLines.Of(Trouble, width) : LikelyLines.Of(_assessment, _advice, _complaint, Row, width, height, Signs);

    /// <summary>The complaint comes first: whether it is closed must not wait for the computation.</summary>
    public override void Load() => FetchNewest(LoadComplaint, loaded =>
    {
        (_complaint, _vehicle) = loaded;
        FetchShown(ct => Desk.Calls.Ask(api => api.Assessment(_complaint.Entry.Id, null, null, "all", ct)), Show);
    });

    public override void Shown() => Load();

    private async Task<Answer<(Complaint, Vehicle)>> LoadComplaint(CancellationToken ct) =>
        await (await Desk.Calls.Ask(api => api.Complaint(_complaint.Entry.Id, ct)))
            .Then(async known => (await Desk.Calls.Ask(api => api.Vehicle(known.VehicleId, ct))).As(vehicle => (known, vehicle)));

    private void Show(Assessment assessment)
    {
        KeepMark(_assessment?.Ranking, assessment.Ranking, ranked => ranked.Component);
        _assessment = assessment;
        _advice = null;
        FetchNewest(ct => Desk.Calls.Ask(api => api.Advice(_complaint.Entry.Id, null, null, ct)), advice => _advice = advice);
    }

    private string? WhyClosed() => Open is null ? "the complaint is closed" : null;

    private void OpenWhy()
    {
        var ranked = _assessment!.Ranking[Row];
        Desk.Open(new TextScreen(Desk, $"Why: {ranked.Title}", (width, signs) => WhyLines.Full(_assessment, ranked, width, signs)));
    }

    private void OpenStudy() => Desk.Open(new StudyScreen(Desk, _vehicle!.System, _assessment!.Ranking[Row].Component));

    private void OpenNext()
    {
        var next = Next!;
        if (next.Trial) Enter(data => FindingForms.Trial(data, next.Check));
        else Desk.Open(new CheckScreen(Desk, _vehicle!, Open, next.Check, next, style: _advice?.Figures ?? PlainFigures.Words));
    }

    private IReadOnlyList<Line> PlanText(int width, Signs signs) => PlanLines.Of(_assessment!, _advice!, width, signs);

    private void Enter(Func<FormData, Form> form) => OpenForm(ct => FormSource.Complaint(Desk.Calls, Desk.Clock, _complaint.Entry.Id, ct), form);
}
