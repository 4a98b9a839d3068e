using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.LeakDowns;

/// <summary>Readings as they arrive: in any order, perhaps more than once.</summary>
public sealed class LeakReadings(LeakDownStore store, LeakReadingStore readings, LeakDownRules rules, Entries entries)
{
    /// <summary>Nobody types more; a logger's file goes to the import.</summary>
    private const int MostAtOnce = 2000, MostByHand = 20_000;

    private const int LongestId = 64;
    private const double LongestMinutes = 24 * 60;

    // about a millisecond: a repeat from a client that rounds otherwise is still a repeat
    private const int MinutesDecimals = 5;

    public Refused? Add(string entryId, NewLeakReadings input)
    {
        List<ReadingRow> fresh = [];
        return entries.Beside(store, entryId, step => Check(step, input, fresh), step => readings.Add(step.Session, entryId, fresh));
    }

    /// <summary>Undo. Taking back twice is no fault.</summary>
    public Refused? TakeBack(string entryId, string readingId)
    {
        var known = true;
        return entries.Beside(
            store, entryId,
            step =>
            {
                var reading = readings.Of(step.Session.Connection, entryId).FirstOrDefault(r => r.Id == readingId);
                known = reading is { TakenBack: not null };
                return rules.Open(step) ?? (reading is null ? ProblemAnswers.NotFound("reading", readingId) : null);
            },
            step =>
            {
                if (!known)
                {
                    readings.TakeBack(step.Session, entryId, readingId);
                }
            });
    }

    private Refused? Check(Step step, NewLeakReadings input, List<ReadingRow> fresh)
    {
        if (rules.Open(step) is { } shut)
        {
            return shut;
        }

        if (input.Readings.Count is 0 or > MostAtOnce)
        {
            step.Faults.Add("/readings", input.Readings.Count == 0 ? Problems.Required : Problems.TooMany, $"readings has {input.Readings.Count} entries; send 1 to {MostAtOnce} at once. A logger's file goes to {Routes.LeakDownImport}.");
            return null;
        }

        var connection = step.Session.Connection;
        var leakDown = store.Versions(connection, step.Present!.EntryId)[0];
        Arrivals arrivals = new(readings.Of(connection, leakDown.Entry.Id));
        for (var place = 0; place < input.Readings.Count; place++)
        {
            if (Read(step, leakDown, input.Readings[place], $"/readings/{place}") is { } row && arrivals.Take(step.Faults, $"/readings/{place}", row))
            {
                fresh.Add(row with { Id = row.Id.Length > 0 ? row.Id : Guid.CreateVersion7(step.Session.Now).ToString() });
            }
        }

        if (leakDown.Readings + fresh.Count > MostByHand)
        {
            step.Faults.Add("/readings", Problems.TooMany, $"This leak-down would have more than {MostByHand} readings; send a logger's samples as a file to {Routes.LeakDownImport}.");
        }

        return null;
    }

    /// <returns>Null with faults. An empty id: the sender gave none.</returns>
    private static ReadingRow? Read(Step step, LeakDown leakDown, NewLeakReading input, string here)
    {
        Faults faults = new();
        faults.Text("/id", input.Id, LongestId);
        if (input.Id is { } id && string.IsNullOrWhiteSpace(id))
        {
            faults.Required("/id", "id is empty; leave it out, or give an id of your own.");
        }

        if (input.Minutes is null == input.At is null)
        {
            faults.Add("", Problems.Unsuitable, "Give the time once: minutes since the stop, or the instant (at).");
        }

        step.Days.Past(faults, "/at", input.At);
        var minutes = Math.Round(input.Minutes ?? (input.At - leakDown.StoppedAt)?.TotalMinutes ?? 0, MinutesDecimals);
        if (input.At is { } at && at < leakDown.StoppedAt)
        {
            faults.Add("/at", Problems.OutOfRange, $"at lies before the stop ({Instants.Write(leakDown.StoppedAt)}); a leak-down begins there.");
        }
        else
        {
            faults.Within(input.At is null ? "/minutes" : "/at", minutes, 0, LongestMinutes, " min");
        }

        var check = step.Car!.Check(leakDown.Check)!;
        ReadingRules.Pressure(faults, "/pressure", check, input.Pressure, input.Confirmed);
        step.Faults.Under(here, faults);
        return faults.None ? new ReadingRow(input.Id ?? "", minutes, input.Pressure, Confirmed: input.Confirmed) : null;
    }
}
