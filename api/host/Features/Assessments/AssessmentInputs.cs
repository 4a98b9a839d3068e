using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Host.Facts;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Features.Incidents;
using FuelHistory.Host.Features.Instruments;
using FuelHistory.Host.Features.LayUps;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Features.Odometers;
using FuelHistory.Host.Features.SetAsides;
using FuelHistory.Host.Features.Settings;
using FuelHistory.Host.Features.Vehicles;
using FuelHistory.Host.Features.Works;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>The record as the computation needs it, with the entries themselves for putting the answer into words.</summary>
public sealed record Gathered(
    Car Car, ModelInUse InUse, Complaint Complaint, AssessmentInput Input, IReadOnlyList<Finding> Findings, IReadOnlyList<Work> Work,
    IReadOnlyList<LayUp> LayUps, IReadOnlyList<Incident> Incidents, string Currency, string Figures);

/// <summary>Gathers what had happened by a day, as far as it was recorded by an instant.</summary>
public sealed class AssessmentInputs(
    SqliteFile file, ModelHistory models, VehicleStore vehicles, ComplaintStore complaints, FindingStore findings, WorkStore works,
    OdometerStore odometers, LayUpStore layUps, IncidentStore incidents, InstrumentStore instruments, LimitStore limits, SettingsStore settings,
    SetAsideStore setAsides)
{
    public Refused? Gather(string complaintId, DateOnly asOf, DateTimeOffset? knownAt, out Gathered? gathered)
    {
        using var connection = file.Open();
        return Gather(connection, complaintId, asOf, knownAt, Supposition.None, out gathered);
    }

    /// <param name="supposed">Taken as recorded, or as not recorded.</param>
    public Refused? Gather(SqliteConnection connection, string complaintId, DateOnly asOf, DateTimeOffset? knownAt, Supposition supposed, out Gathered? gathered)
    {
        gathered = null;
        var until = knownAt is { } instant ? Times.Write(instant) : Times.End;
        if (Known(complaints.Versions(connection, complaintId), c => c.Entry, knownAt) is not { } complaint
            || Known(vehicles.Versions(connection, complaint.VehicleId), v => v.Entry, knownAt) is not { } vehicle)
        {
            return ProblemAnswers.NotFound("complaint", complaintId);
        }

        if (complaint.Entry.VoidReason is { } reason)
        {
            return ProblemAnswers.Closed($"The complaint is void ({reason}); there is nothing to assess.");
        }

        var inUse = InUse(connection, vehicle.System, complaint, knownAt);
        gathered = Gather(connection, new Car(vehicle, inUse.Model.Source), inUse, complaint, asOf, until, supposed);
        return null;
    }

    /// <summary>The model of then where one asks what was known then; else today's, which may be another than the complaint was last answered with.</summary>
    private ModelInUse InUse(SqliteConnection connection, string system, Complaint complaint, DateTimeOffset? knownAt) =>
        knownAt is { } instant ? models.At(connection, system, instant)
            : complaint.Closed is not null ? models.Now(connection, system, complaint.Entry.RecordedAt, "the complaint was closed")
            : models.Now(connection, system, Ledger.FirstRecorded(connection, complaint.VehicleId)[complaint.Entry.Id], "the complaint was opened");

    private Gathered Gather(SqliteConnection connection, Car car, ModelInUse inUse, Complaint complaint, DateOnly asOf, string until, Supposition supposed)
    {
        var id = car.Vehicle.Entry.Id;
        RecordFacts facts = new(car, asOf, Ledger.FirstRecorded(connection, id).Concat(supposed.Recorded).ToDictionary());
        bool Counts(EntryHead entry) => !supposed.LeaveOut.Contains(entry.Id);
        var work = facts.Happened([.. works.OfVehicle(connection, id, until).Where(w => Counts(w.Entry)), .. supposed.Work], w => w.Entry, w => w.Date);
        var clock = facts.Happened(odometers.OfVehicle(connection, id, until), o => o.Entry, o => o.Date);
        var stood = facts.Happened(layUps.OfVehicle(connection, id, until), l => l.Entry, l => l.From);
        var happened = facts.Happened(incidents.OfVehicle(connection, id, until), i => i.Entry, i => i.Date);
        var found = findings.OfVehicle(connection, car, until).Where(f => Counts(f.Entry)).Concat(supposed.Findings)
            .Where(f => f.Entry.VoidReason is null && DateOnly.FromDateTime(f.At.DateTime) <= asOf).ToList();
        var (now, _) = settings.Newest(connection, until);
        var firstUse = facts.FirstUse([.. work.Select(w => w.Date), .. clock.Select(o => o.Date), .. stood.Select(l => l.From)]);
        facts = facts.UsedFrom(firstUse);
        CarRecord record = new()
        {
            FirstUse = firstUse,
            Complete = car.Vehicle.RecordComplete,
            Absent = car.Absent,
            Odometer = facts.Odometer(clock, work),
            LayUps = [.. stood.Select(facts.Span)],
            Work = [.. work.Select(facts.Of)],
            Incidents = [.. happened.Select(facts.Of)],
            Findings = [.. found.Select(facts.Of)],
            Instruments = [.. instruments.All(connection, until).Select(RecordFacts.Of)],
            Limits = [.. LimitStore.InForce(limits.OfVehicle(connection, id, until)).Select(facts.Of)],
            Closed = [.. complaints.OfVehicle(connection, id, until).Where(c => c.Entry.VoidReason is null).Select(facts.ClosedBy).OfType<ClosedComplaint>()],
        };
        var fact = facts.Of(complaint);
        AssessmentInput input = new(record, fact, asOf, (double)now.LabourRate / 60, now.ToolsAtHand?.ToHashSet(), SetAside: setAsides.Standing(connection, car, asOf, until));
        return new Gathered(car, inUse, complaint, input, found, work, stood, happened, now.Currency, now.Figures);
    }

    private static T? Known<T>(IReadOnlyList<T> versions, Func<T, EntryHead> head, DateTimeOffset? knownAt) where T : class =>
        versions.FirstOrDefault(v => knownAt is null || head(v).RecordedAt <= knownAt);
}
