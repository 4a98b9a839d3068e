using System.CommandLine;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Plain;

/// <summary>The verbs about what a car should read: its own limits, those of documents, and taking one of these.</summary>
internal static class Limits
{
    public static IEnumerable<Command> Verbs(Start start)
    {
        yield return List(start);
        yield return One(start);
        yield return Adopt(start);
    }

    private static Command List(Start start)
    {
        Argument<string> vehicle = new("vehicle") { Description = "its name, the beginning of it, or its id" };
        Option<string?> find = new("--find") { Description = "look in documents instead, the nearest car first: words of title, car, place or trust; \"\" for all" };
        Option<string?> check = new("--check") { Description = "with --find: only those that a check reads" };
        return start.Verb(new Command("limits", "What a vehicle should read; with --find what documents say of such cars") { vehicle, find, check }, async (session, parsed) =>
        {
            var found = await session.Resolve.Vehicle(parsed.GetValue(vehicle)!);
            var (calls, signs, stop) = (session.Calls, session.Printer.Signs, session.Stop);
            if (parsed.GetValue(find) is not { } text && parsed.GetValue(check) is null)
                return session.Printer.Print(await found.Then(known => calls.Ask(api => api.Limits(known.Entry.Id, stop))),
                    limits => limits.Count == 0 ? [Line.Of("None is entered; typical limits are used. --find \"\" shows those of documents.")] : limits.Select(each => Line.Of($"{each.Entry.Id}  {PlainLines.Limit(each, signs)}")));
            var library = await found.Then(known => calls.Ask(api => api.LimitsLibrary(known.Entry.Id, null, parsed.GetValue(check), parsed.GetValue(find), stop)));
            return session.Printer.Print(library, limits => limits.Count == 0 ? [Line.Of("No document's limit fits.")] : limits.Select(each => Line.Of(LimitLines.Plain(each, signs))));
        });
    }

    private static Command One(Start start)
    {
        Argument<string> limit = new("limit") { Description = "its id, as \"limits VEHICLE --find\" gives it" };
        return start.Verb(new Command("limit", "All that is known of one limit of a document: as printed, source, misprints") { limit }, async (session, parsed) =>
            session.Printer.Print(await session.Calls.Ask(api => api.LibraryLimit(parsed.GetValue(limit)!, session.Stop)), found => LimitLines.One(found, session.Printer.Width, session.Printer.Signs)));
    }

    private static Command Adopt(Start start)
    {
        Argument<string> vehicle = new("vehicle") { Description = "its name, the beginning of it, or its id" }, limit = new("limit") { Description = "its id, as \"limits VEHICLE --find\" gives it" };
        Option<string> check = new("--check") { Description = "the check whose readings it judges", Required = true };
        return start.Verb(new Command("adopt", "Take a document's limit for a vehicle; one entered by hand goes before it") { vehicle, limit, check }, async (session, parsed) =>
        {
            var found = await session.Resolve.Vehicle(parsed.GetValue(vehicle)!);
            var taken = await found.Then(known => session.Calls.Ask(api => api.AdoptLimit(known.Entry.Id, new Adoption(parsed.GetValue(limit)!, parsed.GetValue(check)!), session.Stop)));
            return session.Printer.Print(taken, entry => [Line.Of($"Taken: {PlainLines.Limit(entry, session.Printer.Signs)} [{entry.Entry.Id}]")], entering: true);
        });
    }
}
