using FuelHistory.Contracts;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.LeakDowns;

/// <summary>A leak-down as the one finding that it becomes, or would become now.</summary>
public sealed class LeakFindings(LeakDownStore store, LeakReadingStore readings, FindingStore findings, LeakDownRules rules)
{
    /// <returns>Null while no reading stands.</returns>
    public NewFinding? Of(SqliteConnection connection, LeakDown leakDown, DateTimeOffset now)
    {
        // where a logger and a hand noted the same moment, the logger's mean counts
        IReadOnlyList<PressurePoint> points =
        [
            .. readings.Of(connection, leakDown.Entry.Id).Where(r => r.TakenBack is null).GroupBy(r => r.Minutes).Select(g => g.MaxBy(r => r.Samples)!)
                .Select(r => new PressurePoint(r.Minutes, r.Pressure)),
        ];
        if (points.Count == 0)
        {
            return null;
        }

        var last = leakDown.StoppedAt.AddMinutes(points[^1].Minutes);
        return new NewFinding(
            last < now ? last : now.ToOffset(leakDown.StoppedAt.Offset), Check: leakDown.Check, Points: points, Instrument: leakDown.Instrument,
            Session: leakDown.Session, Showed: leakDown.Showed, Confirmed: readings.Confirmed(connection, leakDown.Entry.Id), Note: Note(leakDown));
    }

    public Refused? CheckFinish(Step step)
    {
        if (rules.Open(step) is { } shut)
        {
            return shut;
        }

        if (Of(step.Session.Connection, store.Versions(step.Session.Connection, step.Present!.EntryId)[0], step.Session.Now) is null)
        {
            step.Faults.Required("/readings", "No reading stands, so there is nothing to finish with. Send a reading first, or void the leak-down.");
        }

        return null;
    }

    /// <summary>Enters the finding in the same step.</summary>
    public LeakDownContent Finish(Step step)
    {
        var d = store.Versions(step.Session.Connection, step.Present!.EntryId)[0];
        var finding = Of(step.Session.Connection, d, step.Session.Now)!;
        var id = findings.Begin(step.Session, d.VehicleId, new FindingContent(finding, d.ComplaintId));
        return new LeakDownContent(new NewLeakDown(d.Check, d.StoppedAt, d.Unit, d.Instrument, d.Ambient, d.Fuel, d.Session, d.Showed, d.Note), d.ComplaintId, id);
    }

    /// <summary>With a leak-down its finding ceases to count.</summary>
    public void Void(Step step, string reason)
    {
        if (store.Versions(step.Session.Connection, step.Present!.EntryId)[0].Finding is { } id && Ledger.Newest(step.Session.Connection, findings.Kind, id) is { IsVoid: false } standing)
        {
            Ledger.Void(step.Session, findings.Kind, standing, reason);
        }
    }

    private static string? Note(LeakDown d)
    {
        string?[] parts = [d.Note, d.Ambient is { } air ? $"Ambient {MeasuredRules.Text(air)}." : null, d.Fuel is { } fuel ? $"Fuel {MeasuredRules.Text(fuel)}." : null];
        var note = string.Join(' ', parts.Where(p => p is not null));
        return note.Length == 0 ? null : note;
    }
}
