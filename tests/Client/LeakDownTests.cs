using FuelHistory.Client;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Plain;
using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;
using FuelHistory.Tests.Host;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

/// <summary>A leak-down by keys against the stub: what is sent, when, and how often.</summary>
[Collection(OneScreenAtATime.Name)]
public sealed class LeakDownTests
{
    public const string Begin = $"/v1/complaints/{Samples.ComplaintId}/leak-downs", One = "/v1/leak-downs/lea-1", Readings = One + "/readings";

    private static readonly DateTimeOffset Noon = new(2026, 6, 2, 12, 0, 0, TimeSpan.Zero);

    public static readonly LeakDown Begun = new(
        Samples.Head("lea-1"), Samples.VehicleId, Samples.ComplaintId, "return-shut", "Return shut", Noon, "bar", "ins-1", null, null, null, "unknown", null, "running", null, 0, null, ["Eyes covered."]);

    public static LeakOutlook Outlook { get; } = new(
        4, 2, "bar", 10, 2, "from memory", 12, 0.02, "stop-fails", "Almost certain that it will be below 2 bar after 10 minutes: you may stop.", 0.02, "a check more",
        new(10, 0.6, 0.9, 1.3, 2.9), [new(0, 3, 3.1, 3.2, 3.1), new(5, 1.5, 1.7, 1.9, 3), new(10, 0.6, 0.9, 1.3, 2.9)],
        [new("steady-seep", "a steady seep", 0.9), new("store-lost", "the store is lost", 0.05)], new(8, 6.5, 10),
        [new("seep", "a seep", 0.9, new(8, 6.5, 10)), new("settle", "a lost store", 0.1, new(30, 20, 60))], [0.01, 0.04, 0.45, 0.5], 0.05, 0.01);

    private static LeakDownView View(params LeakReading[] readings) => new(Begun with { Readings = readings.Length }, readings, readings.Length == 0 ? null : Outlook);

    private static LeakReading Heard(string id, double minutes, double bar) => new(id, minutes, new(bar, "bar"), null, null, 1, Noon, null);

    internal static StubServer Server() => Samples.Server()
        .Get(Begin, Array.Empty<LeakDown>()).Post(Begin, Begun).Get(One, View())
        .Answer("POST", Readings, 200, StubServer.Json(View(Heard("other", 0.5, 3.1))))
        .Answer("POST", One + "/finish", 200, StubServer.Json(Begun with { State = "finished", Finding = "fin-7" }));

    internal static void Open(ScreenHost host)
    {
        WatchFromCheck(host);
        host.WaitFor("Leak-down: Return shut");
    }

    private static void WatchFromCheck(ScreenHost host)
    {
        FormScreenTests.OpenRecord(host);
        host.Type("d");
        host.WaitFor("Next check");
        host.Press(Key.Enter);
        host.WaitFor("Connect the gauge");
        host.Press(Key.Space);
    }

    [Fact]
    public void Watching_shows_cautions_before_the_start_and_sends_nothing_yet()
    {
        using var server = Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        Assert.Contains("CAUTION: Fuel under pressure", host.Text, StringComparison.Ordinal);
        Assert.Contains("Space pump stopped", host.Footer, StringComparison.Ordinal);
        Assert.Equal(0, server.Count("POST", Begin));
    }

    [Fact]
    public void Look_takes_the_time_of_its_key_and_not_of_enter()
    {
        using var server = Server();
        SetClock clock = new() { Now = Noon };
        using ScreenHost host = new(server.Address, clock: clock);
        Open(host);
        host.Press(Key.Space);
        host.WaitUntil(() => server.Count("POST", Begin) == 1, "the beginning sent");
        clock.Now = Noon.AddSeconds(90);
        host.Press(Key.Space);
        clock.Now = Noon.AddSeconds(97);
        host.Type("2.6");
        Assert.Contains("look at 01:30: 2.6_ bar", host.Text, StringComparison.Ordinal);
        host.Press(Key.Enter);
        host.WaitFor("you may stop");
        var sent = server.Sent("POST", Readings).Single()["readings"]![0]!;
        Assert.Equal((1.5, 2.6), ((double)sent["minutes"]!, (double)sent["pressure"]!["value"]!));
        Assert.Contains("Shape: a steady seep (about nine in ten); falls to a third in 6 to 10", host.Text, StringComparison.Ordinal);
        Assert.Contains("01:37 since the pump stopped", host.Text, StringComparison.Ordinal);
        Assert.Contains("CAUTION", host.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Escape_drops_the_look_and_not_the_screen()
    {
        using var server = Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.Space);
        host.Type("31");
        host.Press(Key.Backspace, Key.Esc);
        Assert.StartsWith("Leak-down", host.Rows[0], StringComparison.Ordinal);
        Assert.Contains("no reading yet", host.Text, StringComparison.Ordinal);
        Assert.Equal(0, server.Count("POST", Readings));
    }

    [Fact]
    public void Connection_lost_keeps_the_readings_and_sends_each_once_under_one_id()
    {
        using var server = Server();
        server.Answer("POST", Readings, 200, "{ half an ans");
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.Space);
        host.WaitUntil(() => server.Count("POST", Begin) == 1, "the beginning sent");
        host.Type("3.1");
        host.Press(Key.Enter);
        host.WaitFor("NO CONNECTION: kept here, waiting: 1");
        host.Type("2.6");
        host.Press(Key.Enter);
        host.WaitUntil(() => server.Count("POST", Readings) >= 2 && host.Text.Contains("waiting: 2", StringComparison.Ordinal), "two that wait");
        Assert.Contains("2 readings", host.Text, StringComparison.Ordinal);
        host.Press(Key.S.WithCtrl);
        Assert.Contains("has not heard all of it yet (2 wait)", host.Text, StringComparison.Ordinal);
        server.Answer("POST", Readings, 200, StubServer.Json(View()));
        host.WaitUntil(() => { host.FireTimers(); return !host.Text.Contains("waiting", StringComparison.Ordinal) && !host.Text.Contains("sending", StringComparison.Ordinal); }, "nothing that waits");
        var ids = server.Sent("POST", Readings).Select(body => ((string)body["readings"]![0]!["id"]!, (double)body["readings"]![0]!["pressure"]!["value"]!)).ToList();
        Assert.Equal([3.1, 2.6], ids.Distinct().Select(each => each.Item2));
        Assert.True(ids.Count(each => each.Item2 is 3.1) >= 2);
    }

