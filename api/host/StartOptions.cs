using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.LimitsLibrary;
using FuelHistory.Host.Shipped;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Host;

/// <summary>How the host was started: Database, FaultModels, OwnFaultModels (beside the database), LimitsLibrary, CheckedAtBuild (where the build's stamp lies), BusySeconds, Warm (what will be asked for soon is made ready behind) and --demo.</summary>
internal sealed record StartOptions(string Database, bool Demo, string FaultModels, string OwnFaultModels, string LimitsLibrary, string CheckedAtBuild, int BusySeconds, bool Warm)
{
    /// <summary>--demo stands alone; the command line reader would take the next word for its value.</summary>
    public const string DemoSwitch = "--demo";

    public static string[] WithoutSwitch(string[] args) => [.. args.Where(a => a != DemoSwitch)];

    public static StartOptions Read(string[] args, IConfiguration configuration)
    {
        var demo = args.Contains(DemoSwitch);
        var data = Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "fuelhistory", "fuelhistory.db");
        var database = demo
            ? Path.Combine(Directory.CreateTempSubdirectory("fuelhistory-demo-").FullName, "demo.db")
            : configuration["Database"] ?? data;
        return new StartOptions(
            database, demo,
            configuration["FaultModels"] ?? Path.Combine(AppContext.BaseDirectory, "fault-models"),
            configuration["OwnFaultModels"] ?? Path.Combine(Path.GetDirectoryName(Path.GetFullPath(database))!, "fault-models"),
            configuration["LimitsLibrary"] ?? Path.Combine(AppContext.BaseDirectory, "limits-library"),
            configuration["CheckedAtBuild"] ?? Path.Combine(AppContext.BaseDirectory, Shipped.CheckedAtBuild.FolderName),
            configuration.GetValue("BusySeconds", 4),
            configuration.GetValue("Warm", true));
    }

    public void Register(WebApplicationBuilder builder)
    {
        builder.Services.AddSingleton(TimeProvider.System);
        builder.Services.AddSingleton(this);
        Lazy<CheckedAtBuild?> known = new(() => Shipped.CheckedAtBuild.Find(CheckedAtBuild, FaultModels, LimitsLibrary));
        builder.Services.AddSingleton(_ => new FaultModelFolder(FaultModels, OwnFaultModels, known.Value));
        builder.Services.AddSingleton(services => new LibraryFolder(LimitsLibrary, services.GetRequiredService<FaultModelFolder>(), known.Value));
        builder.Services.AddSingleton(services => SqliteFile.OpenOrCreate(Database, BusySeconds, services.GetRequiredService<TimeProvider>()));
        if (builder.Configuration["urls"] is null)
        {
            builder.WebHost.UseUrls("http://127.0.0.1:5080");
        }
    }
}
