using FuelHistory.Contracts;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Features.Vehicles;
using FuelHistory.Host.Sqlite;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Data.Sqlite;

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
            await app.StartAsync();
            await Announce(app, options);
            await app.WaitForShutdownAsync();
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
        new Thread(() => Warm(app.Services, new Uri(address))) { IsBackground = true, Priority = ThreadPriority.BelowNormal }.Start();
    }

    // The first computation compiles code and networks; it is better done before somebody waits for it.
    private static void Warm(IServiceProvider services, Uri address)
    {
        try
        {
            using var connection = services.GetRequiredService<SqliteFile>().Open();
            var complaints = services.GetRequiredService<ComplaintStore>();
            var open = services.GetRequiredService<VehicleStore>().All(connection).Where(v => v.OpenComplaints > 0 && !v.Archived)
                .SelectMany(v => complaints.OfVehicle(connection, v.Entry.Id)).LastOrDefault(c => c.Closed is null && c.Entry.VoidReason is null);
            if (open is not null)
            {
                using HttpClient client = new() { BaseAddress = address };
                using var _ = client.GetAsync(new Uri(Routes.Assessment.Replace("{complaintId}", open.Entry.Id, StringComparison.Ordinal), UriKind.Relative)).GetAwaiter().GetResult();
            }
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException or ObjectDisposedException or SqliteException)
        {
            // the program ends already; whoever asks next will be answered or told why not
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
