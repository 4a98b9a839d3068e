using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Works;

public sealed class WorkStore : IEntryStore<NewWork, Work>
{
    private const string SelectVersions = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               w.date AS Date, w.action AS Action, w.components AS Components, w.known AS Known, w.at AS At, w.at_offset AS AtOffset,
               w.quality AS Quality, w.part_age_years AS PartAgeYears, w.odometer AS Odometer, w.odometer_unit AS OdometerUnit, w.maker AS Maker,
               w.part_number AS PartNumber, w.cost_minor AS CostMinor, w.cost_currency AS CostCurrency, w.reason AS Reason, w.note AS Note,
               w.outcome AS Outcome, w.mode AS Mode, w.how AS How, w.sure AS Sure
        FROM entry AS e JOIN work AS w ON w.seq = e.content_seq
        WHERE e.kind = 'work' AND e.entry_id = @entryId
        ORDER BY e.version DESC
        """;

    private const string SelectOfVehicle = """
        SELECT e.entry_id AS EntryId, e.version AS Version, e.recorded_at AS RecordedAt, e.void_reason AS VoidReason, e.vehicle_id AS VehicleId,
               w.date AS Date, w.action AS Action, w.components AS Components, w.known AS Known, w.at AS At, w.at_offset AS AtOffset,
               w.quality AS Quality, w.part_age_years AS PartAgeYears, w.odometer AS Odometer, w.odometer_unit AS OdometerUnit, w.maker AS Maker,
               w.part_number AS PartNumber, w.cost_minor AS CostMinor, w.cost_currency AS CostCurrency, w.reason AS Reason, w.note AS Note,
               w.outcome AS Outcome, w.mode AS Mode, w.how AS How, w.sure AS Sure
        FROM entry AS e JOIN work AS w ON w.seq = e.content_seq
        WHERE e.vehicle_id = @vehicleId AND e.kind = 'work'
          AND e.version = (SELECT max(n.version) FROM entry AS n WHERE n.entry_id = e.entry_id AND n.recorded_at <= @knownAt)
        ORDER BY (SELECT min(n.seq) FROM entry AS n WHERE n.entry_id = e.entry_id)
        """;

    private const string InsertContent = """
        INSERT INTO work (seq, date, action, components, known, at, at_offset, quality, part_age_years, odometer, odometer_unit,
                          maker, part_number, cost_minor, cost_currency, reason, note, outcome, mode, how, sure)
        VALUES (@seq, @Date, @Action, @components, @Known, @at, @atOffset, @Quality, @PartAgeYears, @odometer, @odometerUnit,
                @Maker, @PartNumber, @costMinor, @costCurrency, @Reason, @Note, @Outcome, @Mode, @How, @Sure)
        """;

    public string Kind => "work";
    public string Noun => "work entry";
    public string Location(Work entry) => Routes.Work.Replace("{entryId}", entry.Entry.Id, StringComparison.Ordinal);
    public EntryHead Head(Work entry) => entry.Entry;

    public void Insert(Session session, long seq, NewWork input) => session.Connection.Execute(InsertContent, new
    {
        seq,
        Date = RoughDate.Normal(input.Date),
        input.Action,
        components = Lists.Write(input.Components),
        input.Known,
        at = input.At is { } at ? Times.Write(at) : null,
        atOffset = input.At is { } there ? Times.Offset(there) : (long?)null,
        input.Quality,
        input.PartAgeYears,
        odometer = input.Odometer?.Value,
        odometerUnit = input.Odometer?.Unit,
        input.Maker,
        input.PartNumber,
        costMinor = input.Cost is { } cost ? Amounts.ToMinor(cost.Amount, cost.Currency) : (long?)null,
        costCurrency = input.Cost?.Currency,
        input.Reason,
        input.Note,
        input.Outcome,
        input.Mode,
        input.How,
        input.Sure,
    });

    public IReadOnlyList<Work> Versions(SqliteConnection connection, string entryId) =>
        [.. connection.Query<Row>(SelectVersions, new { entryId }).Select(r => r.Entry)];

    /// <summary>As known at an instant, void ones included, in the order of entry.</summary>
    public IReadOnlyList<Work> OfVehicle(SqliteConnection connection, string vehicleId, string knownAt = Times.End) =>
        [.. connection.Query<Row>(SelectOfVehicle, new { vehicleId, knownAt }).Select(r => r.Entry)];

    internal sealed record Row
    {
        public string EntryId { get; init; } = "";
        public long Version { get; init; }
        public string RecordedAt { get; init; } = "";
        public string? VoidReason { get; init; }
        public string VehicleId { get; init; } = "";
        public string Date { get; init; } = "";
        public string Action { get; init; } = "";
        public string Components { get; init; } = "";
        public string Known { get; init; } = "";
        public string? At { get; init; }
        public long? AtOffset { get; init; }
        public string Quality { get; init; } = "";
        public double? PartAgeYears { get; init; }
        public double? Odometer { get; init; }
        public string? OdometerUnit { get; init; }
        public string? Maker { get; init; }
        public string? PartNumber { get; init; }
        public long? CostMinor { get; init; }
        public string? CostCurrency { get; init; }
        public string Reason { get; init; } = "";
        public string? Note { get; init; }
        public string? Outcome { get; init; }
        public string? Mode { get; init; }
        public string? How { get; init; }
        public long Sure { get; init; }

        public Work Entry => new(
            new EntryHead(EntryId, (int)Version, Times.Read(RecordedAt), VoidReason), VehicleId, Date, Action,
            Lists.Read<IReadOnlyList<string>>(Components), Known, Times.Read(At, AtOffset), Quality, PartAgeYears,
            Odometer is { } value ? new Measured(value, OdometerUnit!) : null, Maker, PartNumber,
            Amounts.Read(CostMinor, CostCurrency), Reason, Note, Outcome, Mode, How, Sure == 1);
    }
}
