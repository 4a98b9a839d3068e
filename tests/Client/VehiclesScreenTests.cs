using FuelHistory.Contracts;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class VehiclesScreenTests
{
    [Fact]
    public void Vehicles_when_there_are_some_are_listed_with_their_state()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        var screen = host.WaitFor("Blue hatch");
        Assert.Contains("1981", screen, StringComparison.Ordinal);
        Assert.Contains("1 open complaint", screen, StringComparison.Ordinal);
    }

    [Fact]
    public void Vehicles_at_the_first_start_say_what_to_do_and_the_key()
    {
        using var server = Samples.Server().Get("/v1/vehicles", Array.Empty<Vehicle>());
        using ScreenHost host = new(server.Address);
        Assert.Contains("Press a to add", host.WaitFor("No vehicle is recorded yet"), StringComparison.Ordinal);
    }

    [Fact]
    public void Escape_on_the_first_screen_does_not_quit()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        host.Press(Key.Esc, Key.Esc, Key.Esc);
        Assert.False(host.Ended);
        Assert.Contains("Ctrl+Q leaves", host.Text, StringComparison.Ordinal);
        host.Press(Key.Q.WithCtrl);
        Assert.True(host.Ended);
    }

    [Fact]
    public void Vehicle_added_by_keys_is_sent_as_typed()
    {
        using var server = Samples.Server().Get("/v1/vehicles", Array.Empty<Vehicle>()).Post("/v1/vehicles", Samples.Vehicle);
        using ScreenHost host = new(server.Address);
        host.WaitFor("No vehicle");
        host.Type("a");
        host.WaitForForm("Add a vehicle");
        host.Type("Quick ?aq");
        host.Press(Key.Tab);
        host.Type("1981~");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("Added: Blue hatch");
        var sent = server.Sent("POST", "/v1/vehicles").Single();
        Assert.Equal("Quick ?aq", (string?)sent["name"]);
        Assert.Equal("1981~", (string?)sent["year"]);
        Assert.Equal(Samples.ModelId, (string?)sent["system"]);
    }
}
