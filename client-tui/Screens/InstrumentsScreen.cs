using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>Gauges, meters and vessels.</summary>
internal sealed class InstrumentsScreen(Desk desk) : Screen(desk)
{
    private IReadOnlyList<Instrument>? _instruments;

    public override string Title => "Gauges, meters and vessels";

    public override bool Loaded => _instruments is not null;

    public override int Rows => _instruments?.Count ?? 0;

    public override IReadOnlyList<Bound> Keys =>
    [
        new(Client.Keys.Add, () => OpenForm(Source, data => BenchForms.Instrument(data))),
        new(Client.Keys.Correct, Correct, () => Rows == 0 ? "there is nothing to correct" : _instruments![Row].Entry.VoidReason is null ? null : "it is void"),
        new(Client.Keys.Void, Void, () => Rows == 0 ? "there is nothing to void" : _instruments![Row].Entry.VoidReason is null ? null : "it is void already"),
        new(Client.Keys.LeaveList, Desk.End),
    ];

    public override IReadOnlyList<Line> Lines(int width, int height) =>
        _instruments is null ? WaitLines.Of(Trouble, width) : InstrumentLines.Of(_instruments, width, Signs);

    public override void Load() => FetchShown(ct => Desk.Calls.Ask(api => api.Instruments(ct)), found =>
    {
        KeepMark(_instruments, found, each => each.Entry.Id);
        _instruments = found;
    });

    private Task<Api.Answer<FormData>> Source(CancellationToken ct) => FormSource.General(Desk.Calls, Desk.Clock, ct);

    private void Correct()
    {
        var id = _instruments![Row].Entry.Id;
        OpenForm("Correct an instrument", ct => new Correcting(Desk.Calls, Desk.Clock, ct).Form("instrument", id));
    }

    private void Void()
    {
        var instrument = _instruments![Row];
        OpenForm(Source, data => ComplaintForms.Void(data, "instrument", instrument.Entry.Id, instrument.Name));
    }
}
