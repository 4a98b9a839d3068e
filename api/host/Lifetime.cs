using FuelHistory.Host.Features.FaultModels;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace FuelHistory.Host;

/// <summary>Says where the host listens, ends with the program that started it, and clears a demo away.</summary>
internal static class Lifetime
{
    /// <summary>Starts, says where it listens once everything is there, and returns when it has stopped.</summary>
    public static async Task RunWith(this WebApplication app, StartOptions options)
    {
        if (app.Configuration["Parent:Watch"] == "stdin")
        {
            new Thread(() => WatchParent(app.Lifetime)) { IsBackground = true }.Start();
        }

        try
        {
            if (options.Demo)
            {
                // asked for first, and longest in being read: meanwhile the addresses are made ready
                _ = Task.Run(() => Demo.Systems().ForEach(id => app.Services.GetRequiredService<FaultModelFolder>().Find(id)));
            }

            await app.StartAsync();
            await Announce(app, options);
            await app.WaitForShutdownAsync();
        }
        catch (OperationCanceledException) when (app.Lifetime.ApplicationStopping.IsCancellationRequested)
        {
            // who started the host has ended before it was ready
        }
        finally
        {
            await app.DisposeAsync();
            if (options.Demo)
            {
                Directory.Delete(Path.GetDirectoryName(options.Database)!, recursive: true);
            }
        }
    }

    private static async Task Announce(WebApplication app, StartOptions options)
    {
        // in tests there is no address of that kind
        if (app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault() is not { } address)
        {
            return;
        }

        if (options.Demo)
        {
            await Demo.Fill(new Uri(address), DateOnly.FromDateTime(app.Services.GetRequiredService<TimeProvider>().GetLocalNow().Date));
        }

        Console.Out.WriteLine($"FUELHISTORY LISTENING {address}");
        if (options.Warm)
        {
            Warming.Begin(app.Services, new Uri(address), app.Lifetime.ApplicationStopping);
        }
    }

    // The parent holds our stdin; when it ends, also by a kill, reading comes to an end here.
    private static void WatchParent(IHostApplicationLifetime lifetime)
    {
        try
        {
            using var input = Console.OpenStandardInput();
            Span<byte> dropped = stackalloc byte[64];
            while (input.Read(dropped) > 0)
            {
            }
        }
        catch (IOException)
        {
        }

        lifetime.StopApplication();
    }
}
