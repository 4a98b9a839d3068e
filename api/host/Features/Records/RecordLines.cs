using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Features.Incidents;
using FuelHistory.Host.Features.LayUps;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Features.Odometers;
using FuelHistory.Host.Features.SetAsides;
using FuelHistory.Host.Features.Vehicles;
using FuelHistory.Host.Features.Works;
using FuelHistory.Host.Validation;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Records;

/// <summary>Gathers the timeline of one vehicle from the stores, newest first.</summary>
public sealed class RecordLines(
    VehicleStore vehicles, OdometerStore odometers, LayUpStore layUps, IncidentStore incidents, WorkStore works, ComplaintStore complaints, FindingStore findings,
    LimitStore limits, SetAsideStore setAsides)
{
    public IReadOnlyList<RecordLine> Of(SqliteConnection connection, Car car)
    {
        var id = car.Vehicle.Entry.Id;
        IEnumerable<(DateTimeOffset? At, EntryHead Head, RecordLine Line)> all =
        [
            .. Vehicle(connection, car),
            .. odometers.OfVehicle(connection, id).Select(o => Line("odometer", o.Entry, o.Date, Sentences.Of(o), o.Note)),
            .. layUps.OfVehicle(connection, id).Select(l => Line("lay-up", l.Entry, l.From, Sentences.Of(l), l.Note)),
            .. incidents.OfVehicle(connection, id).Select(i => Line("incident", i.Entry, i.Date, Sentences.Of(i, car.Model), i.Note)),
            .. works.OfVehicle(connection, id).Select(w => Line("work", w.Entry, w.Date, Sentences.Of(w, car.Model), Detail(w), at: w.At)),
            .. complaints.OfVehicle(connection, id).SelectMany(c => Complaint(c, car)),
            .. limits.OfVehicle(connection, id).Select(l => Line("limit", l.Entry, Sentences.Day(l.Entry.RecordedAt), Sentences.Of(l, car.Model), Detail(l))),
            .. setAsides.OfVehicle(connection, car).Select(s => Line("set-aside", s.Entry, Sentences.Day(s.Entry.RecordedAt), Sentences.Of(s), s.Note, s.ComplaintId)),
            .. findings.OfVehicle(connection, car).Select(f => Line("finding", f.Entry, Sentences.Day(f.At), f.Text, f.Note, f.ComplaintId, f.At)),
        ];
        return [.. all
            .OrderByDescending(l => RoughDate.Parse(l.Line.Date))
            .ThenByDescending(l => l.At ?? l.Head.RecordedAt)
            .Select(l => l.Line)];
    }

    private IEnumerable<(DateTimeOffset? At, EntryHead Head, RecordLine Line)> Vehicle(SqliteConnection connection, Car car)
    {
        var v = car.Vehicle;
        yield return Line("vehicle", v.Entry, v.InUseSince ?? v.Year.TrimEnd('~'), Sentences.Of(v), v.Note);
        if (vehicles.ArchivedBecause(connection, v.Entry.Id) is { } reason)
        {
            yield return Line("vehicle", v.Entry, Sentences.Day(v.Entry.RecordedAt), $"Archived: {reason}", null);
        }
    }

    private static IEnumerable<(DateTimeOffset? At, EntryHead Head, RecordLine Line)> Complaint(Complaint c, Car car)
    {
        yield return Line("complaint", c.Entry, c.Since, Sentences.Of(c), c.Note, c.Entry.Id, c.OpenedAt);
        if (c.Closed is { } closing)
        {
            yield return Line("closing", c.Entry, Sentences.Day(closing.At), Sentences.Of(closing, car.Model), Detail(c, closing), c.Entry.Id, closing.At);
        }
    }

    private static (DateTimeOffset? At, EntryHead Head, RecordLine Line) Line(
        string kind, EntryHead head, string date, string text, string? detail, string? complaintId = null, DateTimeOffset? at = null) =>
        (at, head, new RecordLine(kind, head.Id, head.Version, date, text, string.IsNullOrEmpty(detail) ? null : detail, complaintId, head.VoidReason));

    private static string? Detail(Limit l)
    {
        string?[] parts = [l.Printed is null ? null : $"printed: {l.Printed}", l.LibraryId is null ? null : $"library {l.LibraryId}", l.Note];
        return string.Join("; ", parts.Where(p => p is not null));
    }

    private static string? Detail(Complaint c, Closing closing) => string.Join("; ",
        new[] { closing.Note, c.ClosedUnder is { } model ? $"by fault model {model.Id}, revision {model.Revision}" : null }.Where(p => !string.IsNullOrEmpty(p)));

    private static string? Detail(Work w)
    {
        string?[] parts =
        [
            w.Maker is null ? null : $"maker {w.Maker}",
            w.PartNumber is null ? null : $"part number {w.PartNumber}",
            w.Odometer is null ? null : $"at {MeasuredRules.Text(w.Odometer)}",
            w.Cost is null ? null : $"{w.Cost.Amount.ToString(System.Globalization.CultureInfo.InvariantCulture)} {w.Cost.Currency}",
            w.Reason is "unknown" ? null : w.Reason is "failed" ? "because it had failed" : "as a precaution",
            w.Note,
        ];
        return string.Join("; ", parts.Where(p => p is not null));
    }
}
