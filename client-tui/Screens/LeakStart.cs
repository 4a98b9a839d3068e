using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>What is known before a leak-down begins: those that still run, the gauges, the unit.</summary>
internal sealed record LeakSetting(IReadOnlyList<LeakDown> Running, IReadOnlyList<Instrument> Gauges, Settings Settings);

/// <summary>The way into a leak-down: one that still runs, or a new one and its gauge. What has only one answer is not asked.</summary>
internal static class LeakStart
{
    private const string New = "new", NoGauge = "none", Local = "local";

    public static async Task<Answer<LeakSetting>> Load(Desk desk, string complaintId, CancellationToken ct) =>
        await (await desk.Calls.Ask(api => api.LeakDowns(complaintId, ct)))
            .Then(async all => await (await desk.Calls.Ask(api => api.Instruments(ct)))
            .Then(async gauges => (await desk.Calls.Ask(api => api.Settings(ct))).As(settings => new LeakSetting(
                [.. all.Where(each => each.State is "running")],
                [.. gauges.Where(each => each.Quantity is "pressure" && each.Entry.VoidReason is null)], settings))));

    public static void Open(Desk desk, Complaint complaint, CheckView check, LeakSetting at)
    {
        var unsent = desk.Runs.FirstOrDefault(run => run.Id is null && run.StoppedAt is not null && run.Check.Id == check.Id && run.ComplaintId == complaint.Entry.Id);
        List<NamedThing> running =
        [
            .. unsent is null ? [] : new NamedThing[] { new(Local, $"Go on with the one of {Figures.Moment(unsent.StoppedAt!.Value)}; the server has not heard of it yet") },
            .. at.Running.Where(each => each.Check == check.Id).Select(each => new NamedThing(each.Entry.Id, $"Go on with the one of {Figures.Moment(each.StoppedAt)}; readings: {each.Readings}")),
        ];
        if (running.Count == 0) { AskGauge(desk, complaint, check, at); return; }
        PickField pick = new("run", "A leak-down still runs", "", [.. running, new(New, "Begin a new one")]);
        desk.Open(new PickScreen(desk, pick, () =>
        {
            if (pick.Id is New) AskGauge(desk, complaint, check, at);
            else Show(desk, pick.Id is Local ? unsent! : Resume(desk, at.Running.First(each => each.Entry.Id == pick.Id), check));
        }));
    }

    private static LeakRun Resume(Desk desk, LeakDown begun, CheckView check) => desk.Runs.FirstOrDefault(run => run.Id == begun.Entry.Id) ?? LeakRun.Of(desk, begun, check);

    private static void AskGauge(Desk desk, Complaint complaint, CheckView check, LeakSetting at)
    {
        var unit = check.Quantity is { } quantity && at.Settings.Units.TryGetValue(quantity, out var wished) ? wished : check.Unit ?? "bar";
        void Begin(Instrument? gauge) => Show(desk, new LeakRun(desk, complaint.Entry.Id, check, gauge?.Unit ?? unit, gauge?.Entry.Id) { Temperature = at.Settings.Units.GetValueOrDefault("temperature", "°C") });
        if (at.Gauges.Count <= 1) { Begin(at.Gauges.Count > 0 ? at.Gauges[0] : null); return; }
        PickField pick = new("instrument", "Which gauge is read?", "", [.. at.Gauges.Select(each => new NamedThing(each.Entry.Id, each.Name)), new(NoGauge, "none of these")]);
        desk.Open(new PickScreen(desk, pick, () => Begin(at.Gauges.FirstOrDefault(each => each.Entry.Id == pick.Id))));
    }

    private static void Show(Desk desk, LeakRun run)
    {
        if (!desk.Runs.Contains(run)) desk.Runs.Add(run);
        desk.Open(new LeakDownScreen(desk, run));
    }
}
