using System.CommandLine;
using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Plain;

/// <summary>The verbs that enter something. Their options are the fields of the same forms that the screens show.</summary>
internal static class Enter
{
    private const string VehicleArgument = "vehicle", ComplaintArgument = "complaint", EitherArgument = "vehicle-or-complaint";

    public static IEnumerable<Command> Verbs(Start start)
    {
        yield return new Command("add", "Enter something")
        {
            Fill(start, "vehicle", "Add a vehicle", null, data => VehicleForms.Vehicle(data)),
            Fill(start, "work", "Enter work that was done", VehicleArgument, data => VehicleForms.Work(data)),
            Fill(start, "complaint", "Open a complaint", VehicleArgument, ComplaintForms.Complaint),
            Fill(start, "finding", "Enter what was found: an event, a check's outcome, a reading, a trial, a part seen, an observation of your own", EitherArgument, data => FindingForms.Any(data)),
            Fill(start, "set-aside", "Set a proposed check or trial aside: not fitted, no tool, not today", ComplaintArgument, data => SetAsideForms.SetAside(data, null)),
            Fill(start, "odometer", "Enter an odometer reading", VehicleArgument, data => VehicleForms.Odometer(data)),
            Fill(start, "lay-up", "Enter a time in which the car stood", VehicleArgument, data => VehicleForms.LayUp(data)),
            Fill(start, "incident", "Enter something that happened to the car", VehicleArgument, data => VehicleForms.Incident(data)),
            Fill(start, "limit", "Enter what this car should read", VehicleArgument, data => BenchForms.Limit(data)),
            Fill(start, "instrument", "Add a gauge, meter or vessel", null, data => BenchForms.Instrument(data)),
        };
        yield return Fill(start, "close", "Close a complaint with cause and proof", ComplaintArgument, ComplaintForms.Close);
        yield return Correct(start);
        yield return Archive(start);
        yield return Void(start);
        yield return Settings(start);
    }

    private static Command Fill(Start start, string name, string about, string? subjectKind, Func<FormData, Form> make)
    {
        Command command = new(name, about);
        Argument<string> subject = new(subjectKind ?? "none") { Description = "its name, the beginning of it, or its id" };
        if (subjectKind is not null) command.Add(subject);
        var options = OptionsOf(make(FormData.Empty(start.NoCalls, TimeProvider.System)));
        foreach (var option in options) command.Add(option);
        return start.Verb(command, async (session, parsed) =>
        {
            var data = await Source(session, subjectKind, subjectKind is null ? "" : parsed.GetValue(subject)!);
            return await Send(session, data.As(make), parsed, options);
        });
    }

    internal static List<Option<string?>> OptionsOf(Form form) => [.. form.Fields.Select(each => new Option<string?>(each.Option) { Description = Describe(each) })];

    private static string Describe(Field field) => field switch
    {
        ChoiceField choice when choice.Choices.Count > 0 => $"{field.Label}: {string.Join(", ", choice.Choices.Select(each => each.Id))}",
        PickField { Many: true } pick when pick.Answers.Count > 1 => $"{field.Label}: name={string.Join("|", pick.Answers)}, separated by commas",
        PickField { Many: true } => $"{field.Label}: names separated by commas",
        _ when field.Hint.Length > 0 => $"{field.Label}: {field.Hint}",
        _ => field.Label,
    };

    private static async Task<Answer<FormData>> Source(Session session, string? kind, string text)
    {
        var (calls, clock, stop) = (session.Calls, session.Clock, session.Stop);
        return kind switch
        {
            VehicleArgument => await (await session.Resolve.Vehicle(text)).Then(vehicle => FormSource.Vehicle(calls, clock, vehicle.Entry.Id, stop)),
            ComplaintArgument => await (await session.Resolve.Complaint(text)).Then(complaint => FormSource.Complaint(calls, clock, complaint.Entry.Id, stop)),
            EitherArgument => await (await session.Resolve.Subject(text)).Then(subject => subject.ComplaintId is { } complaint
                ? FormSource.Complaint(calls, clock, complaint, stop) : FormSource.Vehicle(calls, clock, subject.VehicleId, stop)),
            _ => await FormSource.General(calls, clock, stop),
        };
    }

    private static async Task<int> Send(Session session, Answer<Form> made, ParseResult parsed, List<Option<string?>> options)
    {
        if (made is not Got<Form> { Value: var form }) return session.Printer.Print(made, _ => []);
        List<Fault> faults = [];
        foreach (var (each, option) in form.Fields.Zip(options))
            if (parsed.GetValue(option) is { } text && each.Take(text) is { } wrong) faults.Add(new Fault(each.Option, Problems.Malformed, wrong));
        var filled = form.Fill(parsed.GetValue(Start.Confirmed));
        faults.AddRange(filled.Faults);
        return faults.Count > 0 ? session.Printer.Wrong(faults) : session.Printer.Print(await filled.Send(session.Stop), stored => [Line.Of(Clean.Of(stored.Sentence + (stored.Id is null ? "" : $" [{stored.Id}]"), session.Printer.Signs))], entering: true);
    }

