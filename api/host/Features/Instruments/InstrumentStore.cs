using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Instruments;

public sealed class InstrumentStore : IEntryStore<NewInstrument, Instrument>
{
    private const string SelectVersions = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason,
               i.name AS Name, i.quantity AS Quantity, i.unit AS Unit, i.span AS Span, i.class_percent AS ClassPercent, i.resolution AS Resolution,
               i.percent_of_reading AS PercentOfReading, i.digits AS Digits, i.last_checked AS LastChecked, i.note AS Note
        FROM entry AS e JOIN instrument AS i ON i.seq = e.content_seq
        WHERE e.kind = 'instrument' AND e.entry_id = @entryId
        ORDER BY e.version DESC
        """;

    private const string SelectAll = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason,
               i.name AS Name, i.quantity AS Quantity, i.unit AS Unit, i.span AS Span, i.class_percent AS ClassPercent, i.resolution AS Resolution,
               i.percent_of_reading AS PercentOfReading, i.digits AS Digits, i.last_checked AS LastChecked, i.note AS Note
        FROM entry AS e JOIN instrument AS i ON i.seq = e.content_seq
        WHERE e.vehicle_id IS NULL AND e.kind = 'instrument'
          AND e.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = e.entry_id AND n.recorded_at <= @knownAt)
        ORDER BY (SELECT min(n.seq) FROM entry AS n WHERE n.entry_id = e.entry_id)
        """;

    private const string InsertContent = """
        INSERT INTO instrument (seq, name, quantity, unit, span, class_percent, resolution, percent_of_reading, digits, last_checked, note)
        VALUES (@seq, @Name, @Quantity, @Unit, @Span, @ClassPercent, @Resolution, @PercentOfReading, @Digits, @LastChecked, @Note)
        """;

    public string Kind => "instrument";
    public string Noun => "instrument";
    public string Location(Instrument entry) => Routes.Instrument.Replace("{entryId}", entry.Entry.Id, StringComparison.Ordinal);
    public EntryHead Head(Instrument entry) => entry.Entry;

    public void Insert(Session session, long seq, NewInstrument input) => session.Connection.Execute(InsertContent, new
    {
        seq,
        input.Name,
        input.Quantity,
        input.Unit,
        input.Span,
        input.ClassPercent,
        input.Resolution,
        input.PercentOfReading,
        input.Digits,
        LastChecked = input.LastChecked is null ? null : RoughDate.Normal(input.LastChecked),
        input.Note,
    });

    public IReadOnlyList<Instrument> Versions(SqliteConnection connection, string entryId) =>
        [.. connection.Query<Row>(SelectVersions, new { entryId }).Select(r => r.Entry)];

    /// <summary>As known at an instant, void ones included, in the order of entry.</summary>
    public IReadOnlyList<Instrument> All(SqliteConnection connection, string knownAt = Times.End) =>
        [.. connection.Query<Row>(SelectAll, new { knownAt }).Select(r => r.Entry)];

    internal sealed record Row
    {
        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public string Name { get; init; } = "";
        public string Quantity { get; init; } = "";
        public string Unit { get; init; } = "";
        public double? Span { get; init; }
        public double? ClassPercent { get; init; }
        public double? Resolution { get; init; }
        public double? PercentOfReading { get; init; }
        public double? Digits { get; init; }
        public string? LastChecked { get; init; }
        public string? Note { get; init; }

        public Instrument Entry => new(
            new EntryHead(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason), Name, Quantity, Unit, Span, ClassPercent, Resolution,
            PercentOfReading, Digits, LastChecked, Note);
    }
}
