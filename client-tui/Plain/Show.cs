using System.CommandLine;
using FuelHistory.Client.Api;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Plain;

/// <summary>The verbs that only read.</summary>
internal static class Show
{
    public static IEnumerable<Command> Verbs(Start start)
    {
        Option<bool> archived = new("--archived") { Description = "archived vehicles too" };
        yield return start.Verb(new Command("list", "All vehicles") { archived }, async (session, parsed) =>
            session.Printer.Print(await session.Calls.Ask(api => api.Vehicles(parsed.GetValue(archived) ? "true" : null, session.Stop)), vehicles => Vehicles(vehicles, session.Printer)));
        yield return OfVehicle(start, "show", "The record of a vehicle: what was done, found and complained of", (api, id, stop) => api.Record(id, stop), (record, printer) => PlainLines.Record(record, printer.Width, printer.Signs));
        yield return Likely(start);
        yield return Try.Verb(start);
        yield return CheckVerb(start);
        yield return NamesVerb(start);
        yield return ModelVerb(start);
        yield return start.Verb(new Command("instruments", "Gauges, meters and vessels, with their ids"), async (session, _) =>
            session.Printer.Print(await session.Calls.Ask(api => api.Instruments(session.Stop)),
                all => all.Select(each => Line.Of($"{each.Entry.Id}  {InstrumentLines.One(each, session.Printer.Signs)}"))));
        yield return Findings(start);
    }

    public static IEnumerable<Line> Vehicles(IReadOnlyList<Vehicle> vehicles, Printer printer) =>
        vehicles.Count == 0 ? [Line.Of("No vehicle is recorded yet; \"add vehicle\" adds one.")] : VehicleLines.Of(vehicles, printer.Width, printer.Signs);

    private static Command OfVehicle<T>(Start start, string name, string about, Func<IFuelApi, string, CancellationToken, Task<Refit.IApiResponse<T>>> call, Func<T, Printer, IEnumerable<Line>> lines)
    {
        Argument<string> vehicle = new("vehicle") { Description = "its name, the beginning of it, or its id" };
        return start.Verb(new Command(name, about) { vehicle }, async (session, parsed) =>
        {
            var found = await session.Resolve.Vehicle(parsed.GetValue(vehicle)!);
            return session.Printer.Print(await found.Then(known => session.Calls.Ask(api => call(api, known.Entry.Id, session.Stop))), value => lines(value, session.Printer));
        });
    }

    private static Command Likely(Start start)
    {
        Argument<string> subject = new("vehicle-or-complaint") { Description = "a complaint, or a vehicle with one open complaint" };
        Option<string?> asOf = new("--as-of") { Description = "a day: as things stood then" }, knownAt = new("--known-at") { Description = "an instant: with what was recorded until then" };
        return start.Verb(new Command("likely", "What is most likely wrong now, why, and what to check next") { subject, asOf, knownAt }, async (session, parsed) =>
        {
            var complaint = await session.Resolve.Complaint(parsed.GetValue(subject)!);
            var (day, instant) = (parsed.GetValue(asOf), parsed.GetValue(knownAt));
            var both = await complaint.Then(async known => await (await session.Calls.Ask(api => api.Advice(known.Entry.Id, day, instant, session.Stop)))
                .Then(async advice => (await session.Calls.Ask(api => api.Assessment(known.Entry.Id, day, instant, "all", session.Stop))).As(assessment => (known, assessment, advice))));
            return session.Printer.Print(both, found => PlainLines.Likely(found.assessment, found.advice, found.known, session.Printer.Width, session.Printer.Signs));
        });
    }

    private static Command CheckVerb(Start start)
    {
        Argument<string> check = new("check") { Description = "its name or id; MODEL/CHECK where several fault models have it" };
        return start.Verb(new Command("check", "Steps and cautions of a check, and what it is read against") { check }, async (session, parsed) =>
        {
            var found = await session.Resolve.Check(parsed.GetValue(check)!);
            var both = await found.Then(async known => await (await session.Calls.Ask(api => api.FaultModel(known.ModelId, session.Stop)))
                .Then(async model => (await session.Calls.Ask(api => api.Check(known.ModelId, known.CheckId, session.Stop))).As(view => (view, model.Tools))));
            return session.Printer.Print(both, known => CheckLines.Of(known.view, null, known.Tools, session.Printer.Width, session.Printer.Signs).Prepend(Line.Of($"{known.view.Title} ({known.view.Id})")));
        });
    }

    private static Command ModelVerb(Start start)
    {
        Argument<string?> model = new("id") { Description = "a fault model's id; without it all are listed", Arity = ArgumentArity.ZeroOrOne };
        return start.Verb(new Command("model", "What causes what in a fuel system, what tells it apart, and from where that is known") { model }, async (session, parsed) =>
            parsed.GetValue(model) is { } id
                ? session.Printer.Print(await session.Calls.Ask(api => api.FaultModelStudy(id, session.Stop)), study => StudyLines.Of(study, null, session.Printer.Width, session.Printer.Signs))
                : session.Printer.Print(await (await session.Calls.Ask(api => api.RefusedFaultModels(session.Stop))).Then(async refused => (await session.Calls.Ask(api => api.FaultModels(session.Stop))).As(heads => (heads, refused))),
                    both => StudyLines.Heads(both.heads, both.refused, session.Printer.Signs)));
    }

    private static Command NamesVerb(Start start)
    {
        Argument<string> vehicle = new("vehicle") { Description = "a vehicle, or a fault model's id" };
        return start.Verb(new Command("names", "The components, events, checks, trials, incidents, fitted options and tools that can be named for a vehicle") { vehicle }, async (session, parsed) =>
        {
            var heads = await session.Calls.Ask(api => api.FaultModels(session.Stop));
            var model = await heads.Then(async known => known.Any(head => head.Id == parsed.GetValue(vehicle))
                ? await session.Calls.Ask(api => api.FaultModel(parsed.GetValue(vehicle)!, session.Stop))
                : await (await session.Resolve.Vehicle(parsed.GetValue(vehicle)!)).Then(found => session.Calls.Ask(api => api.FaultModel(found.System, session.Stop))));
            return session.Printer.Print(model, found => PlainLines.Names(found, session.Printer.Signs));
        });
    }

    private static Command Findings(Start start)
    {
        Argument<string> complaint = new("complaint") { Description = "its title, the beginning of it, or its id" };
        return start.Verb(new Command("findings", "What was found for a complaint, with the ids") { complaint }, async (session, parsed) =>
        {
            var found = await session.Resolve.Complaint(parsed.GetValue(complaint)!);
            return session.Printer.Print(await found.Then(known => session.Calls.Ask(api => api.ComplaintFindings(known.Entry.Id, session.Stop))),
                all => all.Select(each => Line.Of(Clean.Of($"{each.Entry.Id}  {Figures.Moment(each.At)}  {(each.Entry.VoidReason is null ? "" : "VOID ")}{each.Text}", session.Printer.Signs))));
        });
    }
}
