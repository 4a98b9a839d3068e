using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Limits;

/// <summary>What is stored of a limit: entered by hand, or taken from the library.</summary>
public sealed record LimitContent(NewLimit Input, Adopted? From = null);

/// <param name="Reserve">Why it may differ from this car's as a typical limit may, in words; null where it may not.</param>
public sealed record Adopted(string LibraryId, string Trust, string Printed, string? Reserve);

public sealed class LimitStore : IEntryStore<LimitContent, Limit>
{
    private const string SelectVersions = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               l.check_id AS CheckId, l.unit AS Unit, l.source AS Source, l.low AS Low, l.high AS High, l.hold_from AS HoldFrom, l.points AS Points, l.note AS Note,
               l.trust AS Trust, l.library_id AS LibraryId, l.printed AS Printed, l.reserve AS Reserve
        FROM entry AS e JOIN car_limit AS l ON l.seq = e.content_seq
        WHERE e.kind = 'limit' AND e.entry_id = @entryId
        ORDER BY e.version DESC
        """;

    private const string SelectOfVehicle = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               l.check_id AS CheckId, l.unit AS Unit, l.source AS Source, l.low AS Low, l.high AS High, l.hold_from AS HoldFrom, l.points AS Points, l.note AS Note,
               l.trust AS Trust, l.library_id AS LibraryId, l.printed AS Printed, l.reserve AS Reserve
        FROM entry AS e JOIN car_limit AS l ON l.seq = e.content_seq
        WHERE e.vehicle_id = @vehicleId AND e.kind = 'limit'
          AND e.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = e.entry_id AND n.recorded_at <= @knownAt)
        ORDER BY (SELECT min(n.seq) FROM entry AS n WHERE n.entry_id = e.entry_id)
        """;

    private const string InsertContent = """
        INSERT INTO car_limit (seq, check_id, unit, source, low, high, hold_from, points, note, trust, library_id, printed, reserve)
        VALUES (@seq, @Check, @Unit, @Source, @Low, @High, @From, @points, @Note, @trust, @libraryId, @printed, @reserve)
        """;

    public string Kind => "limit";
    public string Noun => "limit";
    public string Location(Limit entry) => Routes.Limit.Replace("{entryId}", entry.Entry.Id, StringComparison.Ordinal);
    public EntryHead Head(Limit entry) => entry.Entry;

    public void Insert(Session session, long seq, LimitContent input)
    {
        var (limit, from) = input;
        session.Connection.Execute(InsertContent, new
        {
            seq,
            limit.Check,
            limit.Unit,
            limit.Source,
            limit.Low,
            limit.High,
            limit.From,
            points = Lists.WriteOrNull(limit.Points),
            limit.Note,
            trust = from?.Trust,
            libraryId = from?.LibraryId,
            printed = from?.Printed,
            reserve = from?.Reserve,
        });
    }

    public IReadOnlyList<Limit> Versions(SqliteConnection connection, string entryId) =>
        [.. connection.Query<Row>(SelectVersions, new { entryId }).Select(r => r.Entry)];

    /// <summary>As known at an instant, void ones included, in the order of entry.</summary>
    public IReadOnlyList<Limit> OfVehicle(SqliteConnection connection, string vehicleId, string knownAt = Times.End) =>
        [.. connection.Query<Row>(SelectOfVehicle, new { vehicleId, knownAt }).Select(r => r.Entry)];

    /// <summary>The one that judges the readings of a check: entered by hand, else taken from the library; the last of several.</summary>
    public Limit? InForce(SqliteConnection connection, string vehicleId, string check) =>
        InForce([.. OfVehicle(connection, vehicleId).Where(l => l.Check == check)]).LastOrDefault();

    /// <summary>Those that count, so that for each check the last is the one that judges.</summary>
    public static IEnumerable<Limit> InForce(IReadOnlyList<Limit> limits) => limits.Where(l => l.Entry.VoidReason is null).OrderBy(l => l.Trust == LimitWords.Own);

    internal sealed record Row
    {
        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public string VehicleId { get; init; } = "";
        public string CheckId { get; init; } = "";
        public string Unit { get; init; } = "";
        public string Source { get; init; } = "";
        public double? Low { get; init; }
        public double? High { get; init; }
        public double? HoldFrom { get; init; }
        public string? Points { get; init; }
        public string? Note { get; init; }
        public string? Trust { get; init; }
        public string? LibraryId { get; init; }
        public string? Printed { get; init; }
        public string? Reserve { get; init; }

        public Limit Entry => new(
            new EntryHead(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason), VehicleId, CheckId, Unit, Source, Low, High, HoldFrom,
            Lists.ReadOrNull<IReadOnlyList<LimitPoint>>(Points), Note,
            Trust ?? LimitWords.Own, LibraryId, Printed, Reserve is null, LimitWords.Trust(Trust ?? LimitWords.Own, Reserve));
    }
}
