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
    /// <summary>A screen tells soon and asks again by itself.</summary>
    public static readonly TimeSpan OnScreen = TimeSpan.FromSeconds(8);
    /// <summary>A plain command asks once and has nothing else to do than wait.</summary>
    public static readonly TimeSpan Plain = TimeSpan.FromSeconds(60);

    private readonly ServiceProvider _provider;

    private Connection(ServiceProvider provider, LastBody last)
    {
        _provider = provider;
        Calls = new ApiCalls(provider.GetRequiredService<IFuelApi>(), last);
    }

    public ApiCalls Calls { get; }

    /// <param name="patience">How long one call may take; all tries together a quarter more.</param>
    public static Connection To(Uri address, TimeSpan patience, string? key = null) => To(Task.FromResult(address), patience, key);

    /// <param name="address">Calls may be made before it is known; they wait for it.</param>
    public static Connection To(Task<Uri> address, TimeSpan patience, string? key = null)
    {
        LastBody last = new();
        ServiceCollection services = new();
        var calls = services.AddRefitGeneratedClient<IFuelApi>(ClientJson.Default)
            .ConfigureHttpClient(client =>
            {
                client.BaseAddress = address.IsCompletedSuccessfully ? address.Result : Whereabouts.Unknown;
                // the handlers below keep the time; this limit would cut a longer patience short
                client.Timeout = Timeout.InfiniteTimeSpan;
                if (key is not null) client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
            })
            .AddHttpMessageHandler(() => new LastBody.Handler(last));
        calls.AddStandardResilienceHandler(options => Settle(options, patience));
        if (!address.IsCompletedSuccessfully) calls.AddHttpMessageHandler(() => new Whereabouts(address));
        return new Connection(services.BuildServiceProvider(), last);
    }

    public void Dispose() => _provider.Dispose();

    private static void Settle(HttpStandardResilienceOptions options, TimeSpan patience)
    {
        options.Retry.MaxRetryAttempts = Repeats;
        options.Retry.Delay = TimeSpan.FromMilliseconds(150);
        options.Retry.DisableForUnsafeHttpMethods();
        options.AttemptTimeout.Timeout = patience;
        options.TotalRequestTimeout.Timeout = patience * 1.25;
        // the breaker's window has to span two tries at least
        options.CircuitBreaker.SamplingDuration = patience * 2.5;
    }
}
