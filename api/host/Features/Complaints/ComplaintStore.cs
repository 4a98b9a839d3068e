using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Complaints;

/// <summary>What is stored of a complaint; its events are findings.</summary>
public sealed record ComplaintContent(
    string Title, string Since, string Course, bool Always, DateTimeOffset OpenedAt, string? Note, Closing? Closed, UsedFaultModel? ClosedUnder,
    string? Main = null, string? Onset = null);

public sealed class ComplaintStore : IEntryStore<ComplaintContent, Complaint>
{
    private const string SelectVersions = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               c.title AS Title, c.since AS Since, c.course AS Course, c.always AS Always, c.opened_at AS OpenedAt, c.opened_offset AS OpenedOffset,
               c.note AS Note, c.closed_at AS ClosedAt, c.closed_offset AS ClosedOffset, c.result AS Result, c.causes AS Causes,
               c.proved_by AS ProvedBy, c.closing_note AS ClosingNote, c.closed_model AS ClosedModel, c.closed_revision AS ClosedRevision,
               c.main_event AS Main, c.onset AS Onset
        FROM entry AS e JOIN complaint AS c ON c.seq = e.content_seq
        WHERE e.kind = 'complaint' AND e.entry_id = @entryId
        ORDER BY e.version DESC
        """;

    private const string SelectOfVehicle = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               c.title AS Title, c.since AS Since, c.course AS Course, c.always AS Always, c.opened_at AS OpenedAt, c.opened_offset AS OpenedOffset,
               c.note AS Note, c.closed_at AS ClosedAt, c.closed_offset AS ClosedOffset, c.result AS Result, c.causes AS Causes,
               c.proved_by AS ProvedBy, c.closing_note AS ClosingNote, c.closed_model AS ClosedModel, c.closed_revision AS ClosedRevision,
               c.main_event AS Main, c.onset AS Onset
        FROM entry AS e JOIN complaint AS c ON c.seq = e.content_seq
        WHERE e.vehicle_id = @vehicleId AND e.kind = 'complaint'
          AND e.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = e.entry_id AND n.recorded_at <= @knownAt)
        ORDER BY (SELECT min(n.seq) FROM entry AS n WHERE n.entry_id = e.entry_id)
        """;

    private const string InsertContent = """
        INSERT INTO complaint (seq, title, since, course, always, opened_at, opened_offset, note,
                               closed_at, closed_offset, result, causes, proved_by, closing_note, closed_model, closed_revision,
                               main_event, onset)
        VALUES (@seq, @Title, @Since, @Course, @Always, @openedAt, @openedOffset, @Note,
                @closedAt, @closedOffset, @result, @causes, @provedBy, @closingNote, @closedModel, @closedRevision,
                @Main, @Onset)
        """;

    public string Kind => "complaint";
    public string Noun => "complaint";
    public string Location(Complaint entry) => Routes.Complaint.Replace("{complaintId}", entry.Entry.Id, StringComparison.Ordinal);
    public EntryHead Head(Complaint entry) => entry.Entry;

    public void Insert(Session session, long seq, ComplaintContent input) => session.Connection.Execute(InsertContent, new
    {
        seq,
        input.Title,
        Since = RoughDate.Normal(input.Since),
        input.Course,
        input.Always,
        openedAt = Times.Write(input.OpenedAt),
        openedOffset = Times.Offset(input.OpenedAt),
        input.Note,
        closedAt = input.Closed is { } closing ? Times.Write(closing.At) : null,
        closedOffset = input.Closed is { } there ? Times.Offset(there.At) : (long?)null,
        result = input.Closed?.Result,
        causes = Lists.WriteOrNull(input.Closed?.Causes),
        provedBy = Lists.WriteOrNull(input.Closed?.ProvedBy),
        closingNote = input.Closed?.Note,
        closedModel = input.ClosedUnder?.Id,
        closedRevision = input.ClosedUnder?.Revision,
        input.Main,
        input.Onset,
    });

    public IReadOnlyList<Complaint> Versions(SqliteConnection connection, string entryId) =>
        [.. connection.Query<Row>(SelectVersions, new { entryId }).Select(r => r.Entry)];

    /// <summary>As known at an instant, void ones included, in the order of entry.</summary>
    public IReadOnlyList<Complaint> OfVehicle(SqliteConnection connection, string vehicleId, string knownAt = Times.End) =>
        [.. connection.Query<Row>(SelectOfVehicle, new { vehicleId, knownAt }).Select(r => r.Entry)];

    /// <summary>Why the complaint takes no change and no findings, or null.</summary>
    public Refused? Shut(SqliteConnection connection, string complaintId) => Versions(connection, complaintId) switch
    {
        [] => ProblemAnswers.NotFound(Noun, complaintId),
        [{ Entry.VoidReason: { } reason }, ..] => ProblemAnswers.Closed($"The complaint is void ({reason}); it takes no further findings or changes."),
        [{ Closed: { } closing } c, ..] => ProblemAnswers.Closed($"The complaint \"{c.Title}\" was closed on {closing.At:yyyy-MM-dd} ({closing.Result}); it takes no further findings or changes. If it is back, open a new complaint."),
        _ => null,
    };

    internal sealed record Row
    {
        /// <summary>What earlier releases wrote for resolved; what is stored is never changed.</summary>
        private const string Earlier = "cured";

        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public string VehicleId { get; init; } = "";
        public string Title { get; init; } = "";
        public string Since { get; init; } = "";
        public string Course { get; init; } = "";
        public long Always { get; init; }
        public string OpenedAt { get; init; } = "";
        public long OpenedOffset { get; init; }
        public string? Note { get; init; }
        public string? ClosedAt { get; init; }
        public long? ClosedOffset { get; init; }
        public string? Result { get; init; }
        public string? Causes { get; init; }
        public string? ProvedBy { get; init; }
        public string? ClosingNote { get; init; }
        public string? ClosedModel { get; init; }
        public string? ClosedRevision { get; init; }
        public string? Main { get; init; }
        public string? Onset { get; init; }

        public Complaint Entry => new(
            new EntryHead(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason), VehicleId, Title, Since, Course, Always == 1,
            Times.Read(OpenedAt, OpenedOffset), Note, Closing, ClosedModel is null ? null : new UsedFaultModel(ClosedModel, ClosedRevision!), Main, Onset);

        private Closing? Closing => ClosedAt is null ? null : new(
            Times.Read(ClosedAt, ClosedOffset ?? 0), Result is Earlier ? "resolved" : Result!, Lists.Read<IReadOnlyList<ConfirmedCause>>(Causes!),
            Lists.Read<IReadOnlyList<string>>(ProvedBy!), ClosingNote);
    }
}
