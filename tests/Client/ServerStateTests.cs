using FuelHistory.Client.Screens;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class ServerStateTests
{
    [Fact]
    public void Server_gone_in_use_shows_offline_and_keeps_what_was_loaded()
    {
        using var server = Samples.Server();
        using Cable cable = new(server.Address);
        using ScreenHost host = new(cable.Address);
        host.WaitFor("Blue hatch");
        cable.Cut();
        host.Press(Key.R.WithCtrl);
        Assert.Contains("Blue hatch", host.WaitFor("OFFLINE since"), StringComparison.Ordinal);
    }

    [Fact]
    public void Save_without_a_server_keeps_the_text_and_says_so()
    {
        using var server = Samples.Server();
        using Cable cable = new(server.Address);
        using ScreenHost host = new(cable.Address);
        host.WaitFor("Blue hatch");
        host.Type("a");
        host.WaitForForm("Add a vehicle");
        host.Type("Kept name");
        cable.Cut();
        host.Press(Key.S.WithCtrl);
        Assert.Contains("Kept name", host.WaitFor("Not saved: nothing listens"), StringComparison.Ordinal);
        Assert.Contains("The text is kept", host.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Watch_notices_a_server_that_went_and_came_back()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        Watch.Start(host.Desk);
        server.Answer("GET", "/livez", 200, "{ broken");
        host.FireTimers();
        host.WaitFor("OFFLINE since");
        server.Answer("GET", "/livez", 200, "{\"status\":\"live\",\"details\":{}}");
        host.FireTimers();
        Assert.DoesNotContain("OFFLINE", host.WaitFor("The server is there again."), StringComparison.Ordinal);
    }

    [Fact]
    public void Pauses_grow_up_to_half_a_minute()
    {
        Assert.Equal([2, 1, 2, 4, 8, 16, 30, 30], Enumerable.Range(0, 8).Select(misses => Watch.Pause(misses, 0).TotalSeconds));
        Assert.Equal(0.75, Watch.Pause(1, 1).TotalSeconds);
    }

    [Fact]
    public void Slow_answer_leaves_the_keys_working()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        server.Answer("GET", $"/v1/vehicles/{Samples.VehicleId}/record", 200, StubServer.Json(Samples.Record), after: TimeSpan.FromMilliseconds(400));
        host.Press(Key.Enter);
        Assert.Contains("asking the server", host.Text, StringComparison.Ordinal);
        host.Press(Key.Esc);
        Assert.Contains("Blue hatch", host.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Broken_answer_is_said_and_does_not_end_the_program()
    {
        using var server = Samples.Server().Answer("GET", "/v1/vehicles", 200, "[{\"name\":");
        using ScreenHost host = new(server.Address);
        host.WaitFor("could not be read");
        Assert.DoesNotContain("OFFLINE", host.Text, StringComparison.Ordinal);
        server.Get("/v1/vehicles", new[] { Samples.Vehicle });
        Watch.Start(host.Desk);
        host.FireTimers();
        host.WaitFor("Blue hatch");
    }
}
