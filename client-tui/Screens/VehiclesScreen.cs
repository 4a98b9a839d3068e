using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>The first screen: all vehicles.</summary>
internal sealed class VehiclesScreen(Desk desk) : Screen(desk)
{
    private IReadOnlyList<Vehicle>? _vehicles;

    public override string Title => "Vehicles";

    public override bool Loaded => _vehicles is not null;

    public override int Rows => _vehicles?.Count ?? 0;

    public override IReadOnlyList<Bound> Keys =>
    [
        new(Client.Keys.Open, OpenRecord, () => Rows == 0 ? "there is no vehicle yet" : null),
        new(Client.Keys.Add, AddVehicle, () => Loaded ? null : "the list is not loaded"),
        new(Client.Keys.Instruments, () => Desk.Open(new InstrumentsScreen(Desk))),
        new(Client.Keys.Settings, OpenSettings),
        new(Client.Keys.LeaveList, Desk.End),
    ];

    public override IReadOnlyList<Line> Lines(int width, int height) =>
        _vehicles is null ? WaitLines.Of(Trouble, width) : VehicleLines.Of(_vehicles, width, Signs);

    public override void Load() => Fetch(ct => Desk.Calls.Ask(api => api.Vehicles(ct)), Show);

    private void Show(IReadOnlyList<Vehicle> vehicles)
    {
        _vehicles = vehicles;
        Row = Math.Clamp(Row, 0, Math.Max(0, vehicles.Count - 1));
    }

    private void OpenRecord() => Desk.Open(new RecordScreen(Desk, _vehicles![Row]));

    private void AddVehicle() => OpenForm(ct => FormSource.General(Desk.Calls, Desk.Clock, ct), data => VehicleForms.Vehicle(data));

    private void OpenSettings() => Fetch(
        async ct => await (await FormSource.General(Desk.Calls, Desk.Clock, ct)).Then(async data => (await Tools(data, ct)).As(tools => (data, tools))),
        loaded => Desk.Open(new FormScreen(Desk, BenchForms.Settings(loaded.data, loaded.tools))));

    private Task<Answer<IReadOnlyList<NamedThing>>> Tools(FormData data, CancellationToken ct) => Desk.Knowledge.Tools(data.Systems, ct);
}
