using System.CommandLine;
using FuelHistory.Client.Api;
using FuelHistory.Client.Child;
using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;

namespace FuelHistory.Client.Plain;

/// <summary>One run against one server.</summary>
internal sealed record Session(ApiCalls Calls, Printer Printer, TimeProvider Clock, CancellationToken Stop)
{
    public Resolve Resolve => new(Calls, Stop);
}

/// <summary>The command line: which server, how to write, and the verbs. Without a verb the screens open.</summary>
internal sealed class Start(TextWriter output, TextWriter errors, Func<string, string?> variable, TimeProvider clock)
{
    private const int WidthUnseen = 100, LeastWidth = 60;

    private static readonly Option<bool> Demo = new("--demo") { Description = "a demo database that is not kept", Recursive = true };
    private static readonly Option<string?> Server = new("--server") { Description = "the address of a running server; none is started then", Recursive = true };
    private static readonly Option<string?> Key = new("--key") { Description = "the key for that server (or FUELHISTORY_KEY)", Recursive = true };
    private static readonly Option<string?> Database = new("--database") { Description = "another database file than your own", Recursive = true };
    private static readonly Option<bool> NoColor = new("--no-color") { Description = "no colours (also NO_COLOR)", Recursive = true };
    private static readonly Option<bool> Ascii = new("--ascii") { Description = "nothing but ASCII", Recursive = true };
    private static readonly Option<bool> Json = new("--json") { Description = "the API's own JSON", Recursive = true };

    /// <summary>Says that implausible values are right.</summary>
    public static Option<bool> Confirmed { get; } = new("--confirmed") { Description = "an implausible value is right all the same", Recursive = true };

    /// <summary>For forms of which only the fields' names are read.</summary>
    public ApiCalls NoCalls { get; } = new(null!, new LastBody());

    public async Task<int> Run(string[] arguments)
    {
        var parsed = Root().Parse(arguments);
        if (parsed.Errors.Count == 0) return await parsed.InvokeAsync(new InvocationConfiguration { Output = output, Error = errors, EnableDefaultExceptionHandler = false });
        foreach (var error in parsed.Errors) errors.WriteLine(error.Message);
        errors.WriteLine("See --help.");
        return ExitCodes.Usage;
    }

    public Command Verb(Command command, Func<Session, ParseResult, Task<int>> act)
    {
        command.SetAction((parsed, stop) => With(parsed, session => act(session, parsed), screen: false, stop));
        return command;
    }

    private RootCommand Root()
    {
        RootCommand root = new("FuelHistory: the record of a fuel-injected car, and what is most likely wrong with it. Without a verb the screens open.");
        foreach (var option in (Option[])[Demo, Server, Key, Database, NoColor, Ascii, Json, Confirmed]) root.Add(option);
        foreach (var verb in Show.Verbs(this).Append(Report.Verb(this)).Concat(Limits.Verbs(this)).Append(LeakDowns.Verb(this)).Concat(Enter.Verbs(this))) root.Add(verb);
        root.SetAction((parsed, stop) => With(parsed, session => Screen(session, parsed), screen: true, stop));
        return root;
    }

    private async Task<int> Screen(Session session, ParseResult parsed)
    {
        if (!parsed.GetValue(Json) && Surroundings.HasScreen(Console.IsInputRedirected, Console.IsOutputRedirected, variable))
        {
            Tui.Run(session.Calls, new Look(Surroundings.Colour(parsed.GetValue(NoColor), variable), session.Printer.Signs), Kept(parsed), session.Stop);
            return ExitCodes.Done;
        }
        if (!parsed.GetValue(Json)) errors.WriteLine("There is no screen to paint on, so this is plain text; --help shows the verbs.");
        return session.Printer.Print(await session.Calls.Ask(api => api.Vehicles(null, session.Stop)), vehicles => Show.Vehicles(vehicles, session.Printer));
    }

    private async Task<int> With(ParseResult parsed, Func<Session, Task<int>> act, bool screen, CancellationToken stop)
    {
        HostChild? child = null;
        try
        {
            Uri? given = null;
            if (parsed.GetValue(Server) is { } text && !(Uri.TryCreate(text, UriKind.Absolute, out given) && given!.Scheme is "http" or "https"))
                return Usage($"\"{text}\" is no address; --server needs one such as http://127.0.0.1:5080");
            if (given is null) child = HostChild.Start(HostArguments(parsed, screen), stop);
            var address = child?.Address ?? Task.FromResult(given!);
            // a screen's calls are short of patience; a plain command's first call waits for the host, with all of the client ready by then
            if (screen) await address;
            using var connection = Connection.To(address, screen ? Connection.OnScreen : Connection.Plain, parsed.GetValue(Key) ?? variable("FUELHISTORY_KEY"));
            var signs = Surroundings.SignsFor(parsed.GetValue(Ascii), variable);
            Printer printer = new(output, errors, connection.Calls, parsed.GetValue(Json), signs, Width());
            return await act(new Session(connection.Calls, printer, clock, stop));
        }
        catch (NameFailure wrong)
        {
            return Usage(wrong.Message);
        }
        catch (ChildFailure failed)
        {
            errors.WriteLine($"The server did not start: {failed.Message}");
            return ExitCodes.Unreachable;
        }
#pragma warning disable CA1031 // the last line of defence: the screen is gone by now, and the user is told in one line
        catch (Exception e)
#pragma warning restore CA1031
        {
            errors.WriteLine($"FuelHistory stopped by a fault of its own: {e.Message} (details: {CrashNote.Write(e)})");
            return ExitCodes.Broken;
        }
        finally
        {
            child?.Dispose();
        }
    }

    /// <summary>Of a demo, which is gone afterwards, nothing is kept. Entries of one record must never reach another.</summary>
    private static KeptRuns? Kept(ParseResult parsed) => parsed.GetValue(Demo) && parsed.GetValue(Server) is null ? null
        : new(StateFolder.Path, parsed.GetValue(Server) is { } server ? new Uri(server).AbsoluteUri : (parsed.GetValue(Database) is { } file ? Path.GetFullPath(file) : Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData)));

    private static int Width() => Console.IsOutputRedirected ? WidthUnseen : Math.Max(LeastWidth, Console.WindowWidth - 1);

    private int Usage(string message)
    {
        errors.WriteLine(message);
        return ExitCodes.Usage;
    }

    private static List<string> HostArguments(ParseResult parsed, bool screen)
    {
        List<string> arguments = parsed.GetValue(Demo) ? ["--demo"] : [];
        if (parsed.GetValue(Database) is { } file) arguments.AddRange(["--Database", Path.GetFullPath(file)]);
        // a plain command ends before anything that is computed ahead would be of use
        if (!screen) arguments.AddRange(["--Warm", "false"]);
        return arguments;
    }
}
