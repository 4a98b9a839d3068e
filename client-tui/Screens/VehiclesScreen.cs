using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>The first screen: all vehicles, or those that fit what was typed.</summary>
internal sealed class VehiclesScreen(Desk desk) : Screen(desk)
{
    private IReadOnlyList<Vehicle>? _vehicles;
    private string _filter = "";
    private bool _filtering, _archived;

    public override string Title => "Vehicles";

    public override bool Loaded => _vehicles is not null;

    public override int Rows => Fitting.Count;

    public override Typing? Typing => _filtering ? new(0, PickLines.FilterColumn, 40, _filter, Narrow) : null;

    private IReadOnlyList<Vehicle> Fitting => [.. (_vehicles ?? []).Where(each => Names.Fits(new NamedThing(each.Year, $"{each.Name} {each.System}"), _filter))];

    public override IReadOnlyList<Bound> Keys => _filtering ? FilterKeys() :
    [
        new(Client.Keys.Open, () => Desk.Open(new RecordScreen(Desk, Fitting[Row])), WhyNone),
        new(Client.Keys.Add, AddVehicle, () => Loaded ? null : "the list is not loaded"),
        new(Client.Keys.Correct, Correct, WhyNone),
        new(Client.Keys.Archive, Archive, () => WhyNone() ?? (Fitting[Row].Archived ? "it is archived already" : null)),
        new(Client.Keys.Archived, ShowArchived),
        new(Client.Keys.Filter, () => _filtering = true, () => _vehicles is { Count: > 0 } ? null : "there is no vehicle yet"),
        new(Client.Keys.ShowAll, ShowAll, () => _filter.Length > 0 ? null : "all lines are shown"),
        new(Client.Keys.Instruments, () => Desk.Open(new InstrumentsScreen(Desk))),
        new(Client.Keys.Settings, OpenSettings),
        new(Client.Keys.LeaveList, Desk.End),
    ];

    public override IReadOnlyList<Line> Lines(int width, int height) =>
        _vehicles is null ? WaitLines.Of(Trouble, width) : [.. FilterLine(), .. VehicleLines.Of(Fitting, width, Signs, _vehicles.Count)];

    public override void Load() => Fetch(ct => Desk.Calls.Ask(api => api.Vehicles(_archived ? "true" : null, ct)), Show);

    private IReadOnlyList<Bound> FilterKeys() =>
    [
        new(Client.Keys.FilterDone, () => _filtering = false), new(Client.Keys.ShowAll, ShowAll),
        new(Client.Keys.Down, () => Go(1)), new(Client.Keys.Up, () => Go(-1)),
    ];

    private IEnumerable<Line> FilterLine() => _filtering ? [PickLines.Filter]
        : _filter.Length > 0 ? [Line.Of($"  Only those with \"{Clean.Of(_filter, Signs)}\"; {Client.Keys.ShowAll.Shown} shows all.", Role.Faint)] : [];

    private void ShowArchived()
    {
        _archived = !_archived;
        Load();
    }

    private void Narrow(string text) => (_filter, Row) = (text.Trim(), 0);

    private void ShowAll() => (_filter, _filtering, Row) = ("", false, 0);

    private void Go(int by) => Row = Math.Clamp(Row + by, 0, Math.Max(0, Rows - 1));

    private string? WhyNone() => Rows > 0 ? null : _filter.Length > 0 ? "nothing fits what was typed" : "there is no vehicle yet";

    private void Show(IReadOnlyList<Vehicle> vehicles)
    {
        _vehicles = vehicles;
        Row = Math.Clamp(Row, 0, Math.Max(0, Rows - 1));
    }

    private void AddVehicle() => OpenForm(General, data => VehicleForms.Vehicle(data));

    private void Correct()
    {
        var id = Fitting[Row].Entry.Id;
        Fetch(ct => new Correcting(Desk.Calls, Desk.Clock, ct).Form("vehicle", id), form => Desk.Open(new FormScreen(Desk, form)));
    }

    private void Archive()
    {
        var vehicle = Fitting[Row];
        OpenForm(General, data => VehicleForms.Archive(data, vehicle.Entry.Id, vehicle.Name));
    }

    private void OpenSettings() => Fetch(
        async ct => await (await General(ct)).Then(async data => (await Tools(data, ct)).As(tools => (data, tools))),
        loaded => Desk.Open(new FormScreen(Desk, BenchForms.Settings(loaded.data, loaded.tools))));

    private Task<Answer<FormData>> General(CancellationToken ct) => FormSource.General(Desk.Calls, Desk.Clock, ct);

    private Task<Answer<IReadOnlyList<NamedThing>>> Tools(FormData data, CancellationToken ct) => Desk.Knowledge.Tools(data.Systems, ct);
}
