using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>The timeline of one vehicle, and the way into everything that is entered about it.</summary>
internal sealed class RecordScreen(Desk desk, Vehicle vehicle) : Screen(desk)
{
    private RecordView? _record;
    private IReadOnlyList<Complaint> _complaints = [];

    public override string Title => $"{vehicle.Name}, {vehicle.Year}: record";

    public override bool Loaded => _record is not null;

    public override int Rows => _record?.Lines.Count ?? 0;

    private string NoEntry => Loaded ? "there is no entry yet" : "the record is not loaded";

    private RecordLine? Marked => Rows == 0 ? null : _record!.Lines[Row];

    /// <summary>The complaint that the marked line belongs to, else the only open one.</summary>
    private Complaint? Meant => _complaints.FirstOrDefault(each => Marked?.ComplaintId is { } id && each.Entry.Id == id) ?? OnlyOpen;

    private Complaint? OnlyOpen => _complaints.Where(each => each.Closed is null && each.Entry.VoidReason is null).ToList() is [var one] ? one : null;

    public override IReadOnlyList<Bound> Keys =>
    [
        new(Client.Keys.Open, OpenEntry, () => Marked is null ? NoEntry : null),
        new(Client.Keys.Likely, () => Desk.Open(new LikelyScreen(Desk, Meant!)), () => Meant is null ? (Loaded ? "mark a complaint first" : NoEntry) : null),
        new(Client.Keys.AddWork, () => Enter(data => VehicleForms.Work(data))), new(Client.Keys.AddComplaint, () => Enter(ComplaintForms.Complaint)),
        new(Client.Keys.AddReading, () => Desk.Open(new ChecksScreen(Desk, vehicle, Open(Meant), null))),
        new(Client.Keys.AddSeen, () => Enter(data => FindingForms.Seen(data), Open(Meant))),
        new(Client.Keys.AddOdometer, () => Enter(data => VehicleForms.Odometer(data))), new(Client.Keys.AddLayUp, () => Enter(data => VehicleForms.LayUp(data))),
        new(Client.Keys.AddIncident, () => Enter(data => VehicleForms.Incident(data))), new(Client.Keys.Limits, () => Desk.Open(new LimitsScreen(Desk, vehicle, null))),
        new(Client.Keys.Correct, Correct, WhyNotCorrect), new(Client.Keys.Void, Void, WhyNotVoid),
        new(Client.Keys.LeaveList, Desk.End),
    ];

    public override IReadOnlyList<Line> Lines(int width, int height) =>
        _record is null ? WaitLines.Of(Trouble, width) : RecordLines.Of(_record, width, Signs);

    public override void Load() => FetchShown(
        async ct => await (await Desk.Calls.Ask(api => api.Record(vehicle.Entry.Id, ct)))
            .Then(async record => (await Desk.Calls.Ask(api => api.Complaints(vehicle.Entry.Id, ct))).As(complaints => (record, complaints))),
        loaded =>
        {
            KeepMark(_record?.Lines, loaded.record.Lines, line => $"{line.Kind} {line.Id}");
            (_record, _complaints) = loaded;
        });

    // others may have entered something while this screen was covered
    public override void Shown() => Load();

    private static Complaint? Open(Complaint? complaint) => complaint is { Closed: null, Entry.VoidReason: null } ? complaint : null;

    private void OpenEntry()
    {
        var line = Marked!;
        if (line.ComplaintId is not null && line.Kind is "complaint" && Meant is { } complaint) Desk.Open(new LikelyScreen(Desk, complaint));
        else Desk.Open(new TextScreen(Desk, $"{vehicle.Name}: {line.Kind}", (width, signs) => RecordLines.One(line, width, signs)));
    }

    private void Enter(Func<FormData, Form> form, Complaint? complaint = null) => OpenForm(
        ct => complaint is null ? FormSource.Vehicle(Desk.Calls, Desk.Clock, vehicle.Entry.Id, ct) : FormSource.Complaint(Desk.Calls, Desk.Clock, complaint.Entry.Id, ct), form);

    private string? WhyNotCorrect() => Marked switch
    {
        null => NoEntry,
        { VoidReason: not null } => "it is void",
        { } line when !Correcting.Kinds.Contains(line.Kind) => $"this line ({line.Kind}) cannot be corrected",
        _ => null,
    };

    private void Correct()
    {
        var line = Marked!;
        OpenForm($"Correct this {line.Kind}", ct => new Correcting(Desk.Calls, Desk.Clock, ct).Form(line.Kind, line.Id));
    }

    private string? WhyNotVoid() => Marked switch
    {
        null => NoEntry,
        { VoidReason: not null } => "it is void already",
        { } line when !Voiding.Kinds.Contains(line.Kind) => $"this line ({line.Kind}) cannot be voided",
        _ => null,
    };

    private void Void()
    {
        var line = Marked!;
        Enter(data => ComplaintForms.Void(data, line.Kind, line.Id, line.Text));
    }
}
