using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Odometers;

public sealed class OdometerStore : IEntryStore<NewOdometer, Odometer>
{
    private const string SelectVersions = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               o.date AS Date, o.reading AS Reading, o.reading_unit AS ReadingUnit, o.new_clock AS NewClock, o.new_clock_unit AS NewClockUnit, o.note AS Note
        FROM entry AS e JOIN odometer AS o ON o.seq = e.content_seq
        WHERE e.kind = 'odometer' AND e.entry_id = @entryId
        ORDER BY e.version DESC
        """;

    private const string SelectOfVehicle = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               o.date AS Date, o.reading AS Reading, o.reading_unit AS ReadingUnit, o.new_clock AS NewClock, o.new_clock_unit AS NewClockUnit, o.note AS Note
        FROM entry AS e JOIN odometer AS o ON o.seq = e.content_seq
        WHERE e.vehicle_id = @vehicleId AND e.kind = 'odometer'
          AND e.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = e.entry_id AND n.recorded_at <= @knownAt)
        ORDER BY (SELECT min(n.seq) FROM entry AS n WHERE n.entry_id = e.entry_id)
        """;

    private const string InsertContent = """
        INSERT INTO odometer (seq, date, reading, reading_unit, new_clock, new_clock_unit, note)
        VALUES (@seq, @Date, @reading, @readingUnit, @newClock, @newClockUnit, @Note)
        """;

    public string Kind => "odometer";
    public string Noun => "odometer reading";
    public string Location(Odometer entry) => Routes.Odometer.Replace("{entryId}", entry.Entry.Id, StringComparison.Ordinal);
    public EntryHead Head(Odometer entry) => entry.Entry;

    public void Insert(Session session, long seq, NewOdometer input) => session.Connection.Execute(InsertContent, new
    {
        seq,
        Date = RoughDate.Normal(input.Date),
        reading = input.Reading.Value,
        readingUnit = input.Reading.Unit,
        newClock = input.NewClock?.Value,
        newClockUnit = input.NewClock?.Unit,
        input.Note,
    });

    public IReadOnlyList<Odometer> Versions(SqliteConnection connection, string entryId) =>
        [.. connection.Query<Row>(SelectVersions, new { entryId }).Select(r => r.Entry)];

    /// <summary>As known at an instant, void ones included, in the order of entry.</summary>
    public IReadOnlyList<Odometer> OfVehicle(SqliteConnection connection, string vehicleId, string knownAt = Times.End) =>
        [.. connection.Query<Row>(SelectOfVehicle, new { vehicleId, knownAt }).Select(r => r.Entry)];

    internal sealed record Row
    {
        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public string VehicleId { get; init; } = "";
        public string Date { get; init; } = "";
        public double Reading { get; init; }
        public string ReadingUnit { get; init; } = "";
        public double? NewClock { get; init; }
        public string? NewClockUnit { get; init; }
        public string? Note { get; init; }

        public Odometer Entry => new(
            new EntryHead(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason), VehicleId, Date, new Measured(Reading, ReadingUnit),
            NewClock is { } value ? new Measured(value, NewClockUnit!) : null, Note);
    }
}
