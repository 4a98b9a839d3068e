using FuelHistory.Host;
using FuelHistory.Host.Features;
using FuelHistory.Host.Features.Assessments;
using FuelHistory.Host.Features.Charts;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Features.Health;
using FuelHistory.Host.Features.Incidents;
using FuelHistory.Host.Features.Instruments;
using FuelHistory.Host.Features.LayUps;
using FuelHistory.Host.Features.LeakDowns;
using FuelHistory.Host.Features.LeakImports;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Features.LimitsLibrary;
using FuelHistory.Host.Features.Odometers;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Features.SetAsides;
using FuelHistory.Host.Features.Settings;
using FuelHistory.Host.Features.Vehicles;
using FuelHistory.Host.Features.Works;
using FuelHistory.Host.Http;
using FuelHistory.Host.Shipped;
using FuelHistory.Host.Sqlite;

try
{
    if (args.Contains(ModelLint.Switch))
    {
        return ModelLint.Run(args, Path.Combine(AppContext.BaseDirectory, "fault-models"), Console.Out, DateOnly.FromDateTime(TimeProvider.System.GetUtcNow().Date));
    }

    if (args.Contains(ModelTables.Switch))
    {
        return ModelTables.Run(args, Path.Combine(AppContext.BaseDirectory, "fault-models"), Console.Out);
    }

    if (args.Contains(ShippedCheck.Switch))
    {
        return ShippedCheck.Run(args, AppContext.BaseDirectory, Console.Out);
    }

    var builder = WebApplication.CreateBuilder(StartOptions.WithoutSwitch(args));
    var options = StartOptions.Read(args, builder.Configuration);
    options.Register(builder);
    builder.AddHttpForm();
    builder.Services.AddFeatures();

    var app = builder.Build();
    app.Services.GetRequiredService<FaultModelFolder>();
    app.Services.GetRequiredService<LibraryFolder>();
    app.Services.GetRequiredService<SqliteFile>();
    app.Services.GetRequiredService<ModelHistory>();
    RefusedModels.Log(app.Services.GetRequiredService<FaultModelFolder>(), app.Logger);
    var api = app.UseHttpForm();
    api.MapVehicles();
    api.MapRecords();
    api.MapOdometers();
    api.MapLayUps();
    api.MapIncidents();
    api.MapWorks();
    api.MapLimits();
    api.MapLimitsLibrary();
    api.MapComplaints();
    api.MapFindings();
    api.MapSetAsides();
    api.MapAssessments();
    api.MapLeakDowns();
    api.MapLeakImports();
    api.MapCharts();
    api.MapInstruments();
    api.MapSettings();
    api.MapFaultModels();
    api.MapHealth();

    await app.RunWith(options);
    return 0;
}
catch (StartException e)
{
    Console.Error.WriteLine(e.Message);
    return 1;
}
