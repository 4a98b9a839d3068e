using FuelHistory.Client.Plain;
using FuelHistory.Contracts;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class CorrectingTests
{
    private static readonly Work Stored = new(Samples.Head("wrk-1") with { Version = 3 }, Samples.VehicleId, "2025-10", "fitted", ["pump", "accumulator"], "invoice", new DateTimeOffset(2025, 10, 4, 9, 30, 12, TimeSpan.FromHours(2)), "new", null,
        new Measured(84210.5, "km"), "A maker", "PN 1", new Money(120.50m, "EUR"), "failed", "kept");

    [Fact]
    public void Work_corrected_by_keys_is_sent_whole_with_its_version()
    {
        using var server = Server();
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Press(Key.CursorDown, Key.CursorDown, Key.CursorDown);
        host.Type("u");
        host.WaitFor("Correct this work, version 3");
        host.Press(Key.Backspace);
        host.Type("1");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("Corrected; version 4 counts now.");
        Assert.Equal("\"3\"", server.Header("PUT", "/v1/work/wrk-1", "If-Match"));
        var sent = server.Sent("PUT", "/v1/work/wrk-1").Single();
        Assert.Equal("2025-11", (string?)sent["date"]);
        Assert.Equal(["pump", "accumulator"], sent["components"]!.AsArray().Select(each => (string?)each));
        Assert.Equal(("invoice", "new", "failed", "kept", "A maker", "PN 1"), ((string?)sent["known"], (string?)sent["quality"], (string?)sent["reason"], (string?)sent["note"], (string?)sent["maker"], (string?)sent["partNumber"]));
        Assert.Equal((84210.5, 120.50m, Stored.At), ((double)sent["odometer"]!["value"]!, (decimal)sent["cost"]!["amount"]!, (DateTimeOffset)sent["at"]!));
    }

    [Fact]
    public async Task Work_corrected_by_the_plain_verb_keeps_what_is_not_given()
    {
        using var server = Server();
        var (code, output, errors) = await PlainTests.Run(server.Address, "correct", "work", "wrk-1", "--components", "accumulator", "--note", "");
        Assert.True(code == ExitCodes.Done, errors);
        Assert.Contains("version 4", output, StringComparison.Ordinal);
        var sent = server.Sent("PUT", "/v1/work/wrk-1").Single();
        Assert.Equal(["accumulator"], sent["components"]!.AsArray().Select(each => (string?)each));
        Assert.Equal("2025-10", (string?)sent["date"]);
        Assert.Null(sent["note"]);
    }

    [Fact]
    public async Task Inspection_corrected_by_the_plain_verb_keeps_what_was_found()
    {
        var was = Stored with { Date = "about 1995", Action = "inspected", Components = ["accumulator"], Quality = "unknown", Outcome = "bad", Mode = "ruptured", How = "tested", Sure = false };
        using var server = Samples.Server().Get("/v1/work/wrk-1", was).Put("/v1/work/wrk-1", was with { Entry = was.Entry with { Version = 4 } });
        var (code, _, errors) = await PlainTests.Run(server.Address, "correct", "work", "wrk-1", "--note", "again");
        Assert.True(code == ExitCodes.Done, errors);
        var sent = server.Sent("PUT", "/v1/work/wrk-1").Single();
        Assert.Equal(("about 1995", "inspected", "bad", "ruptured", "tested"), ((string?)sent["date"], (string?)sent["action"], (string?)sent["outcome"], (string?)sent["mode"], (string?)sent["how"]));
        Assert.False((bool)sent["sure"]!);
    }

    [Fact]
    public async Task Finding_corrected_by_the_plain_verb_keeps_its_moment_and_its_conditions()
    {
        var was = Samples.Finding with
        {
            Check = "control-pressure",
            Outcome = null,
            Reading = new Measured(1.4, "bar"),
            Instrument = "ins-1",
            Conditions = new Dictionary<string, Measured> { ["ambient"] = new(20.5, "°C") },
            At = new DateTimeOffset(2026, 6, 1, 10, 0, 3, 250, TimeSpan.FromHours(2)),
        };
        using var server = Samples.Server().Get("/v1/findings/fin-1", was).Put("/v1/findings/fin-1", was with { Entry = was.Entry with { Version = 2 } });
        var (code, _, errors) = await PlainTests.Run(server.Address, "correct", "finding", "fin-1", "--reading", "1.6 bar");
        Assert.True(code == ExitCodes.Done, errors);
        var sent = server.Sent("PUT", "/v1/findings/fin-1").Single();
        Assert.Equal((1.6, "control-pressure", "ins-1", 20.5), ((double)sent["reading"]!["value"]!, (string?)sent["check"], (string?)sent["instrument"], (double)sent["conditions"]!["ambient"]!["value"]!));
        Assert.Equal(was.At, (DateTimeOffset)sent["at"]!);
    }

    [Fact]
    public void Closing_line_cannot_be_corrected_and_says_so()
    {
        using var server = Samples.Server().Get($"/v1/vehicles/{Samples.VehicleId}/record", Samples.Record with { Lines = [new("closing", Samples.ComplaintId, 2, "2026-06-02", "Complaint closed: resolved. Fuel pump fitted", null, Samples.ComplaintId, null)] });
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Type("u");
        Assert.Contains("this line (closing) cannot be corrected", host.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Archive_needs_a_typed_y_and_the_list_can_be_narrowed()
    {
        using var server = Samples.Server().Get("/v1/vehicles", new[] { Samples.Vehicle, Samples.Vehicle with { Entry = Samples.Head("veh-2"), Name = "Red estate" } })
            .Post("/v1/vehicles/veh-2/archive", Samples.Vehicle with { Name = "Red estate", Archived = true });
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        host.Type("/red e");
        Assert.DoesNotContain("Blue hatch", host.Text, StringComparison.Ordinal);
        host.Press(Key.Enter);
        Assert.Contains("Only those with \"red e\"", host.Text, StringComparison.Ordinal);
        host.Type("h");
        host.WaitFor("Archive Red estate");
        host.Type("sold");
        host.Press(Key.Tab);
        host.Type("y");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("Archived: Red estate");
        Assert.Equal("sold", (string?)server.Sent("POST", "/v1/vehicles/veh-2/archive").Single()["reason"]);
        host.Press(Key.Esc);
        Assert.Contains("Blue hatch", host.Text, StringComparison.Ordinal);
        Assert.False(host.Ended);
        host.Type("b");
        host.WaitUntil(() => host.Desk.Top.Pending == 0, "the list");
        Assert.Equal("true", server.Asked("/v1/vehicles", "archived"));
    }

    private static StubServer Server() => Samples.Server().Get("/v1/work/wrk-1", Stored).Put("/v1/work/wrk-1", Stored with { Entry = Stored.Entry with { Version = 4 } });
}
