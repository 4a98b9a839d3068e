using System.Net;
using System.Net.Sockets;
using FuelHistory.Client.Api;
using FuelHistory.Client.Child;
using FuelHistory.Contracts;
using Xunit;

namespace FuelHistory.Tests.Client;

public sealed class ApiCallsTests
{
    private static readonly NewVehicle Body = new("x", "1981", "y");

    [Fact]
    public async Task Answer_with_the_agreed_shape_is_got()
    {
        using var server = Samples.Server();
        using var connection = Connection.To(server.Address, Connection.OnScreen);
        var got = Assert.IsType<Got<IReadOnlyList<Vehicle>>>(await connection.Calls.Ask(api => api.Vehicles(null, default)));
        Assert.Equal("Blue hatch", got.Value[0].Name);
        Assert.StartsWith("[", connection.Calls.LastText, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Answer_with_members_of_a_later_host_is_got()
    {
        using var server = Samples.Server().Answer("GET", "/v1/fault-models", 200, """[{"id":"a","title":"b","revision":"1","colour":"red"}]""");
        using var connection = Connection.To(server.Address, Connection.OnScreen);
        Assert.IsType<Got<IReadOnlyList<FaultModelHead>>>(await connection.Calls.Ask(api => api.FaultModels(default)));
    }

    [Fact]
    public async Task Call_made_before_the_server_listens_waits_for_it_and_keeps_its_question()
    {
        using var server = Samples.Server();
        TaskCompletionSource<Uri> listening = new();
        using var connection = Connection.To(listening.Task, Connection.OnScreen, "secret-key");

        var asked = connection.Calls.Ask(api => api.Vehicles("include both", default));
        Assert.False(asked.IsCompleted);
        listening.SetResult(server.Address);

        Assert.Equal("Blue hatch", Assert.IsType<Got<IReadOnlyList<Vehicle>>>(await asked).Value[0].Name);
        Assert.Equal(("include both", "Bearer secret-key"), (server.Asked("/v1/vehicles", "archived"), server.Header("Authorization")));
    }

    [Fact]
    public async Task Call_to_a_server_that_does_not_start_tells_why()
    {
        TaskCompletionSource<Uri> listening = new();
        using var connection = Connection.To(listening.Task, Connection.OnScreen);
        var asked = connection.Calls.Ask(api => api.Vehicles(null, default));
        listening.SetException(new ChildFailure("the server ended before it listened: no disk"));

        Assert.Contains("no disk", (await Assert.ThrowsAsync<ChildFailure>(() => asked)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[{\"id\":\"a\"}]")]
    [InlineData("[{\"id\":")]
    [InlineData("<html>welcome</html>")]
    [InlineData("")]
    public async Task Answer_that_is_broken_is_unreachable_and_may_have_arrived(string text)
    {
        using var server = new StubServer().Answer("GET", "/v1/fault-models", 200, text);
        using var connection = Connection.To(server.Address, Connection.OnScreen);
        Assert.True(Assert.IsType<Unreachable<IReadOnlyList<FaultModelHead>>>(await connection.Calls.Ask(api => api.FaultModels(default))).MayHaveArrived);
    }

    [Fact]
    public async Task Refusal_carries_the_problem_with_all_its_faults()
    {
        using var server = new StubServer().Refuse("POST", "/v1/vehicles", 422, Samples.Invalid(new Fault("/name", Problems.Required, "a"), new Fault("/year", Problems.Required, "b")));
        using var connection = Connection.To(server.Address, Connection.OnScreen);
        var refused = Assert.IsType<Refused<Vehicle>>(await connection.Calls.Ask(api => api.AddVehicle(Body, default)));
        Assert.Equal(["/name", "/year"], refused.Problem.Errors!.Select(fault => fault.Pointer));
    }

    [Fact]
    public async Task Error_page_of_something_else_is_unreachable()
    {
        using var server = new StubServer().Answer("GET", "/v1/vehicles", 502, "<html>bad gateway</html>", "text/html");
        using var connection = Connection.To(server.Address, Connection.OnScreen);
        Assert.IsType<Unreachable<IReadOnlyList<Vehicle>>>(await connection.Calls.Ask(api => api.Vehicles(null, default)));
    }

    [Fact]
    public async Task Question_is_repeated_and_an_entry_is_not()
    {
        using var server = new StubServer().Answer("GET", "/v1/vehicles", 503, "").Answer("POST", "/v1/vehicles", 503, "");
        using var connection = Connection.To(server.Address, Connection.OnScreen);
        await connection.Calls.Ask(api => api.Vehicles(null, default));
        await connection.Calls.Ask(api => api.AddVehicle(Body, default));
        Assert.Equal(3, server.Count("GET", "/v1/vehicles"));
        Assert.Equal(1, server.Count("POST", "/v1/vehicles"));
    }

    [Fact]
    public async Task Nothing_listening_is_unreachable_and_did_not_arrive()
    {
        using var connection = Connection.To(FreeAddress(), Connection.OnScreen);
        Assert.False(Assert.IsType<Unreachable<Vehicle>>(await connection.Calls.Ask(api => api.AddVehicle(Body, default))).MayHaveArrived);
    }

    [Fact]
    public async Task Key_is_sent_as_a_bearer()
    {
        using var server = Samples.Server();
        using var connection = Connection.To(server.Address, Connection.OnScreen, "secret-key");
        await connection.Calls.Ask(api => api.Vehicles(null, default));
        Assert.Equal("Bearer secret-key", server.Header("Authorization"));
    }

    /// <summary>An address of this machine at which nothing listens.</summary>
    internal static Uri FreeAddress()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        return new Uri($"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}");
    }
}
