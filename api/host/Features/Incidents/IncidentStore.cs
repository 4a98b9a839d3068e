using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Incidents;

public sealed class IncidentStore : IEntryStore<NewIncident, Incident>
{
    private const string SelectVersions = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               i.date AS Date, i.incident_kind AS IncidentKind, i.note AS Note
        FROM entry AS e JOIN incident AS i ON i.seq = e.content_seq
        WHERE e.kind = 'incident' AND e.entry_id = @entryId
        ORDER BY e.version DESC
        """;

    private const string SelectOfVehicle = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               i.date AS Date, i.incident_kind AS IncidentKind, i.note AS Note
        FROM entry AS e JOIN incident AS i ON i.seq = e.content_seq
        WHERE e.vehicle_id = @vehicleId AND e.kind = 'incident'
          AND e.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = e.entry_id AND n.recorded_at <= @knownAt)
        ORDER BY (SELECT min(n.seq) FROM entry AS n WHERE n.entry_id = e.entry_id)
        """;

    private const string InsertContent = "INSERT INTO incident (seq, date, incident_kind, note) VALUES (@seq, @Date, @Kind, @Note)";

    public string Kind => "incident";
    public string Noun => "incident";
    public string Location(Incident entry) => Routes.Incident.Replace("{entryId}", entry.Entry.Id, StringComparison.Ordinal);
    public EntryHead Head(Incident entry) => entry.Entry;

    public void Insert(Session session, long seq, NewIncident input) =>
        session.Connection.Execute(InsertContent, new { seq, Date = RoughDate.Normal(input.Date), input.Kind, input.Note });

    public IReadOnlyList<Incident> Versions(SqliteConnection connection, string entryId) =>
        [.. connection.Query<Row>(SelectVersions, new { entryId }).Select(r => r.Entry)];

    /// <summary>As known at an instant, void ones included, in the order of entry.</summary>
    public IReadOnlyList<Incident> OfVehicle(SqliteConnection connection, string vehicleId, string knownAt = Times.End) =>
        [.. connection.Query<Row>(SelectOfVehicle, new { vehicleId, knownAt }).Select(r => r.Entry)];

    internal sealed record Row
    {
        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public string VehicleId { get; init; } = "";
        public string Date { get; init; } = "";
        public string IncidentKind { get; init; } = "";
        public string? Note { get; init; }

        public Incident Entry => new(new EntryHead(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason), VehicleId, Date, IncidentKind, Note);
    }
}
