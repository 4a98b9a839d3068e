using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Features.Works;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Findings;

/// <summary>A finding that says the opposite of another one of the same complaint, with no work between the two.</summary>
public sealed class FindingConflicts(FindingStore findings, ComplaintStore complaints, WorkStore works)
{
    public void Check(Step step, NewFinding input, string complaintId)
    {
        if (input is { Event: null, Own: null } || !input.Sure)
        {
            return;
        }

        var connection = step.Session.Connection;
        var intermittent = complaints.Versions(connection, complaintId)[0].Course == "intermittent";
        var others = findings.OfVehicle(connection, step.Car!)
            .Where(f => f.ComplaintId == complaintId && f.Entry.VoidReason is null && f.Entry.Id != step.Present?.EntryId && f.Sure);
        foreach (var other in others.Where(o => Opposite(step.Car!, input, o, intermittent) && !WorkBetween(connection, step.Car!, input.At, o.At)))
        {
            var way = input.Event is null ? "" : ", or give yours a session of its own if the car did otherwise in the meantime";
            step.Faults.Add(
                input.Event is null ? "/own/direction" : "/event", Problems.Unsuitable,
                $"\"{Text(step.Car!, input)}\" and \"{other.Text}\" ({Sentences.Day(other.At)}) cannot both be right. Correct or void the one that is mistaken (id {other.Entry.Id}){way}.");
        }
    }

    public static string Session(string? label, DateTimeOffset at) => label ?? Sentences.Day(at);

    private static bool Opposite(Car car, NewFinding input, Finding other, bool intermittent)
    {
        if (input.Own is { } own)
        {
            return other.Own is { } theirs && theirs.Component == own.Component && theirs.Side == own.Side && theirs.Direction != own.Direction;
        }

        // what comes and goes may be there at one hour and not at another
        return other.Event is not null && Session(input.Session, input.At) == Session(other.Session, other.At) && (!intermittent || input.At == other.At)
            && EventClaims.Of(car.Model, new EventAnswer(input.Event!, input.Outcome!, input.When, input.Then)) is { } mine
            && EventClaims.Of(car.Model, other) is { } claims && mine.Contradicts(claims);
    }

    private bool WorkBetween(SqliteConnection connection, Car car, DateTimeOffset one, DateTimeOffset two)
    {
        var (first, last) = one < two ? (one, two) : (two, one);
        return works.OfVehicle(connection, car.Vehicle.Entry.Id).Any(w => w.Entry.VoidReason is null && w.Action != "inspected" && (w.At is { } at
            ? at >= first && at <= last
            : RoughDate.Parse(w.Date) is var date && date.Latest >= DateOnly.FromDateTime(first.DateTime) && date.Earliest <= DateOnly.FromDateTime(last.DateTime)));
    }

    private static string Text(Car car, NewFinding f) => Sentences.Of(
        new Finding(
            new EntryHead("", 0, f.At), car.Vehicle.Entry.Id, null, f.At, f.Event, null, null, null, f.Outcome, f.Sure, null, null, null, null, f.Session, f.Showed, f.Note, "",
            f.When, f.Then, null, f.Own),
        car.Model);
}
