using System.CommandLine;
using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Plain;

/// <summary>A leak-down by one command: begun, given its readings or a logger's file, finished, and what it says printed.</summary>
internal static class LeakDowns
{
    private static readonly Argument<string> Subject = new("complaint") { Description = "a complaint, or a vehicle with one open complaint" };
    private static readonly Option<string?> Check = new("--check") { Description = "the check that was made; without one the leak-downs of the complaint are listed" };
    private static readonly Option<string[]> Readings = new("--reading") { Description = "minutes since the stop and pressure: 4:1.9 or \"4: 1.9 bar\"; once for each look", AllowMultipleArgumentsPerToken = true };
    private static readonly Option<string?> Instrument = new("--instrument") { Description = "the gauge that was read; the only one is taken by itself" };
    private static readonly Option<string?> Stopped = new("--stopped-at") { Description = "when the pump stopped, such as \"2026-03-14 15:30\"; else the last reading was taken just now" };
    private static readonly Option<string?> File = new("--import") { Description = "a logger's file (CSV) instead of readings" };
    private static readonly Option<string?> Time = Of("--time", "column with the time"), Value = Of("--value", "column with the pressure"), Unit = Of("--unit", "its unit"), TimeUnit = Of("--time-unit", "s, min, h, ms or instant"),
        Stop = Of("--stop", "time in the file at which the pump stopped"), Point = Of("--decimal", "point or comma"), Delimiter = Of("--delimiter", "comma, semicolon or tab"), Header = Of("--header", "true or false"), Skip = Of("--skip", "lines before the headings");

    public static Command Verb(Start start)
    {
        Command command = new("leak-down", "Enter a pressure that was watched after the stop, and print what it says")
        {
            Subject, Check, Readings, Instrument, Stopped, File, Time, Value, Unit, TimeUnit, Stop, Point, Delimiter, Header, Skip,
        };
        var about = Enter.OptionsOf(LeakForms.Details(TimeProvider.System, "°C", LeakDetails.None, _ => { }));
        foreach (var option in about) command.Add(option);
        return start.Verb(command, async (session, parsed) =>
        {
            var complaint = await session.Resolve.Complaint(parsed.GetValue(Subject)!);
            if (parsed.GetValue(Check) is not { } check)
                return session.Printer.Print(await complaint.Then(known => session.Calls.Ask(api => api.LeakDowns(known.Entry.Id, session.Stop))), all => List(all, session.Printer.Signs));
            if ((parsed.GetValue(Readings) is { Length: > 0 }) == (parsed.GetValue(File) is not null)) throw new NameFailure("Give --reading MINUTES:PRESSURE for each look, or --import with a file.");
            var data = await complaint.Then(known => FormSource.Complaint(session.Calls, session.Clock, known.Entry.Id, session.Stop));
            var view = await data.Then(known => Send(session, parsed, known, check, about));
            return session.Printer.Print(view, got => Lines(got, session.Printer.Width, session.Printer.Signs), entering: true);
        });
    }

    private static async Task<Answer<LeakDownView>> Send(Session session, ParseResult parsed, FormData data, string check, List<Option<string?>> about)
    {
        var (calls, stop) = (session.Calls, session.Stop);
        var watched = Resolve.One([.. data.Model!.Checks.Where(each => each.Kind is "leak-down")], each => new(each.Id, each.Title), check, "leak-down check");
        var gauge = Gauge(data, parsed.GetValue(Instrument));
        var unit = gauge?.Unit ?? data.Unit(watched.Quantity, watched.Unit) ?? "bar";
        var readings = Typed(session, parsed, unit);
        var stoppedAt = StoppedAt(session, parsed, readings);
        var known = await Details(session, parsed, data.Unit("temperature", "°C") ?? "°C", about);
        await using var csv = parsed.GetValue(File) is { } path ? Opened(path) : null;
        var begun = await calls.Ask(api => api.BeginLeakDown(data.Complaint!.Entry.Id, new NewLeakDown(watched.Id, stoppedAt, unit, gauge?.Entry.Id, known.Ambient, known.Fuel, known.Session, known.Showed, known.Note), stop));
        return await begun.Then(async running =>
        {
            var id = running.Entry.Id;
            var added = csv is null
                ? await calls.Ask(api => api.AddLeakReadings(id, new NewLeakReadings(readings), stop))
                : await calls.Ask(api => api.ImportLeakDown(id, csv, G(Time), G(Value), G(Unit), G(TimeUnit), G(Stop), G(Point), G(Delimiter), G(Header), G(Skip), parsed.GetValue(Start.Confirmed) ? "true" : null, stop));
            // of a refused one nothing half stays; the refusal is what is printed
            if (added is Refused<LeakDownView>) await calls.AskAside(api => api.VoidLeakDown(id, new VoidRequest("its readings were refused"), stop));
            return await (await added.Then(_ => calls.Ask(api => api.FinishLeakDown(id, stop)))).Then(_ => calls.Ask(api => api.LeakDown(id, stop)));
        });

        string? G(Option<string?> option) => parsed.GetValue(option);
    }

