using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.SetAsides;

/// <summary>What is stored: the input with its complaint, and the day up to which it counts.</summary>
public sealed record SetAsideContent(string ComplaintId, NewSetAside Input, string? Until);

public sealed class SetAsideStore(Cars cars) : IEntryStore<SetAsideContent, SetAside>
{
    private const string SelectVersions = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               s.complaint_id AS ComplaintId, s.check_id AS CheckId, s.trial_id AS TrialId, s.reason AS Reason, s.until_date AS Until, s.note AS Note
        FROM entry AS e JOIN set_aside AS s ON s.seq = e.content_seq
        WHERE e.kind = 'set-aside' AND e.entry_id = @entryId
        ORDER BY e.version DESC
        """;

    private const string SelectOfVehicle = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               s.complaint_id AS ComplaintId, s.check_id AS CheckId, s.trial_id AS TrialId, s.reason AS Reason, s.until_date AS Until, s.note AS Note
        FROM entry AS e JOIN set_aside AS s ON s.seq = e.content_seq
        WHERE e.vehicle_id = @vehicleId AND e.kind = 'set-aside'
          AND e.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = e.entry_id AND n.recorded_at <= @knownAt)
        ORDER BY (SELECT min(n.seq) FROM entry AS n WHERE n.entry_id = e.entry_id)
        """;

    private const string InsertContent = """
        INSERT INTO set_aside (seq, complaint_id, check_id, trial_id, reason, until_date, note)
        VALUES (@seq, @ComplaintId, @Check, @Trial, @Reason, @Until, @Note)
        """;

    public string Kind => "set-aside";
    public string Noun => "set-aside check or trial";
    public string Location(SetAside entry) => Routes.SetAside.Replace("{entryId}", entry.Entry.Id, StringComparison.Ordinal);
    public EntryHead Head(SetAside entry) => entry.Entry;

    public void Insert(Session session, long seq, SetAsideContent input) => session.Connection.Execute(
        InsertContent, new { seq, input.ComplaintId, input.Input.Check, input.Input.Trial, input.Input.Reason, input.Until, input.Input.Note });

    public IReadOnlyList<SetAside> Versions(SqliteConnection connection, string entryId)
    {
        List<Row> rows = [.. connection.Query<Row>(SelectVersions, new { entryId })];
        return rows.Count == 0 ? [] : [.. rows.Select(r => r.Of(cars.Find(connection, r.VehicleId)!))];
    }

    /// <summary>As known at an instant, void ones included, in the order of entry.</summary>
    public IReadOnlyList<SetAside> OfVehicle(SqliteConnection connection, Car car, string knownAt = Times.End) =>
        [.. connection.Query<Row>(SelectOfVehicle, new { vehicleId = car.Vehicle.Entry.Id, knownAt }).Select(r => r.Of(car))];

    /// <summary>Ids of the checks and trials that are not proposed on a day: not fitted and no tool whatever the complaint, not today as long as it says.</summary>
    public IReadOnlySet<string> Standing(SqliteConnection connection, Car car, DateOnly day, string knownAt = Times.End) =>
        OfVehicle(connection, car, knownAt).Where(s => s.Entry.VoidReason is null && Counts(s, day)).Select(s => s.Check ?? s.Trial!).ToHashSet();

    private static bool Counts(SetAside s, DateOnly day)
    {
        var from = DateOnly.FromDateTime(s.Entry.RecordedAt.UtcDateTime.Date);
        return s.Until is null || (DateOnly.Parse(s.Until, System.Globalization.CultureInfo.InvariantCulture) >= day && from.AddDays(-1) <= day);
    }

    internal sealed record Row
    {
        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public string VehicleId { get; init; } = "";
        public string ComplaintId { get; init; } = "";
        public string? CheckId { get; init; }
        public string? TrialId { get; init; }
        public string Reason { get; init; } = "";
        public string? Until { get; init; }
        public string? Note { get; init; }

        public SetAside Of(Car car) => new(
            new EntryHead(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason), VehicleId, ComplaintId, CheckId, TrialId,
            CheckId is null ? Sentences.TrialTitle(car.Model, TrialId!) : Sentences.Check(car.Model, CheckId), Reason, Until, Note);
    }
}
