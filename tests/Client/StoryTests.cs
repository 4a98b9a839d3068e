using FuelHistory.Tests.Host;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

/// <summary>The whole way of one complaint over the real host and the real fault model: once by keys, once by plain commands.</summary>
[Collection(OneScreenAtATime.Name)]
public sealed class StoryTests
{
    [Fact]
    public void Story_by_keys_goes_from_an_empty_list_to_a_closed_complaint()
    {
        using ApiHost api = new(realModels: true);
        using ScreenHost host = new(api.Address, clock: api.Clock, patience: FuelHistory.Client.Api.Connection.Plain);
        host.WaitFor("No vehicle is recorded yet");
        Fill(api, host, "a", "Add a vehicle", "Added:", "Old hatch", Key.Tab, "1981", Key.Tab, Key.CursorRight, Key.CursorRight, Key.CursorRight);
        host.Type("g");
        host.WaitFor("No instrument");
        Fill(api, host, "a", "Add an instrument", "Added:", "Red gauge", Key.Tab, Key.Tab, Key.Tab, "10", Key.Tab, "1.6");
        host.Press(Key.Esc, Key.Enter);
        host.WaitFor("built 1981");
        Fill(api, host, "w", "Enter work", "Entered:", "2025-10", Key.Tab, Key.Tab, Key.Enter, "fuel pump", Key.Enter, Key.Tab, Key.CursorRight, Key.CursorRight, Key.Tab, Key.CursorRight);
        Fill(api, host, "w", "Enter work", "Entered:", "2023", Key.Tab, Key.Tab, Key.Enter, "injectors", Key.Enter, Key.Tab, Key.CursorRight, Key.CursorRight, Key.CursorRight, Key.Tab, Key.CursorRight);
        host.WaitFor("(invoice)");
        host.WaitFor("(only told)");
        Fill(api, host, "c", "Open a complaint", "Opened:", "Restarts badly", Key.Tab, "2026-05", Key.Tab, Key.Tab, Key.Tab, Key.Enter,
            Key.CursorDown, Key.CursorDown, Key.CursorDown, Key.Enter, Key.Tab);
        host.Type("m");
        host.WaitFor("From documents");
        Fill(api, host, "a", "Enter a limit", "Entered:", Key.Enter, "leak-down whole", Key.Enter, Key.Tab, Key.Tab, Key.Tab, "5.0", Key.Tab, "10: 2.0", Key.Tab, "workshop manual, page 24-7");
        host.WaitFor("own entry");
        host.Press(Key.Esc);
        Check(api, host, "r", "system-pressure", "4.9 bar", Key.Tab, Key.Enter, Key.Enter);
        Check(api, host, "r", "leak-down-whole", "10: 0.8", Key.Tab, Key.Tab, Key.Tab, Key.Enter, Key.Enter);
        host.Type("d");
        Assert.Contains("Next check:", host.WaitFor("Why:"), StringComparison.Ordinal);
        TryHeld(host);
        Check(api, host, "k", "leak-down-return-shut", Key.Tab, Key.CursorRight);
        Fill(api, host, "w", "Enter work", "Entered:", Key.Tab, Key.Tab, Key.Enter, "system pressure regulator", Key.Enter, Key.Tab, Key.Tab, Key.CursorRight);
        Check(api, host, "k", "leak-down-whole", "10: 2.6", Key.Tab, Key.Tab, Key.Tab, Key.Enter, Key.Enter);
        Fill(api, host, "e", "Close the complaint", "Closed:", Key.Tab, Key.Enter, "system pressure regulator", Key.Enter, Key.Tab, Key.Enter, "2.6", Key.Enter, Key.Tab);
        host.WaitFor("Likely now:");
        host.Press(Key.Esc);
        var record = host.WaitFor("Complaint closed: resolved");
        Assert.All(["2.6 bar after 10 min", "System pressure regulator fitted", "held", "0.8 bar", "4.9 bar", "Fuel pump fitted", "Injectors"], text => Assert.Contains(text, record, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Story_by_plain_commands_goes_the_same_way()
    {
        using ApiHost api = new(realModels: true);
        await Say(api, "add", "vehicle", "--name", "Old hatch", "--year", "1981", "--system", "continuous-mechanical");
        await Say(api, "add", "instrument", "--name", "Red gauge", "--quantity", "pressure", "--unit", "bar", "--span", "10", "--class-percent", "1.6");
        await Say(api, "add", "work", "Old", "--date", "2025-10", "--action", "fitted", "--components", "Fuel pump", "--known", "invoice", "--quality", "new");
        await Say(api, "add", "work", "Old", "--date", "2023", "--action", "fitted", "--components", "injectors", "--known", "told", "--quality", "new");
        var names = await Say(api, "names", "Old");
        var events = names[names.IndexOf("Events:", StringComparison.Ordinal)..].Split('\n').Skip(1).Take(4).Select(line => line.Trim().Split(':')[0]).ToArray();
        await Say(api, "add", "complaint", "Old", "--title", "Restarts badly", "--since", "2026-05", "--events", "hard-start-hot=present,hot-catches-and-dies=present,flooded-start=absent");
        await Say(api, "add", "limit", "Old", "--check", "leak-down-whole", "--from", "5", "--points", "10: 2.0", "--source", "workshop manual, page 24-7");
        await Say(api, "add", "finding", "Restarts", "--check", "system-pressure", "--reading", "4.9 bar", "--instrument", "Red");
        await Say(api, "add", "finding", "Restarts", "--check", "leak-down-whole", "--points", "10: 0.8 bar", "--instrument", "Red");
        Assert.Contains("Repair plan", await Say(api, "likely", "Old"), StringComparison.Ordinal);
        Assert.Contains("CAUTION", await Say(api, "check", "leak-down-return-shut"), StringComparison.Ordinal);
        Assert.Contains("Nothing is stored.", await Say(api, "what-if", "Restarts", "--check", "leak-down-return-shut", "--outcome", "hold"), StringComparison.Ordinal);
        var slip = await Say(api, "add", "finding", "Restarts", "--check", "leak-down-return-shut", "--outcome", "slow");
        Assert.Contains("version 2", await Say(api, "correct", "finding", slip[(slip.LastIndexOf('[') + 1)..slip.LastIndexOf(']')], "--outcome", "hold"), StringComparison.Ordinal);
        await Say(api, "add", "work", "Old", "--date", "today", "--at", "now", "--action", "fitted", "--components", "System pressure regulator", "--quality", "new");
        var proof = await Say(api, "add", "finding", "Restarts", "--check", "leak-down-whole", "--points", "10: 2.6 bar", "--instrument", "Red");
        var id = proof[(proof.LastIndexOf('[') + 1)..proof.LastIndexOf(']')];
        await Say(api, "close", "Restarts", "--result", "resolved", "--causes", "System pressure regulator", "--proved-by", id);
        Assert.Contains("closed", await Say(api, "show", "Old"), StringComparison.OrdinalIgnoreCase);
        Assert.Contains("Archived", await Say(api, "archive", "Old", "--reason", "sold"), StringComparison.Ordinal);
        Assert.DoesNotContain("Old hatch", await Say(api, "list"), StringComparison.Ordinal);
        Assert.Contains("archived", await Say(api, "list", "--archived"), StringComparison.Ordinal);
        Assert.Contains("Archived: sold", await Say(api, "show", "Old"), StringComparison.Ordinal);
    }

    /// <summary>What if it held with the return shut? The record stays as it was.</summary>
    private static void TryHeld(ScreenHost host)
    {
        var before = host.WaitUntil(() => host.Desk.Top.Pending == 0, "what is likely");
        host.Type("f");
        host.WaitFor("This is the record as it is");
        host.Type("v");
        host.WaitFor("Type to narrow");
        host.Type("leak-down-return-shut");
        host.Press(Key.Enter);
        host.WaitFor("4 of 4");
        host.Press(Key.Enter);
        host.WaitFor("tried   Leak-down, return shut");
        var after = host.WaitUntil(() => host.Desk.Top.Pending == 0, "the effect");
        Assert.Matches("System pressure regulator +[0-9]+ % → +[0-9]+ %  up", after);
        host.Press(Key.Esc);
        Assert.Equal(before, host.WaitUntil(() => host.Desk.Top.Pending == 0, "what is likely as before"));
    }

    private static async Task<string> Say(ApiHost api, params string[] arguments)
    {
        api.Clock.Now += TimeSpan.FromMinutes(1);
        var (code, output, errors) = await PlainTests.RunAt(api.Clock, api.Address, arguments);
        Assert.True(code == 0, $"{string.Join(' ', arguments)}: {errors}");
        return output;
    }

    /// <summary>Opens a form by its key, fills it and saves.</summary>
    private static void Fill(ApiHost api, ScreenHost host, string key, string title, string saved, params object[] steps)
    {
        api.Clock.Now += TimeSpan.FromMinutes(1);
        host.Type(key);
        host.WaitFor(title);
        Do(host, steps);
        host.Press(Key.S.WithCtrl);
        host.WaitFor(saved);
    }

    private static void Check(ApiHost api, ScreenHost host, string key, string check, params object[] steps)
    {
        api.Clock.Now += TimeSpan.FromMinutes(1);
        host.Type(key);
        host.WaitFor("Type to narrow");
        host.Type(check);
        host.Press(Key.Enter);
        host.WaitFor("CAUTION");
        host.Press(Key.Enter);
        host.WaitFor("what did it show?");
        Do(host, steps);
        host.Press(Key.S.WithCtrl);
        host.WaitFor("Entered:");
    }

    private static void Do(ScreenHost host, object[] steps)
    {
        foreach (var step in steps)
        {
            if (step is Key key) host.Press(key);
            else host.Type((string)step);
        }
    }
}
