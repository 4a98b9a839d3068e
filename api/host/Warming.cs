using FuelHistory.Contracts;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.Vehicles;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Host;

/// <summary>After the start, behind: what somebody is likely to ask for soon is computed and read before he waits for it.</summary>
internal static class Warming
{
    public static void Begin(IServiceProvider services, Uri address, CancellationToken stopping) =>
        new Thread(() => Run(services, address, stopping)) { IsBackground = true, Priority = ThreadPriority.BelowNormal }.Start();

    private static void Run(IServiceProvider services, Uri address, CancellationToken stopping)
    {
        try
        {
            var vehicles = Vehicles(services);
            Assess(services, vehicles, address, stopping);
            Read(services.GetRequiredService<FaultModelFolder>(), [.. vehicles.Select(v => v.System)], stopping);
        }
#pragma warning disable CA1031 // the program ends already, or whoever asks next is answered or told why not; nothing that is done ahead may end it
        catch (Exception)
#pragma warning restore CA1031
        {
        }
    }

    private static List<Vehicle> Vehicles(IServiceProvider services)
    {
        using var connection = services.GetRequiredService<SqliteFile>().Open();
        return [.. services.GetRequiredService<VehicleStore>().All(connection).Where(v => !v.Archived)];
    }

    /// <summary>The first computation compiles code and networks.</summary>
    private static void Assess(IServiceProvider services, List<Vehicle> vehicles, Uri address, CancellationToken stopping)
    {
        using var connection = services.GetRequiredService<SqliteFile>().Open();
        var complaints = services.GetRequiredService<ComplaintStore>();
        var open = vehicles.Where(v => v.OpenComplaints > 0)
            .SelectMany(v => complaints.OfVehicle(connection, v.Entry.Id)).LastOrDefault(c => c.Closed is null && c.Entry.VoidReason is null);
        if (open is not null)
        {
            using HttpClient client = new() { BaseAddress = address };
            using var _ = client.GetAsync(new Uri(Routes.Assessment.Replace("{complaintId}", open.Entry.Id, StringComparison.Ordinal), UriKind.Relative), stopping).GetAwaiter().GetResult();
        }
    }

    /// <summary>One by one, those of vehicles first. One that cannot be read is told to whoever asks for it.</summary>
    internal static void Read(FaultModelFolder models, HashSet<string> first, CancellationToken stopping)
    {
        foreach (var model in models.Known.OrderByDescending(m => first.Contains(m.Id)).TakeWhile(_ => !stopping.IsCancellationRequested))
        {
            try
            {
                _ = model.Loaded;
            }
            catch (FaultModelUnusableException)
            {
            }
        }
    }
}
