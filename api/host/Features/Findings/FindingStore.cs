using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Findings;

/// <summary>What is stored of a finding; of a complaint, or of the vehicle alone.</summary>
public sealed record FindingContent(NewFinding Input, string? ComplaintId);

public sealed class FindingStore(Cars cars) : IEntryStore<FindingContent, Finding>
{
    private const string SelectVersions = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               f.complaint_id AS ComplaintId, f.at AS At, f.at_offset AS AtOffset, f.symptom AS Event, f.check_id AS CheckId, f.component AS Component,
               f.mode AS Mode, f.outcome AS Outcome, f.sure AS Sure, f.reading AS Reading, f.reading_unit AS ReadingUnit, f.points AS Points,
               f.instrument AS Instrument, f.conditions AS Conditions, f.session AS Session, f.showed AS Showed, f.note AS Note,
               f.event_when AS EventWhen, f.event_then AS EventThen, f.trial AS Trial, f.own AS Own
        FROM entry AS e JOIN finding AS f ON f.seq = e.content_seq
        WHERE e.kind = 'finding' AND e.entry_id = @entryId
        ORDER BY e.version DESC
        """;

    private const string SelectOfVehicle = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               f.complaint_id AS ComplaintId, f.at AS At, f.at_offset AS AtOffset, f.symptom AS Event, f.check_id AS CheckId, f.component AS Component,
               f.mode AS Mode, f.outcome AS Outcome, f.sure AS Sure, f.reading AS Reading, f.reading_unit AS ReadingUnit, f.points AS Points,
               f.instrument AS Instrument, f.conditions AS Conditions, f.session AS Session, f.showed AS Showed, f.note AS Note,
               f.event_when AS EventWhen, f.event_then AS EventThen, f.trial AS Trial, f.own AS Own
        FROM entry AS e JOIN finding AS f ON f.seq = e.content_seq
        WHERE e.vehicle_id = @vehicleId AND e.kind = 'finding'
          AND e.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = e.entry_id AND n.recorded_at <= @knownAt)
        ORDER BY f.at, (SELECT min(n.seq) FROM entry AS n WHERE n.entry_id = e.entry_id)
        """;

    private const string InsertContent = """
        INSERT INTO finding (seq, complaint_id, at, at_offset, symptom, check_id, component, mode, outcome, sure, reading, reading_unit,
                             points, instrument, conditions, session, showed, confirmed, note, event_when, event_then, trial, own)
        VALUES (@seq, @ComplaintId, @at, @atOffset, @Event, @Check, @Component, @Mode, @Outcome, @Sure, @reading, @readingUnit,
                @points, @Instrument, @conditions, @Session, @Showed, @Confirmed, @Note, @eventWhen, @eventThen, @trial, @own)
        """;

    public string Kind => "finding";
    public string Noun => "finding";
    public string Location(Finding entry) => Routes.Finding.Replace("{entryId}", entry.Entry.Id, StringComparison.Ordinal);
    public EntryHead Head(Finding entry) => entry.Entry;

    // the text is made of the fault model's titles
    public string Tag(Finding entry) => Tags.Of(entry.Entry, cars.ModelsFingerprint);

    /// <returns>The new entry's id.</returns>
    public string Begin(Session session, string vehicleId, FindingContent content)
    {
        var (seq, entryId) = Ledger.Begin(session, Kind, vehicleId);
        Insert(session, seq, content);
        return entryId;
    }

    public void Insert(Session session, long seq, FindingContent input)
    {
        var f = input.Input;
        session.Connection.Execute(InsertContent, new
        {
            seq,
            input.ComplaintId,
            at = Times.Write(f.At),
            atOffset = Times.Offset(f.At),
            f.Event,
            f.Check,
            f.Component,
            f.Mode,
            f.Outcome,
            f.Sure,
            reading = f.Reading?.Value,
            readingUnit = f.Reading?.Unit,
            points = Lists.WriteOrNull(f.Points),
            f.Instrument,
            conditions = Lists.WriteOrNull(f.Conditions),
            f.Session,
            f.Showed,
            f.Confirmed,
            f.Note,
            eventWhen = Lists.WriteOrNull(f.When),
            eventThen = Lists.WriteOrNull(f.Then),
            trial = Lists.WriteOrNull(f.Trial),
            own = Lists.WriteOrNull(f.Own),
        });
    }

    public IReadOnlyList<Finding> Versions(SqliteConnection connection, string entryId)
    {
        var rows = connection.Query<Row>(SelectVersions, new { entryId }).ToList();
        return rows.Count == 0 ? [] : [.. rows.Select(r => r.Entry(cars.Find(connection, r.VehicleId)!))];
    }

    /// <summary>As known at an instant, void ones included, in the order of their own time.</summary>
    public IReadOnlyList<Finding> OfVehicle(SqliteConnection connection, Car car, string knownAt = Times.End) =>
        [.. connection.Query<Row>(SelectOfVehicle, new { vehicleId = car.Vehicle.Entry.Id, knownAt }).Select(r => r.Entry(car))];

    internal sealed record Row
    {
        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public string VehicleId { get; init; } = "";
        public string? ComplaintId { get; init; }
        public string At { get; init; } = "";
        public long AtOffset { get; init; }
        public string? Event { get; init; }
        public string? CheckId { get; init; }
        public string? Component { get; init; }
        public string? Mode { get; init; }
        public string? Outcome { get; init; }
        public long Sure { get; init; }
        public double? Reading { get; init; }
        public string? ReadingUnit { get; init; }
        public string? Points { get; init; }
        public string? Instrument { get; init; }
        public string? Conditions { get; init; }
        public string? Session { get; init; }
        public string Showed { get; init; } = "";
        public string? Note { get; init; }
        public string? EventWhen { get; init; }
        public string? EventThen { get; init; }
        public string? Trial { get; init; }
        public string? Own { get; init; }

        public Finding Entry(Car car)
        {
            Finding bare = new(
                new EntryHead(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason), VehicleId, ComplaintId, Times.Read(At, AtOffset),
                Event, CheckId, Component, Mode, Outcome, Sure == 1, Reading is { } value ? new Measured(value, ReadingUnit!) : null,
                Lists.ReadOrNull<IReadOnlyList<PressurePoint>>(Points), Instrument, Lists.ReadOrNull<IReadOnlyDictionary<string, Measured>>(Conditions),
                Session, Showed, Note, "", Lists.ReadOrNull<IReadOnlyList<string>>(EventWhen), Lists.ReadOrNull<IReadOnlyList<string>>(EventThen),
                Lists.ReadOrNull<TrialDone>(Trial), Lists.ReadOrNull<OwnObservation>(Own));
            return bare with { Text = Sentences.Of(bare, car.Model) };
        }
    }
}
