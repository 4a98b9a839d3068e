using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>What this car should read: its own limits, then those of documents, the nearest car first. With a check only what
/// that check reads.</summary>
internal sealed class LimitsScreen(Desk desk, Vehicle vehicle, CheckView? check)
    : FilteredScreen<LibraryLimit>(desk, each => new NamedThing(each.Id, $"{each.Title} {each.Car} {each.TrustText}"))
{
    private FaultModelView? _model;
    private IReadOnlyList<Limit> _own = [];
    private bool _ofQuantity;

    public override string Title => check is null ? $"Limits for this car: {vehicle.Name}" : $"Limits for this car: {check.Title}";

    public override bool Loaded => _model is not null;

    public override int Rows => _own.Count + Fitting.Count;

    private LibraryLimit? Marked => Row >= _own.Count && Row - _own.Count < Fitting.Count ? Fitting[Row - _own.Count] : null;

    public override IReadOnlyList<Bound> Keys => Filtering ? FilterKeys() :
    [
        new(Client.Keys.Open, OpenOne, () => Rows == 0 ? "nothing is known" : null),
        new(Client.Keys.Adopt, () => Adopt(Marked!), WhyNotAdopt),
        new(Client.Keys.Add, AddOwn, () => Loaded ? null : "the list is not loaded"),
        StartFilter(() => Narrowed.All.Count > 0 ? null : "there is nothing to narrow"),
        EndFilter(),
        new(Client.Keys.LeaveList, Desk.End),
    ];

    private string Heading => check is null || !_ofQuantity ? "From documents and from memory, the nearest car first" : $"None is for just this check; those of its quantity ({check.Quantity})";

    public override IReadOnlyList<Line> Lines(int width, int height)
    {
        if (_model is null) return WaitLines.Of(Trouble, width);
        List<Line> filter = [.. FilterLine()];
        return [.. filter, .. LimitLines.List(_own, Fitting, CheckTitle, Heading, Row, width, height - filter.Count, Signs)];
    }

    public override void Load() => FetchShown(
        async ct => await (await Desk.Knowledge.Model(vehicle.System, ct))
            .Then(async model => await (await Desk.Calls.Ask(api => api.Limits(vehicle.Entry.Id, ct)))
            .Then(async own => (await Found(ct)).As(found => (model, own, found)))),
        loaded =>
        {
            (_model, _ofQuantity) = (loaded.model, loaded.found.OfQuantity);
            _own = [.. loaded.own.Where(each => check is null || each.Check == check.Id)];
            Narrowed.All = loaded.found.Limits;
            Row = Math.Clamp(Row, 0, Math.Max(0, Rows - 1));
        });

    private async Task<Answer<(IReadOnlyList<LibraryLimit> Limits, bool OfQuantity)>> Found(CancellationToken ct)
    {
        var served = await Desk.Calls.Ask(api => api.LimitsLibrary(vehicle.Entry.Id, null, check?.Id, null, ct));
        return await served.Then(async limits => check is null || limits.Count > 0
            ? new Got<(IReadOnlyList<LibraryLimit>, bool)>((limits, false))
            : (await Desk.Calls.Ask(api => api.LimitsLibrary(vehicle.Entry.Id, check.Quantity, null, null, ct))).As(others => (others, true)));
    }

    private string CheckTitle(string id) => _model!.Checks.FirstOrDefault(each => each.Id == id)?.Title ?? id;

    private void OpenOne()
    {
        if (Marked is { } limit) Desk.Open(new LimitScreen(Desk, limit, () => Adopt(limit)));
        else if (_own[Row] is var own) Desk.Open(new TextScreen(Desk, $"Limit: {CheckTitle(own.Check)}", (width, signs) => LimitLines.One(own, CheckTitle(own.Check), width, signs)));
    }

    private void AddOwn() => OpenForm(
        ct => FormSource.Vehicle(Desk.Calls, Desk.Clock, vehicle.Entry.Id, ct),
        data => check is null ? BenchForms.Limit(data) : BenchForms.Limit(data).With("check", check.Id).With("unit", check.Unit));

    private string? WhyNotAdopt() => Marked switch
    {
        null => Rows == 0 ? "nothing is known" : "it is this car's already",
        { NotForJudging: { } why } => why,
        _ => null,
    };

    /// <summary>The check is the one that was asked for, or the only one that reads just this; else it is picked.</summary>
    private void Adopt(LibraryLimit limit)
    {
        if (check is not null) Take(limit, check.Id);
        else if (limit.Checks is [var only]) Take(limit, only);
        else
        {
            var where = string.Join("; ", new[] { limit.Point }.Concat(limit.SetUp).Where(each => each is not null));
            PickField pick = new("check", where.Length > 0 ? $"Which check does it judge? ({where})" : "Which check does it judge?", "", [.. Judged(limit).Select(each => new NamedThing(each.Id, each.Title))]);
            Desk.Open(new PickScreen(Desk, pick, () => Take(limit, pick.Id!)));
        }
    }

    private IEnumerable<CheckView> Judged(LibraryLimit limit) => _model!.Checks.Where(each => limit.Checks.Count > 0 ? limit.Checks.Contains(each.Id) : each.Quantity == limit.Quantity);

    private void Take(LibraryLimit limit, string checkId) => Fetch(
        ct => Desk.Calls.Ask(api => api.AdoptLimit(vehicle.Entry.Id, new Adoption(limit.Id, checkId), ct)),
        taken =>
        {
            Desk.Saved();
            Load();
            Desk.Message = $"Taken for {CheckTitle(checkId)}: {taken.TrustText}. {(_own.Any(each => each.Check == checkId && each.Trust is "own") ? "Your own entry goes before it." : "")}".TrimEnd();
        },
        problem => Desk.Message = problem.Errors is [var fault, ..] ? fault.Detail : problem.Detail);
}

/// <summary>All of one limit of a document.</summary>
internal sealed class LimitScreen(Desk desk, LibraryLimit limit, Action adopt) : Screen(desk)
{
    public override string Title => $"Limit: {limit.Title}";

    public override IReadOnlyList<Bound> Keys => [new(Client.Keys.Adopt, Adopt, () => limit.NotForJudging)];

    public override IReadOnlyList<Line> Lines(int width, int height) => LimitLines.One(limit, width, Signs);

    private void Adopt()
    {
        Desk.Back();
        adopt();
    }
}
