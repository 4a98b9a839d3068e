using FuelHistory.Host.Sqlite;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace FuelHistory.Host;

/// <summary>Says where the host listens, ends with the program that started it, and clears a demo away.</summary>
internal static class Lifetime
{
    public static void Follow(this WebApplication app, StartOptions options)
    {
        app.Lifetime.ApplicationStarted.Register(() =>
        {
            foreach (var address in app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()?.Addresses.Take(1) ?? [])
            {
                Console.Out.WriteLine($"FUELHISTORY LISTENING {address}");
            }
        });
        if (app.Configuration["Parent:Watch"] == "stdin")
        {
            new Thread(() => WatchParent(app.Lifetime)) { IsBackground = true }.Start();
        }

        if (options.Demo)
        {
            app.Lifetime.ApplicationStopped.Register(() => Clear(app.Services.GetRequiredService<SqliteFile>()));
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

    private static void Clear(SqliteFile file)
    {
        file.Dispose();
        Directory.Delete(Path.GetDirectoryName(file.Path)!, recursive: true);
    }
}
