using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Vehicles;

/// <summary>What is stored of a vehicle: the input, or the same with the reason for which it was archived.</summary>
public sealed record VehicleContent(NewVehicle Input, string? ArchivedBecause = null);

public sealed class VehicleStore : IEntryStore<VehicleContent, Vehicle>
{
    private const string SelectVersions = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason,
               v.name AS Name, v.year AS Year, v.system AS System, v.odometer_unit AS OdometerUnit, v.engine AS Engine,
               v.in_use_since AS InUseSince, v.record_complete AS RecordComplete, v.note AS Note, v.archived_because AS ArchivedBecause,
               v.make AS Make, v.model AS Model, v.options AS Options,
               (SELECT count(*) FROM entry AS o JOIN complaint AS c ON c.seq = o.content_seq
                WHERE o.vehicle_id = e.entry_id AND o.kind = 'complaint' AND o.void_reason IS NULL AND c.closed_at IS NULL
                  AND o.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = o.entry_id)) AS OpenComplaints
        FROM entry AS e JOIN vehicle AS v ON v.seq = e.content_seq
        WHERE e.kind = 'vehicle' AND e.entry_id = @entryId
        ORDER BY e.version DESC
        """;

    private const string SelectAll = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason,
               v.name AS Name, v.year AS Year, v.system AS System, v.odometer_unit AS OdometerUnit, v.engine AS Engine,
               v.in_use_since AS InUseSince, v.record_complete AS RecordComplete, v.note AS Note, v.archived_because AS ArchivedBecause,
               v.make AS Make, v.model AS Model, v.options AS Options,
               (SELECT count(*) FROM entry AS o JOIN complaint AS c ON c.seq = o.content_seq
                WHERE o.vehicle_id = e.entry_id AND o.kind = 'complaint' AND o.void_reason IS NULL AND c.closed_at IS NULL
                  AND o.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = o.entry_id)) AS OpenComplaints
        FROM entry AS e JOIN vehicle AS v ON v.seq = e.content_seq
        WHERE e.kind = 'vehicle' AND e.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = e.entry_id)
        ORDER BY (SELECT min(n.seq) FROM entry AS n WHERE n.entry_id = e.entry_id)
        """;

    private const string InsertContent = """
        INSERT INTO vehicle (seq, name, year, system, odometer_unit, engine, in_use_since, record_complete, note, archived_because, make, model, options)
        VALUES (@seq, @Name, @Year, @System, @OdometerUnit, @Engine, @InUseSince, @RecordComplete, @Note, @ArchivedBecause, @Make, @Model, @options)
        """;

    private const string CountNamed = """
        SELECT count(*) FROM entry AS e
        WHERE e.vehicle_id = @vehicleId AND e.kind IN ('work', 'incident', 'limit', 'complaint', 'finding', 'set-aside') AND e.void_reason IS NULL
          AND e.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = e.entry_id)
        """;

    public string Kind => "vehicle";
    public string Noun => "vehicle";
    public string Location(Vehicle entry) => Routes.Vehicle.Replace("{vehicleId}", entry.Entry.Id, StringComparison.Ordinal);
    public EntryHead Head(Vehicle entry) => entry.Entry;

    // the number of open complaints is shown too, and changes without a new version
    public string Tag(Vehicle entry) => Tags.Of(entry.Entry, entry.OpenComplaints.ToString(System.Globalization.CultureInfo.InvariantCulture));

    public void Insert(Session session, long seq, VehicleContent input)
    {
        var v = input.Input;
        var since = v.InUseSince is null ? null : RoughDate.Normal(v.InUseSince);
        var options = Lists.WriteOrNull(v.Options);
        session.Connection.Execute(InsertContent, new
        {
            seq,
            v.Name,
            v.Year,
            v.System,
            v.OdometerUnit,
            v.Engine,
            InUseSince = since,
            v.RecordComplete,
            v.Note,
            input.ArchivedBecause,
            v.Make,
            v.Model,
            options,
        });
    }

    public IReadOnlyList<Vehicle> Versions(SqliteConnection connection, string entryId) =>
        [.. connection.Query<Row>(SelectVersions, new { entryId }).Select(r => r.Entry)];

    public IReadOnlyList<Vehicle> All(SqliteConnection connection) =>
        [.. connection.Query<Row>(SelectAll).Select(r => r.Entry)];

    /// <summary>How many entries name parts, checks or events of the vehicle's fault model.</summary>
    public long Named(SqliteConnection connection, string vehicleId) => connection.QuerySingle<long>(CountNamed, new { vehicleId });

    /// <summary>Why it was archived, or null.</summary>
    public string? ArchivedBecause(SqliteConnection connection, string vehicleId) =>
        connection.Query<Row>(SelectVersions, new { entryId = vehicleId }).First().ArchivedBecause;

    internal sealed record Row
    {
        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public string Name { get; init; } = "";
        public string Year { get; init; } = "";
        public string System { get; init; } = "";
        public string OdometerUnit { get; init; } = "";
        public string? Engine { get; init; }
        public string? InUseSince { get; init; }
        public long RecordComplete { get; init; }
        public string? Note { get; init; }
        public string? ArchivedBecause { get; init; }
        public string? Make { get; init; }
        public string? Model { get; init; }
        public string? Options { get; init; }
        public long OpenComplaints { get; init; }

        public Vehicle Entry => new(
            new EntryHead(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason), Name, Year, System, OdometerUnit, Engine, InUseSince,
            RecordComplete == 1, Note, ArchivedBecause is not null, (int)OpenComplaints, Make, Model,
            Lists.ReadOrNull<IReadOnlyDictionary<string, string>>(Options));
    }
}
