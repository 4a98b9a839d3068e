using System.Net;
using FuelHistory.Host.Http;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;

namespace FuelHistory.Tests.Host;

public sealed class GuardTests
{
    [Theory]
    [InlineData("127.0.0.1", "localhost", true)]
    [InlineData("127.0.0.1", "127.0.0.1", true)]
    [InlineData("::1", "[::1]", true)]
    [InlineData("127.0.0.1", "garage.example", true)]
    [InlineData("127.0.0.1", "rebound.example", false)]
    [InlineData("192.168.1.20", "shop", true)]
    public async Task Request_over_loopback_is_let_through_under_expected_names_only(string arrivedAt, string name, bool through)
    {
        var reached = false;
        var configuration = new ConfigurationBuilder().AddInMemoryCollection([new("HostNames", "shop.example; garage.example")]).Build();
        Guard guard = new(
            _ =>
            {
                reached = true;
                return Task.CompletedTask;
            },
            configuration);
        DefaultHttpContext context = new() { RequestServices = new ServiceCollection().BuildServiceProvider() };
        context.Connection.LocalIpAddress = IPAddress.Parse(arrivedAt);
        context.Request.Host = new HostString(name);

        await guard.InvokeAsync(context);

        Assert.Equal(through, reached);
        Assert.Equal(through ? 200 : 421, context.Response.StatusCode);
    }
}
