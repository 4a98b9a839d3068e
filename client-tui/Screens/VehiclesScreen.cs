using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>The first screen: all vehicles, or those that fit what was typed.</summary>
internal sealed class VehiclesScreen(Desk desk) : FilteredScreen<Vehicle>(desk, each => new NamedThing(each.Year, $"{each.Name} {each.System}"))
{
    private IReadOnlyList<Vehicle>? _vehicles;
    private bool _archived;

    public override string Title => "Vehicles";

    public override bool Loaded => _vehicles is not null;

    public override IReadOnlyList<Bound> Keys => Filtering ? FilterKeys() :
    [
        new(Client.Keys.Open, () => Desk.Open(new RecordScreen(Desk, Fitting[Row])), WhyNone),
        new(Client.Keys.Add, AddVehicle, () => Loaded ? null : "the list is not loaded"),
        new(Client.Keys.Correct, Correct, WhyNone),
        new(Client.Keys.Archive, Archive, () => WhyNone() ?? (Fitting[Row].Archived ? "it is archived already" : null)),
        new(Client.Keys.Archived, ShowArchived),
        StartFilter(() => _vehicles is { Count: > 0 } ? null : "there is no vehicle yet"),
        EndFilter(),
        new(Client.Keys.Instruments, () => Desk.Open(new InstrumentsScreen(Desk))),
        new(Client.Keys.Settings, OpenSettings),
        new(Client.Keys.LeaveList, Desk.End),
    ];

    public override IReadOnlyList<Line> Lines(int width, int height) =>
        _vehicles is null ? WaitLines.Of(Trouble, width) : Listing.Below(FilterLine(), VehicleLines.Of(Fitting, width, Signs, _vehicles.Count));

    public override void Load() => FetchShown(ct => Desk.Calls.Ask(api => api.Vehicles(_archived ? "true" : null, ct)), Show);

    private void ShowArchived()
    {
        _archived = !_archived;
        Load();
    }

    private string? WhyNone() => Rows > 0 ? null : !Loaded ? "the list is not loaded" : Narrowed.Narrows ? "nothing fits what was typed" : "there is no vehicle yet";

    private void Show(IReadOnlyList<Vehicle> vehicles)
    {
        var was = Fitting;
        Narrowed.All = _vehicles = vehicles;
        KeepMark(was, Fitting, each => each.Entry.Id);
    }

    private void AddVehicle() => OpenForm(General, data => VehicleForms.Vehicle(data));

    private void Correct()
    {
        var vehicle = Fitting[Row];
        OpenForm($"Correct {vehicle.Name}", ct => new Correcting(Desk.Calls, Desk.Clock, ct).Form("vehicle", vehicle.Entry.Id));
    }

    private void Archive()
    {
        var vehicle = Fitting[Row];
        OpenForm(General, data => VehicleForms.Archive(data, vehicle.Entry.Id, vehicle.Name));
    }

    private void OpenSettings() => OpenForm("Settings", async ct =>
        await (await General(ct)).Then(async data => (await Tools(data, ct)).As(tools => BenchForms.Settings(data, tools))));

    private Task<Answer<FormData>> General(CancellationToken ct) => FormSource.General(Desk.Calls, Desk.Clock, ct);

    private Task<Answer<IReadOnlyList<NamedThing>>> Tools(FormData data, CancellationToken ct) => Desk.Knowledge.Tools(data.Systems, ct);
}
