using System.Net.Http.Headers;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Http.Resilience;
using Refit;

namespace FuelHistory.Client.Api;

/// <summary>One server: its address and the calls to it.</summary>
internal sealed class Connection : IDisposable
{
    // a question may be repeated, an entry may not: the host would store it twice
    private const int Repeats = 2;
    private static readonly TimeSpan EachTry = TimeSpan.FromSeconds(8);
    private static readonly TimeSpan AllTries = TimeSpan.FromSeconds(10);

    private readonly ServiceProvider _provider;

    private Connection(Uri address, ServiceProvider provider, LastBody last)
    {
        Address = address;
        _provider = provider;
        Calls = new ApiCalls(provider.GetRequiredService<IFuelApi>(), last);
    }

    public Uri Address { get; }

    public ApiCalls Calls { get; }

    public static Connection To(Uri address, string? key = null)
    {
        LastBody last = new();
        ServiceCollection services = new();
        services.AddRefitGeneratedClient<IFuelApi>(ClientJson.Default)
            .ConfigureHttpClient(client =>
            {
                client.BaseAddress = address;
                if (key is not null) client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
            })
            .AddHttpMessageHandler(() => new LastBody.Handler(last))
            .AddStandardResilienceHandler(Patience);
        return new Connection(address, services.BuildServiceProvider(), last);
    }

    public void Dispose() => _provider.Dispose();

    private static void Patience(HttpStandardResilienceOptions options)
    {
        options.Retry.MaxRetryAttempts = Repeats;
        options.Retry.Delay = TimeSpan.FromMilliseconds(150);
        options.Retry.DisableForUnsafeHttpMethods();
        options.AttemptTimeout.Timeout = EachTry;
        options.TotalRequestTimeout.Timeout = AllTries;
    }
}
