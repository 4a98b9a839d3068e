using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.LayUps;

public sealed class LayUpStore : IEntryStore<NewLayUp, LayUp>
{
    private const string SelectVersions = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               l.from_date AS FromDate, l.until_date AS UntilDate, l.note AS Note
        FROM entry AS e JOIN lay_up AS l ON l.seq = e.content_seq
        WHERE e.kind = 'lay-up' AND e.entry_id = @entryId
        ORDER BY e.version DESC
        """;

    private const string SelectOfVehicle = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               l.from_date AS FromDate, l.until_date AS UntilDate, l.note AS Note
        FROM entry AS e JOIN lay_up AS l ON l.seq = e.content_seq
        WHERE e.vehicle_id = @vehicleId AND e.kind = 'lay-up'
          AND e.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = e.entry_id AND n.recorded_at <= @knownAt)
        ORDER BY (SELECT min(n.seq) FROM entry AS n WHERE n.entry_id = e.entry_id)
        """;

    private const string InsertContent = "INSERT INTO lay_up (seq, from_date, until_date, note) VALUES (@seq, @From, @To, @Note)";

    public string Kind => "lay-up";
    public string Noun => "lay-up";
    public string Location(LayUp entry) => Routes.LayUp.Replace("{entryId}", entry.Entry.Id, StringComparison.Ordinal);
    public EntryHead Head(LayUp entry) => entry.Entry;

    public void Insert(Session session, long seq, NewLayUp input) =>
        session.Connection.Execute(InsertContent, new
        {
            seq,
            From = RoughDate.Normal(input.From),
            To = input.To is null ? null : RoughDate.Normal(input.To),
            input.Note,
        });

    public IReadOnlyList<LayUp> Versions(SqliteConnection connection, string entryId) =>
        [.. connection.Query<Row>(SelectVersions, new { entryId }).Select(r => r.Entry)];

    /// <summary>As known at an instant, void ones included, in the order of entry.</summary>
    public IReadOnlyList<LayUp> OfVehicle(SqliteConnection connection, string vehicleId, string knownAt = Times.End) =>
        [.. connection.Query<Row>(SelectOfVehicle, new { vehicleId, knownAt }).Select(r => r.Entry)];

    internal sealed record Row
    {
        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public string VehicleId { get; init; } = "";
        public string FromDate { get; init; } = "";
        public string? UntilDate { get; init; }
        public string? Note { get; init; }

        public LayUp Entry => new(new EntryHead(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason), VehicleId, FromDate, UntilDate, Note);
    }
}
