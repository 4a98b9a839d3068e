using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.LeakDowns;

/// <summary>A reading as it is to be stored.</summary>
/// <param name="Import">The file that it comes from.</param>
public sealed record ReadingRow(
    string Id, double Minutes, Measured Pressure, double? Lowest = null, double? Highest = null, int Samples = 1, bool Confirmed = false, long? Import = null);

/// <summary>How the readings of a leak-down stand: what changes with every reading and every one taken back.</summary>
public readonly record struct ReadingsMark(long Last, long TakenBack);

/// <summary>The readings of leak-downs. They are added and taken back, never changed.</summary>
public sealed class LeakReadingStore
{
    private const string Select = """
        SELECT r.reading_id AS Id, r.minutes AS Minutes, r.pressure AS Pressure, r.unit AS Unit, r.lowest AS Lowest, r.highest AS Highest,
               r.samples AS Samples, r.recorded_at AS RecordedAt, t.recorded_at AS TakenBack
        FROM leak_reading AS r LEFT JOIN leak_reading_taken_back AS t ON t.reading_seq = r.seq
        WHERE r.leak_down_id = @leakDownId
        ORDER BY r.minutes, r.seq
        """;

    private const string SelectMark = """
        SELECT coalesce(max(r.seq), 0) AS Last, count(t.reading_seq) AS TakenBack
        FROM leak_reading AS r LEFT JOIN leak_reading_taken_back AS t ON t.reading_seq = r.seq
        WHERE r.leak_down_id = @leakDownId
        """;

    private const string AnyConfirmed = """
        SELECT count(*) FROM leak_reading AS r
        WHERE r.leak_down_id = @leakDownId AND r.confirmed = 1
          AND NOT EXISTS (SELECT 1 FROM leak_reading_taken_back AS t WHERE t.reading_seq = r.seq)
        """;

    private const string Append = """
        INSERT INTO leak_reading (leak_down_id, reading_id, minutes, pressure, unit, lowest, highest, samples, confirmed, import_seq, recorded_at)
        VALUES (@leakDownId, @Id, @Minutes, @value, @unit, @Lowest, @Highest, @Samples, @Confirmed, @Import, @recordedAt)
        """;

    private const string InsertTakenBack = """
        INSERT INTO leak_reading_taken_back (reading_seq, recorded_at)
        SELECT r.seq, @recordedAt FROM leak_reading AS r WHERE r.leak_down_id = @leakDownId AND r.reading_id = @readingId
        """;

    /// <summary>In the order of time, those taken back included.</summary>
    public IReadOnlyList<LeakReading> Of(SqliteConnection connection, string leakDownId) =>
        [.. connection.Query<Row>(Select, new { leakDownId }).Select(r => r.Reading)];

    public ReadingsMark Mark(SqliteConnection connection, string leakDownId)
    {
        var row = connection.QuerySingle<MarkRow>(SelectMark, new { leakDownId });
        return new ReadingsMark(row.Last, row.TakenBack);
    }

    /// <summary>Whether an implausible value among those that stand was said to be right.</summary>
    public bool Confirmed(SqliteConnection connection, string leakDownId) => connection.QuerySingle<long>(AnyConfirmed, new { leakDownId }) > 0;

    public void Add(Session session, string leakDownId, IEnumerable<ReadingRow> readings)
    {
        var recordedAt = Times.Write(session.Now);
        session.Connection.Execute(Append, readings.Select(r => new
        {
            leakDownId,
            r.Id,
            r.Minutes,
            value = r.Pressure.Value,
            unit = r.Pressure.Unit,
            r.Lowest,
            r.Highest,
            r.Samples,
            r.Confirmed,
            r.Import,
            recordedAt,
        }), session.Transaction);
    }

    public void TakeBack(Session session, string leakDownId, string readingId) =>
        session.Connection.Execute(InsertTakenBack, new { leakDownId, readingId, recordedAt = Times.Write(session.Now) }, session.Transaction);

    internal sealed record MarkRow
    {
        public long Last { get; init; }
        public long TakenBack { get; init; }
    }

    internal sealed record Row
    {
        public string Id { get; init; } = "";
        public double Minutes { get; init; }
        public double Pressure { get; init; }
        public string Unit { get; init; } = "";
        public double? Lowest { get; init; }
        public double? Highest { get; init; }
        public long Samples { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? TakenBack { get; init; }

        public LeakReading Reading => new(
            Id, Minutes, new Measured(Pressure, Unit), Lowest, Highest, (int)Samples, Times.Read(RecordedAt), TakenBack is null ? null : Times.Read(TakenBack));
    }
}