    private static async Task<LeakDetails> Details(Session session, ParseResult parsed, string temperature, List<Option<string?>> about)
    {
        var details = LeakDetails.None;
        var form = LeakForms.Details(session.Clock, temperature, details, filled => details = filled);
        foreach (var field in form.Fields)
            if (parsed.GetValue(about.First(option => option.Name == field.Option)) is { } text && field.Take(text) is { } wrong) throw new NameFailure($"{field.Option}: {wrong}");
        var filled = form.Fill(false);
        if (filled.Faults.Count > 0) throw new NameFailure(filled.Faults[0].Detail);
        await filled.Send(session.Stop);
        return details;
    }

    private static List<NewLeakReading> Typed(Session session, ParseResult parsed, string unit)
    {
        TypedField field = new("reading", "Readings", "", string.Join(';', parsed.GetValue(Readings) ?? []));
        Draft draft = new(session.Clock);
        var points = draft.Points(field, unit) ?? [];
        if (draft.Faults.Count > 0) throw new NameFailure(draft.Faults[0].Detail);
        return [.. points.Select(each => new NewLeakReading(each.Pressure, each.Minutes, Confirmed: parsed.GetValue(Start.Confirmed)))];
    }

    private static DateTimeOffset StoppedAt(Session session, ParseResult parsed, List<NewLeakReading> readings)
    {
        Draft draft = new(session.Clock);
        var given = draft.Moment(new TypedField("stoppedAt", "Stopped", "", parsed.GetValue(Stopped) ?? ""));
        if (draft.Faults.Count > 0) throw new NameFailure(draft.Faults[0].Detail);
        var last = Math.Clamp(readings.Select(each => each.Minutes ?? 0).DefaultIfEmpty(0).Max(), 0, 24 * 60);
        return given ?? session.Clock.GetLocalNow().AddMinutes(-last);
    }

    private static Instrument? Gauge(FormData data, string? text)
    {
        List<Instrument> gauges = [.. data.Instruments.Where(each => each.Quantity is "pressure")];
        return text is not null ? Resolve.One(gauges, each => new(each.Entry.Id, each.Name), text, "gauge") : gauges is [var only] ? only : null;
    }

    private static FileStream Opened(string path)
    {
        try
        {
            return System.IO.File.OpenRead(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new NameFailure($"The file cannot be read: {e.Message}");
        }
    }

    private static IEnumerable<Line> List(IReadOnlyList<LeakDown> all, Signs signs) => all.Count == 0
        ? [Line.Of("No leak-down is recorded for this complaint.")]
        : all.Select(each => Line.Of(Clean.Of($"{Figures.Moment(each.StoppedAt)}  {each.State}  {each.Title}, readings: {each.Readings}  [{each.Entry.Id}]", signs)));

    private static IEnumerable<Line> Lines(LeakDownView view, int width, Signs signs)
    {
        foreach (var caution in view.LeakDown.Cautions) foreach (var piece in Cells.Wrap(Clean.Of($"CAUTION: {caution}", signs), width - 2)) yield return Line.Of(piece);
        yield return Line.Of(Clean.Of($"Entered: {view.LeakDown.Title}, one finding of {view.LeakDown.Readings} readings [{view.LeakDown.Finding}]", signs));
        if (view.Analysis is not { } outlook) yield break;
        foreach (var line in LeakLines.Outlook(outlook, width, signs)) yield return line;
        yield return Line.Of(Clean.Of($"  Limit: {Figures.Plain(outlook.Limit)} {outlook.Unit} at {Figures.Minutes(outlook.LimitMinutes)} ({outlook.LimitSource})", signs));
    }

    private static Option<string?> Of(string name, string about) => new(name) { Description = $"with --import: {about}" };
}
