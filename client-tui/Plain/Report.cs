using System.CommandLine;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;

namespace FuelHistory.Client.Plain;

/// <summary>The printable page of a vehicle, to hand over or to keep with the car.</summary>
internal static class Report
{
    public static Command Verb(Start start)
    {
        Argument<string> vehicle = new("vehicle") { Description = "its name, the beginning of it, or its id" };
        Option<string?> to = new("--to") { Description = "a file that is not there yet; without it the page is printed" };
        return start.Verb(new Command("report", "All of a vehicle as a web page to print and hand over: suspects, curves, limits with source, the record") { vehicle, to }, async (session, parsed) =>
        {
            var found = await session.Resolve.Vehicle(parsed.GetValue(vehicle)!);
            var page = await found.Then(known => session.Calls.Ask(api => api.Report(known.Entry.Id, session.Stop)));
            return session.Printer.Print(page, html => parsed.GetValue(to) is { } path ? Kept(path, html) : html.Split('\n').Select(text => Line.Of(text)));
        });
    }

    private static IEnumerable<Line> Kept(string path, string html)
    {
        try
        {
            using FileStream file = new(path, FileMode.CreateNew, FileAccess.Write);
            using StreamWriter writer = new(file);
            writer.Write(html);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new NameFailure(File.Exists(path) ? $"{path} is there already; nothing is overwritten. Name another file." : $"{path} cannot be written: {e.Message}");
        }

        return [Line.Of($"Written: {path}")];
    }
}
