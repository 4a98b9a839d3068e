using FuelHistory.Client;
using FuelHistory.Client.Screens;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

/// <summary>What a leak-down has beside its readings, and what outlives the program.</summary>
[Collection(OneScreenAtATime.Name)]
public sealed class LeakDownKeptTests
{
    [Fact]
    public void About_it_before_the_start_is_sent_after_the_beginning_and_again_when_changed()
    {
        using var server = LeakDownTests.Server();
        server.Answer("PUT", LeakDownTests.One, 200, StubServer.Json(LeakDownTests.Begun));
        using ScreenHost host = new(server.Address);
        LeakDownTests.Open(host);
        host.Press(Key.F2);
        host.WaitFor("About this leak-down");
        host.Type("24");
        host.Press(Key.Tab);
        host.Type("88 F");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("Noted: air 24 °C, fuel 88 F");
        Assert.Equal(0, server.Count("PUT", LeakDownTests.One));
        host.Press(Key.Space);
        host.WaitUntil(() => server.Count("PUT", LeakDownTests.One) == 1, "the temperatures sent");
        var sent = server.Sent("PUT", LeakDownTests.One).Single();
        Assert.Equal((24.0, "°C", 88.0, "F"), ((double)sent["ambient"]!["value"]!, (string)sent["ambient"]!["unit"]!, (double)sent["fuel"]!["value"]!, (string)sent["fuel"]!["unit"]!));
        host.Press(Key.F2);
        host.WaitFor("About this leak-down");
        host.Press(Key.Tab, Key.Tab, Key.Tab, Key.Tab);
        host.Type("in the shade");
        host.Press(Key.S.WithCtrl);
        host.WaitUntil(() => server.Count("PUT", LeakDownTests.One) == 2, "the note sent");
        Assert.Equal((24.0, "in the shade"), ((double)server.Sent("PUT", LeakDownTests.One)[^1]["ambient"]!["value"]!, (string)server.Sent("PUT", LeakDownTests.One)[^1]["note"]!));
    }

    [Fact]
    public void Program_killed_while_readings_wait_sends_each_once_at_the_next_opening()
    {
        using var server = LeakDownTests.Server();
        server.Answer("POST", LeakDownTests.Begin, 201, "{ half an ans");
        var folder = Directory.CreateTempSubdirectory("fuelhistory-test-").FullName;
        KeptRuns kept = new(folder, "here");
        using (ScreenHost killed = new(server.Address, kept: kept))
        {
            LeakDownTests.Open(killed);
            killed.Press(Key.Space);
            killed.WaitFor("NO CONNECTION: kept in a file");
            killed.Type("3.1");
            killed.Press(Key.Enter);
            killed.Type("2.6");
            killed.Press(Key.Enter);
            killed.WaitFor("waiting: 3");
            killed.Press(Key.Q.WithCtrl);
            Assert.Contains("they are kept and sent at the next opening", killed.Text, StringComparison.Ordinal);
        }
        Assert.Empty(new KeptRuns(folder, "elsewhere").All());
        server.Answer("POST", LeakDownTests.Begin, 201, StubServer.Json(LeakDownTests.Begun));
        using ScreenHost host = new(server.Address, kept: kept);
        host.Desk.SendKept();
        host.WaitFor("Sending 3 entries of the leak-down");
        host.WaitUntil(() => host.Desk.Runs.All(run => run.Waiting == 0), "nothing that waits");
        var sent = server.Sent("POST", LeakDownTests.Readings).Select(body => (double)body["readings"]![0]!["pressure"]!["value"]!).ToList();
        Assert.Equal([3.1, 2.6], sent);
        Assert.Empty(kept.All());
        Assert.Empty(Directory.GetFiles(folder));
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("Leak-down, return shut", "Leak-down, return shut")]
    [InlineData("Return shut", "Leak-down: Return shut")]
    public void Title_says_leak_down_once(string check, string title)
    {
        using var server = LeakDownTests.Server();
        using ScreenHost host = new(server.Address);
        LeakRun run = new(host.Desk, Samples.ComplaintId, Samples.ReturnShut with { Title = check }, "bar", null);
        using LeakDownScreen screen = new(host.Desk, run);
        Assert.Equal(title, screen.Title);
    }
}
