using FuelHistory.Contracts;
using FuelHistory.Host.Features.LeakDowns;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.LeakImports;

/// <summary>Takes a logger's file into a leak-down: whole or not at all.</summary>
public sealed class LeakImports(
    SqliteFile file, LeakDownStore store, LeakReadingStore readings, LeakImportStore imports, LeakDownRules rules, Entries entries, Cars cars)
{
    public async Task<Refused?> Take(string entryId, HttpRequest request, LeakFileQuery query, CancellationToken cancelled)
    {
        // 1. a leak-down that takes no file is said before the file is sent
        if (entries.Beside(store, entryId, rules.Open, _ => { }) is { } shut)
        {
            return shut;
        }

        // 2. receive and read; no lock is held meanwhile
        await using var upload = await Upload.Receive(request, cancelled);
        Faults faults = new();
        var read = Read(faults, entryId, upload, query);
        if (!faults.None)
        {
            return ProblemAnswers.Invalid(faults);
        }

        // 3. store: the file, and the readings made of it
        var (found, form, confirmed) = read;
        LeakImport import = new(default, upload.Sha256, upload.Bytes, found.Samples, found.BeforeStop, found.Stretches.Count, form);
        var repeated = false;
        return entries.Beside(store, entryId, step => rules.Open(step) ?? Once(step, entryId, import, out repeated), step =>
        {
            if (!repeated)
            {
                var seq = imports.Add(step.Session, entryId, import, upload.Packed());
                readings.Add(step.Session, entryId, found.Stretches.Select((s, place) => Row(s, place, form.Unit, confirmed, seq)));
            }
        });
    }

    private (LeakFile Found, LeakFileForm Form, bool Confirmed) Read(Faults faults, string entryId, Upload upload, LeakFileQuery query)
    {
        using var connection = file.Open();
        var leakDown = store.Versions(connection, entryId)[0];
        var (form, confirmed) = LeakFileForms.Read(faults, query, upload.Fields, leakDown.Unit);
        LeakFile nothing = new([], 0, 0);
        if (upload.Several)
        {
            faults.Add("", Problems.TooMany, "The form holds more than one file; send one at a time.");
        }

        if (upload.Bytes == 0)
        {
            faults.Required("", "There is no file, or it is empty; send the logger's CSV as the body, or as the file of a form.");
        }

        if (!faults.None)
        {
            return (nothing, form, confirmed);
        }

        var check = cars.Find(connection, leakDown.VehicleId)!.Check(leakDown.Check)!;
        using var content = upload.Content();
        return (new LeakFileReader(form, check, leakDown.StoppedAt, confirmed).Read(faults, content, upload.Encoding), form, confirmed);
    }

    // the same file read in the same way is a repeat
    private Refused? Once(Step step, string entryId, LeakImport import, out bool repeated)
    {
        var before = store.Versions(step.Session.Connection, entryId)[0].Import;
        repeated = before is not null && before.Sha256 == import.Sha256 && before.Form == import.Form;
        if (before is not null && !repeated)
        {
            step.Faults.Add("", Problems.Differs, $"This leak-down holds a file already ({before.Samples} samples, SHA-256 {before.Sha256[..12]}), and this one differs from it or is read otherwise. Begin another leak-down for it, and void this one if its file was the wrong one.");
        }

        return null;
    }

    private static ReadingRow Row(Stretch s, int place, string unit, bool confirmed, long import) => new(
        $"file-{place + 1}", s.Minutes, new Measured(Math.Max(0, s.Pressure), unit), s.Samples > 1 ? s.Lowest : null, s.Samples > 1 ? s.Highest : null, s.Samples, confirmed, import);
}
