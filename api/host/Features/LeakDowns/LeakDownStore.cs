using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.LeakDowns;

/// <summary>What is stored of a leak-down itself; its readings lie beside it.</summary>
public sealed record LeakDownContent(NewLeakDown Input, string ComplaintId, string? FindingId = null);

public sealed class LeakDownStore(Cars cars) : IEntryStore<LeakDownContent, LeakDown>
{
    private const string SelectVersions = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               d.complaint_id AS ComplaintId, d.check_id AS CheckId, d.stopped_at AS StoppedAt, d.stopped_offset AS StoppedOffset, d.unit AS Unit,
               d.instrument AS Instrument, d.ambient AS Ambient, d.ambient_unit AS AmbientUnit, d.fuel AS Fuel, d.fuel_unit AS FuelUnit,
               d.session AS Session, d.showed AS Showed, d.note AS Note, d.finding_id AS FindingId,
               (SELECT count(*) FROM leak_reading AS r WHERE r.leak_down_id = e.entry_id
                  AND NOT EXISTS (SELECT 1 FROM leak_reading_taken_back AS t WHERE t.reading_seq = r.seq)) AS Readings,
               i.recorded_at AS ImportedAt, i.sha256 AS Sha256, i.bytes AS Bytes, i.samples AS Samples, i.before_stop AS BeforeStop, i.form AS Form,
               (SELECT count(*) FROM leak_reading AS r WHERE r.import_seq = i.seq) AS Imported
        FROM entry AS e JOIN leak_down AS d ON d.seq = e.content_seq LEFT JOIN leak_import AS i ON i.leak_down_id = e.entry_id
        WHERE e.kind = 'leak-down' AND e.entry_id = @entryId
        ORDER BY e.version DESC
        """;

    private const string SelectIdsOfComplaint = """
        SELECT e.entry_id
        FROM entry AS e JOIN leak_down AS d ON d.seq = e.content_seq
        WHERE d.complaint_id = @complaintId AND e.kind = 'leak-down' AND e.version = 1
        ORDER BY d.stopped_at, e.seq
        """;

    private const string InsertContent = """
        INSERT INTO leak_down (seq, complaint_id, check_id, stopped_at, stopped_offset, unit, instrument, ambient, ambient_unit, fuel, fuel_unit,
                               session, showed, note, finding_id)
        VALUES (@seq, @ComplaintId, @Check, @stoppedAt, @stoppedOffset, @Unit, @Instrument, @ambient, @ambientUnit, @fuel, @fuelUnit,
                @Session, @Showed, @Note, @FindingId)
        """;

    public string Kind => "leak-down";
    public string Noun => "leak-down";
    public string Location(LeakDown entry) => Routes.LeakDown.Replace("{entryId}", entry.Entry.Id, StringComparison.Ordinal);
    public EntryHead Head(LeakDown entry) => entry.Entry;

    // title and cautions are the fault model's
    public string Tag(LeakDown entry) => Tags.Of(entry.Entry, cars.ModelsFingerprint);

    public void Insert(Session session, long seq, LeakDownContent input)
    {
        var d = input.Input;
        session.Connection.Execute(InsertContent, new
        {
            seq,
            input.ComplaintId,
            d.Check,
            stoppedAt = Times.Write(d.StoppedAt),
            stoppedOffset = Times.Offset(d.StoppedAt),
            d.Unit,
            d.Instrument,
            ambient = d.Ambient?.Value,
            ambientUnit = d.Ambient?.Unit,
            fuel = d.Fuel?.Value,
            fuelUnit = d.Fuel?.Unit,
            d.Session,
            d.Showed,
            d.Note,
            input.FindingId,
        });
    }

    public IReadOnlyList<LeakDown> Versions(SqliteConnection connection, string entryId)
    {
        var rows = connection.Query<Row>(SelectVersions, new { entryId }).ToList();
        return rows.Count == 0 ? [] : [.. rows.Select(r => r.Entry(cars.Find(connection, r.VehicleId)!))];
    }

    /// <summary>Without void ones, in the order of their stops.</summary>
    public IReadOnlyList<LeakDown> OfComplaint(SqliteConnection connection, string complaintId) =>
        [.. connection.Query<string>(SelectIdsOfComplaint, new { complaintId }).Select(id => Versions(connection, id)[0]).Where(d => d.Entry.VoidReason is null)];

    internal sealed record Row
    {
        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public string VehicleId { get; init; } = "";
        public string ComplaintId { get; init; } = "";
        public string CheckId { get; init; } = "";
        public string StoppedAt { get; init; } = "";
        public long StoppedOffset { get; init; }
        public string Unit { get; init; } = "";
        public string? Instrument { get; init; }
        public double? Ambient { get; init; }
        public string? AmbientUnit { get; init; }
        public double? Fuel { get; init; }
        public string? FuelUnit { get; init; }
        public string? Session { get; init; }
        public string Showed { get; init; } = "";
        public string? Note { get; init; }
        public string? FindingId { get; init; }
        public long Readings { get; init; }
        public string? ImportedAt { get; init; }
        public string? Sha256 { get; init; }
        public long? Bytes { get; init; }
        public long? Samples { get; init; }
        public long? BeforeStop { get; init; }
        public string? Form { get; init; }
        public long Imported { get; init; }

        public LeakDown Entry(Car car) => new(
            new EntryHead(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason), VehicleId, ComplaintId, CheckId, Sentences.Check(car.Model, CheckId),
            Times.Read(StoppedAt, StoppedOffset), Unit, Instrument, Measured(Ambient, AmbientUnit), Measured(Fuel, FuelUnit), Session, Showed, Note,
            FindingId is null ? "running" : "finished", FindingId, (int)Readings, Import, car.Check(CheckId)?.Cautions ?? []);

        private LeakImport? Import => ImportedAt is null ? null : new(
            Times.Read(ImportedAt), Sha256!, Bytes ?? 0, (int)(Samples ?? 0), (int)(BeforeStop ?? 0), (int)Imported, Lists.Read<LeakFileForm>(Form!));

        private static Measured? Measured(double? value, string? unit) => value is { } v ? new Measured(v, unit!) : null;
    }
}
