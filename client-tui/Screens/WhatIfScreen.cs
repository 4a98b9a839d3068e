using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>What one finding less, or something not done yet, would change. Nothing is stored from here.</summary>
internal sealed class WhatIfScreen(Desk desk, Complaint complaint, Assessment assessment, Advice? advice) : Screen(desk)
{
    private readonly Switches _switches = new();
    private FormData? _data;
    private WhatIfAnswer? _answer;
    private bool _asking;

    public override string Title => $"What if: {complaint.Title}";

    public override bool Loaded => _data is not null;

    public override int Rows => _switches.All.Count;

    private Switched? Marked => Row < Rows ? _switches.All[Row] : null;

    public override IReadOnlyList<Bound> Keys =>
    [
        new(Client.Keys.Switch, Turn, () => Marked is null ? "nothing is recorded or tried" : null),
        new(Client.Keys.Try, Pick, WhyNotLoaded),
        new(Client.Keys.Record, Record, WhyNotRecord),
        new(Client.Keys.AsRecorded, Forget, () => _switches.Unchanged ? "everything counts as recorded" : null),
    ];

    public override IReadOnlyList<Line> Lines(int width, int height) =>
        _data is null ? WaitLines.Of(Trouble, width) : WhatIfLines.Of(_switches.All, Row, _answer, _asking, width, height, Signs);

    public override void Load() => FetchShown(
        async ct => await (await FormSource.Complaint(Desk.Calls, Desk.Clock, complaint.Entry.Id, ct))
            .Then(async data => (await Desk.Calls.Ask(api => api.Record(data.Vehicle!.Entry.Id, ct))).As(record => (data, record))),
        loaded =>
        {
            _data = loaded.data;
            _switches.Take(loaded.record, complaint.Entry.Id, Doubted());
            Row = Math.Clamp(Row, 0, Math.Max(0, Rows - 1));
            Ask();
        });

    /// <summary>The findings that do not fit, each with its partner, and those that cannot be true together.</summary>
    private HashSet<string> Doubted() =>
        [.. assessment.Contradicting, .. Disagreeing.Conflicts(assessment).SelectMany(each => new[] { each.Finding, each.With }).OfType<string>()];

    private void Ask()
    {
        _asking = true;
        var body = _switches.Ask();
        FetchNewest(ct => Desk.Calls.Ask(api => api.WhatIf(complaint.Entry.Id, body, ct)), answer => (_answer, _asking) = (answer, false), Refused);
    }

    private void Refused(Problem problem)
    {
        (_answer, _asking) = (null, false);
        Desk.Message = $"{problem.Title}: {string.Join(" ", (problem.Errors ?? []).Select(fault => fault.Detail).DefaultIfEmpty(problem.Detail))}";
    }

    private void Turn()
    {
        _switches.Turn(Marked!);
        Ask();
    }

    private void Forget()
    {
        _switches.Forget();
        Row = 0;
        Ask();
    }

    private void Try(Trial trial)
    {
        _switches.Try(trial, Figures.Day(Desk.Clock.GetLocalNow()));
        Row = 0;
        Ask();
    }

    private void Pick()
    {
        var all = TrialList.Of(_data!.Model!, Advised);
        Desk.Open(new PickScreen(Desk, all, () => Picked(all.Id!)));
    }

    private void Picked(string id)
    {
        var (model, now) = (_data!.Model!, Desk.Clock.GetLocalNow());
        if (TrialList.Part(model, id) is { } work) Try(Trial.OfWork(work.Part, work.Action, DateOnly.FromDateTime(now.DateTime), now));
        if (TrialList.Event(model, id) is { } told)
            PickOne(told.Title, ChoiceField.Words("present", "absent"), answer => Try(Trial.OfAnswer(told, answer.Id, now)));
        if (TrialList.Check(model, id) is not { } check) return;
        if (check.Kind is not "measurement" && FindingForms.Outcomes(check) is { Count: > 0 } outcomes) PickOne(check.Title, outcomes, outcome => Try(Trial.OfOutcome(check, outcome, now)), Foreseen(check));
        else TryReading(check);
    }

    /// <summary>By the newest answer there is.</summary>
    private IReadOnlyList<NextCheck> Advised => _answer?.Advice.NextChecks ?? advice?.NextChecks ?? [];

    private void PickOne(string title, IReadOnlyList<NamedThing> items, Action<NamedThing> taken, IReadOnlyDictionary<string, string>? details = null)
    {
        PickField pick = new("outcome", $"Try: {title}", "", items, details: details);
        Desk.Open(new PickScreen(Desk, pick, () => taken(items.First(item => item.Id == pick.Id))));
    }

    private Dictionary<string, string>? Foreseen(CheckView check) =>
        Advised.FirstOrDefault(next => next.Check == check.Id)?.Outcomes.ToDictionary(outcome => outcome.Outcome, outcome => LikelyLines.Outcome(outcome, advice?.Figures ?? PlainFigures.Words));

    /// <summary>The host judges the value now, so that a slip is told at its field.</summary>
    private void TryReading(CheckView check)
    {
        Trial? tried = null;
        async Task<Answer<Stored>> Save(NewFinding body, CancellationToken ct)
        {
            tried = new Trial($"{check.Title}: {(body.Reading is null ? "" : Figures.Of(body.Reading))}", body);
            var answer = await Desk.Calls.Ask(api => api.WhatIf(complaint.Entry.Id, Trial.Ask([tried], []), ct)).ConfigureAwait(false);
            return answer is Refused<WhatIfAnswer> no ? new Refused<Stored>(Trial.AtItsFields(no.Problem)) : answer.As(_ => new Stored(""));
        }
        Desk.Open(new FormScreen(Desk, FindingForms.Check(_data!, check, $"Try, nothing is stored: {check.Title}", Save), _ =>
        {
            Desk.Back();
            Try(tried!);
        }));
    }

    private string? WhyNotLoaded() => _data is null ? "it is not loaded" : null;

    private string? WhyNotRecord() => Marked switch
    {
        null => "nothing is marked",
        { Trial: null } => "this is recorded already",
        _ when complaint.Closed is not null => "the complaint is closed",
        _ => null,
    };

    /// <summary>A check goes by its steps and cautions: trying needs no petrol, doing does.</summary>
    private void Record()
    {
        var (trial, data) = (Marked!.Trial!, _data!);
        if (trial.Finding is { Check: { } check } finding)
            Desk.Open(new CheckScreen(Desk, data.Vehicle!, complaint, check, Advised.FirstOrDefault(next => next.Check == check), finding, advice?.Figures ?? PlainFigures.Words));
        else
            OpenForm(ct => FormSource.Complaint(Desk.Calls, Desk.Clock, complaint.Entry.Id, ct),
                fresh => trial.Work is { } work ? VehicleForms.Work(fresh).WithWork(work with { At = null }) : FindingForms.Event(fresh).WithFinding(trial.Finding!),
                sentence => Desk.BackTo(screen => screen is LikelyScreen, sentence));
    }
}
