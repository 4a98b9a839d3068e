using Dapper;
using FuelHistory.Contracts;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Sqlite;

/// <summary>The newest version of an entry, as the ledger has it.</summary>
public sealed record Standing(string EntryId, string? VehicleId, long ContentSeq, EntryHead Head)
{
    public bool IsVoid => Head.VoidReason is not null;
}

/// <summary>Writes and reads the table entry: versions, voids, revisions. The content of an entry is its store's affair.</summary>
public static class Ledger
{
    private const string NewestVersion = """
        SELECT entry_id AS EntryId, version AS Version, vehicle_id AS VehicleId, recorded_at AS RecordedAt,
               void_reason AS VoidReason, content_seq AS ContentSeq
        FROM entry
        WHERE entry_id = @entryId AND kind = @kind
        ORDER BY version DESC LIMIT 1
        """;

    // Rows are never deleted, so one more than the highest seq is free; the write lock is held.
    private const string Append = """
        INSERT INTO entry (seq, entry_id, version, kind, vehicle_id, recorded_at, void_reason, content_seq)
        SELECT next.seq, @entryId, @version, @kind, @vehicleId, @recordedAt, @voidReason, coalesce(@contentSeq, next.seq)
        FROM (SELECT coalesce(max(seq), 0) + 1 AS seq FROM entry) AS next
        RETURNING seq
        """;

    private const string FirstVersions = "SELECT entry_id AS EntryId, recorded_at AS RecordedAt FROM entry WHERE vehicle_id = @vehicleId AND version = 1 ORDER BY seq";

    /// <summary>When each entry of a vehicle was first made: a correction does not move it behind what was entered after it. What was made
    /// in one millisecond, or by a clock that was set back, is a tick later than the entry before it: these tell the order.</summary>
    public static IReadOnlyDictionary<string, DateTimeOffset> FirstRecorded(SqliteConnection connection, string vehicleId)
    {
        Dictionary<string, DateTimeOffset> first = [];
        var last = DateTimeOffset.MinValue;
        foreach (var row in connection.Query<Row>(FirstVersions, new { vehicleId }))
        {
            var at = Times.Read(row.RecordedAt);
            last = at > last ? at : last.AddTicks(1);
            first.Add(row.EntryId, last);
        }

        return first;
    }

    public static Standing? Newest(SqliteConnection connection, string kind, string entryId)
    {
        var row = connection.QuerySingleOrDefault<Row>(NewestVersion, new { kind, entryId });
        return row is null ? null : new Standing(row.EntryId, row.VehicleId, row.ContentSeq, row.Head);
    }

    /// <summary>A new entry. A vehicle belongs to itself.</summary>
    public static (long Seq, string EntryId) Begin(Session session, string kind, string? vehicleId)
    {
        var entryId = Guid.CreateVersion7(session.Now).ToString();
        var seq = Write(session, new { entryId, version = 1, kind, vehicleId = kind == "vehicle" ? entryId : vehicleId, recordedAt = Times.Write(session.Now), voidReason = (string?)null, contentSeq = (long?)null });
        return (seq, entryId);
    }

    /// <summary>The first version under an id of the program's own (settings).</summary>
    public static long BeginNamed(Session session, string kind, string entryId) =>
        Write(session, new { entryId, version = 1, kind, vehicleId = (string?)null, recordedAt = Times.Write(session.Now), voidReason = (string?)null, contentSeq = (long?)null });

    /// <summary>The next version, whose content the caller stores under the seq that is returned.</summary>
    public static long Follow(Session session, string kind, Standing before) =>
        Write(session, Next(session, kind, before, null, null));

    /// <summary>The next version, which says that the entry no longer counts.</summary>
    public static void Void(Session session, string kind, Standing before, string reason) =>
        Write(session, Next(session, kind, before, reason, before.ContentSeq));

    private static object Next(Session session, string kind, Standing before, string? voidReason, long? contentSeq) => new
    {
        entryId = before.EntryId,
        version = before.Head.Version + 1,
        kind,
        vehicleId = before.VehicleId,
        // a clock that was set back must not put a version before the one it follows
        recordedAt = Times.Write(session.Now > before.Head.RecordedAt ? session.Now : before.Head.RecordedAt),
        voidReason,
        contentSeq,
    };

    private static long Write(Session session, object row) => session.Connection.QuerySingle<long>(Append, row, session.Transaction);

    internal sealed record Row
    {
        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string? VehicleId { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public long ContentSeq { get; init; }
        public EntryHead Head => new(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason);
    }
}