    private static Command Void(Start start)
    {
        Argument<string> kind = new("kind") { Description = string.Join(", ", Voiding.Kinds) }, id = new("id") { Description = "the entry's id, as \"show --json\" and \"show\" give it" };
        kind.AcceptOnlyFromAmong([.. Voiding.Kinds]);
        Option<string> reason = new("--reason") { Description = "why it no longer counts", Required = true };
        return start.Verb(new Command("void", "Void an entry with a reason; it stays readable") { kind, id, reason }, async (session, parsed) =>
            session.Printer.Print(await Voiding.Call(session.Calls, parsed.GetValue(kind)!, parsed.GetValue(id)!, new VoidRequest(parsed.GetValue(reason)!), session.Stop), _ => [Line.Of("Voided.")], entering: true));
    }

    /// <summary>One verb per kind: the options are those of its form, and what is not given stays.</summary>
    private static Command Correct(Start start)
    {
        var empty = FormData.Empty(start.NoCalls, TimeProvider.System);
        Dictionary<string, Form> forms = new()
        {
            ["vehicle"] = VehicleForms.Vehicle(empty),
            ["odometer"] = VehicleForms.Odometer(empty),
            ["lay-up"] = VehicleForms.LayUp(empty),
            ["incident"] = VehicleForms.Incident(empty),
            ["work"] = VehicleForms.Work(empty),
            ["limit"] = BenchForms.Limit(empty),
            ["finding"] = FindingForms.Any(empty),
            ["instrument"] = BenchForms.Instrument(empty),
            ["complaint"] = ComplaintForms.Change(empty, (_, _) => throw new InvalidOperationException("only the names of the fields are read here")),
        };
        Command command = new("correct", "Correct an entry: a new version; what is not given stays as it is");
        foreach (var kind in Correcting.Kinds)
        {
            Argument<string> id = new("id") { Description = "the entry's id, as \"show\" gives it" };
            Command one = new(kind, $"Correct an entry of this kind: {kind}") { id };
            var options = OptionsOf(forms[kind]);
            foreach (var option in options) one.Add(option);
            command.Add(start.Verb(one, async (session, parsed) =>
                await Send(session, await new Correcting(session.Calls, session.Clock, session.Stop).Form(kind, parsed.GetValue(id)!, everyField: true), parsed, options)));
        }
        return command;
    }

    private static Command Archive(Start start)
    {
        Argument<string> vehicle = new("vehicle") { Description = "its name, the beginning of it, or its id" };
        Option<string> reason = new("--reason") { Description = "sold, scrapped ...", Required = true };
        return start.Verb(new Command("archive", "Take no more entries for a vehicle; its record stays readable") { vehicle, reason }, async (session, parsed) =>
            session.Printer.Print(await (await session.Resolve.Vehicle(parsed.GetValue(vehicle)!)).Then(known => session.Calls.Ask(api => api.Archive(known.Entry.Id, new VoidRequest(parsed.GetValue(reason)!), session.Stop))),
                archived => [Line.Of(Clean.Of($"Archived: {archived.Name}", session.Printer.Signs))], entering: true));
    }

    private static Command Settings(Start start)
    {
        var options = OptionsOf(BenchForms.Settings(FormData.Empty(start.NoCalls, TimeProvider.System), []));
        Command command = new("settings", "Show the settings, or change those that are given");
        foreach (var option in options) command.Add(option);
        return start.Verb(command, async (session, parsed) =>
        {
            if (options.TrueForAll(option => parsed.GetValue(option) is null))
                return session.Printer.Print(await session.Calls.Ask(api => api.Settings(session.Stop)), SettingsLines);
            var data = await FormSource.General(session.Calls, session.Clock, session.Stop);
            var form = await data.Then(async known => (await new Screens.Knowledge(session.Calls).Tools(known.Systems, session.Stop)).As(tools => BenchForms.Settings(known, tools)));
            return await Send(session, form, parsed, options);
        });
    }

    private static IEnumerable<Line> SettingsLines(Settings settings) =>
    [
        Line.Of($"currency: {settings.Currency}"),
        Line.Of($"labour rate: {settings.LabourRate} per hour"),
        Line.Of($"tools at hand: {(settings.ToolsAtHand is null ? "all" : string.Join(", ", settings.ToolsAtHand))}"),
        .. settings.Units.Select(unit => Line.Of($"unit of {unit.Key}: {unit.Value}")),
        Line.Of($"locale: {settings.Locale}"),
        Line.Of($"chances: {settings.Figures}"),
    ];
}