    [Fact]
    public void Beginning_without_an_answer_is_looked_up_before_it_is_sent_again()
    {
        using var server = Server();
        SetClock clock = new() { Now = Noon };
        server.Answer("POST", Begin, 201, "{ half an ans");
        using ScreenHost host = new(server.Address, clock: clock);
        Open(host);
        host.Press(Key.Space);
        host.WaitFor("NO CONNECTION");
        server.Get(Begin, new[] { Begun });
        host.FireTimers();
        host.WaitUntil(() => !host.Text.Contains("waiting", StringComparison.Ordinal), "nothing that waits");
        Assert.Equal(1, server.Count("POST", Begin));
    }

    [Fact]
    public void Leaving_with_readings_that_wait_warns_once()
    {
        using var server = Server();
        server.Answer("POST", Begin, 201, "{ half an ans");
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.Space);
        host.WaitFor("NO CONNECTION");
        host.Press(Key.Q.WithCtrl);
        Assert.Contains("would be lost", host.Text, StringComparison.Ordinal);
        Assert.False(host.Ended);
        host.Press(Key.Q.WithCtrl);
        Assert.True(host.Ended);
    }

    [Fact]
    public void Take_back_undoes_the_newest_reading()
    {
        using var server = Server();
        server.Answer("POST", Readings, 200, StubServer.Json(View(Heard("r1", 1, 3.1), Heard("r2", 2, 2.6))))
            .Answer("POST", Readings + "/r2/take-back", 200, StubServer.Json(View(Heard("r1", 1, 3.1), Heard("r2", 2, 2.6) with { TakenBack = Noon })));
        using ScreenHost host = new(server.Address);
        server.Get(Begin, new[] { Begun with { Readings = 2 } }).Get(One, View(Heard("r1", 1, 3.1), Heard("r2", 2, 2.6)));
        OpenRunning(host);
        host.WaitFor("2 readings");
        host.Press(Key.Delete);
        host.WaitFor("1 reading,");
        host.WaitUntil(() => server.Count("POST", Readings + "/r2/take-back") == 1, "the reading taken back");
    }

    [Fact]
    public void Implausible_reading_is_asked_about_and_sent_again_confirmed()
    {
        using var server = Server();
        server.Refuse("POST", Readings, 422, Samples.Invalid(new Fault("/readings/0/pressure", Problems.Implausible, "40 bar is more than this circuit can have.")));
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.Space);
        host.Type("40");
        host.Press(Key.Enter);
        host.WaitFor("IMPLAUSIBLE: 40 bar");
        server.Answer("POST", Readings, 200, StubServer.Json(View(Heard("r", 1, 40))));
        host.Press(Key.Y.WithCtrl);
        host.WaitFor("you may stop");
        Assert.True((bool)server.Sent("POST", Readings)[^1]["readings"]![0]!["confirmed"]!);
    }

    [Fact]
    public void Finish_goes_back_to_what_is_likely()
    {
        using var server = Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.Space);
        host.Press(Key.S.WithCtrl);
        Assert.Contains("no reading is taken yet", host.Text, StringComparison.Ordinal);
        host.Type("3.1");
        host.Press(Key.Enter);
        host.WaitFor("you may stop");
        host.WaitUntil(() => !host.Text.Contains("sending", StringComparison.Ordinal), "nothing that waits");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("Entered: Return shut");
        Assert.StartsWith("Likely now", host.Rows[0], StringComparison.Ordinal);
        Assert.Equal(1, server.Count("POST", One + "/finish"));
    }

    private static void OpenRunning(ScreenHost host)
    {
        WatchFromCheck(host);
        host.WaitFor("A leak-down still runs");
        host.Press(Key.Enter);
        host.WaitFor("Leak-down: Return shut");
    }

    [Fact]
    public async Task Plain_command_begins_sends_all_finishes_and_prints_the_verdict()
    {
        using var server = Server();
        server.Get(One, View(Heard("r", 1, 3.1)));
        SetClock clock = new() { Now = Noon };
        var (code, output, errors) = await PlainTests.RunAt(clock, server.Address, "leak-down", "Restarts", "--check", "return", "--reading", "1:3.1", "4: 1.9 bar", "--ambient", "24", "--note", "in the shade");
        Assert.True(code == ExitCodes.Done, errors);
        Assert.Equal((24.0, "in the shade"), ((double)server.Sent("POST", Begin).Single()["ambient"]!["value"]!, (string)server.Sent("POST", Begin).Single()["note"]!));
        Assert.Contains("you may stop", output, StringComparison.Ordinal);
        Assert.Contains("CAUTION: Eyes covered.", output, StringComparison.Ordinal);
        Assert.Equal(Noon.AddMinutes(-4), DateTimeOffset.Parse((string)server.Sent("POST", Begin).Single()["stoppedAt"]!, System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(2, server.Sent("POST", Readings).Single()["readings"]!.AsArray().Count);
        Assert.Equal(1, server.Count("POST", One + "/finish"));
    }

    [Fact]
    public async Task Plain_command_with_refused_readings_leaves_nothing_half()
    {
        using var server = Server();
        server.Refuse("POST", Readings, 422, Samples.Invalid(new Fault("/readings/0/pressure", Problems.Implausible, "too much"))).Post(One + "/void", Begun);
        var (code, output, errors) = await PlainTests.Run(server.Address, "leak-down", "Restarts", "--check", "return", "--reading", "1:40", "--json");
        Assert.Equal(ExitCodes.Refused, code);
        Assert.Contains("too much", errors, StringComparison.Ordinal);
        Assert.Contains("trace-1", output, StringComparison.Ordinal);
        Assert.Equal(1, server.Count("POST", One + "/void"));
        Assert.Equal(0, server.Count("POST", One + "/finish"));
    }

    [Theory]
    [InlineData("--check", "return")]
    [InlineData("--check", "return", "--reading", "4")]
    [InlineData("--check", "system", "--reading", "4:1")]
    [InlineData("--check", "return", "--import", "no-such-file.csv")]
    public async Task Plain_command_used_wrongly_exits_2_and_begins_nothing(params string[] arguments)
    {
        using var server = Server();
        var (code, _, errors) = await PlainTests.Run(server.Address, ["leak-down", "Restarts", .. arguments]);
        Assert.Equal(ExitCodes.Usage, code);
        Assert.NotEmpty(errors);
        Assert.Equal(0, server.Count("POST", Begin));
    }

    [Fact]
    public async Task Story_over_the_real_host_by_keys_gives_a_verdict_and_a_finding()
    {
        using ApiHost api = new(realModels: true);
        foreach (var command in (string[][])[["add", "vehicle", "--name", "Blue hatch", "--year", "1981", "--system", "continuous-mechanical"], ["add", "complaint", "Blue", "--title", "Restarts badly", "--since", "2026-05"]])
            Assert.Equal(ExitCodes.Done, (await PlainTests.RunAt(api.Clock, api.Address, command)).Code);
        using ScreenHost host = new(api.Address, clock: api.Clock, patience: FuelHistory.Client.Api.Connection.Plain);
        host.WaitFor("Blue hatch");
        host.Press(Key.Enter);
        host.WaitFor("Complaint: Restarts badly");
        host.Type("d");
        host.WaitFor("Why:");
        host.Type("k");
        host.WaitFor("Type to narrow");
        host.Type("leak-down-whole");
        host.Press(Key.Enter);
        host.WaitFor("CAUTION");
        host.Press(Key.Space);
        host.WaitFor("pump stops");
        host.Press(Key.Space);
        foreach (var (minutes, pressure) in ((double, string)[])[(1, "3.1"), (1, "2.6"), (1, "2.2"), (1, "1.9")])
        {
            api.Clock.Now = api.Clock.Now.AddMinutes(minutes);
            host.Press(Key.Space);
            host.Type(pressure);
            host.Press(Key.Enter);
            host.WaitUntil(() => !host.Text.Contains("sending", StringComparison.Ordinal), "the reading sent");
        }
        Assert.Contains("you may stop", host.WaitFor("4 readings"), StringComparison.Ordinal);
        Assert.Contains("Shape: ", host.Text, StringComparison.Ordinal);
        host.Press(Key.S.WithCtrl);
        host.WaitFor("one finding of 4 readings");
    }
}
