using FuelHistory.Host;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.Odometers;
using FuelHistory.Host.Features.Vehicles;
using FuelHistory.Host.Features.Works;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;

try
{
    var builder = WebApplication.CreateBuilder(StartOptions.WithoutSwitch(args));
    var options = StartOptions.Read(args, builder.Configuration);
    options.Register(builder);
    builder.AddHttpForm();
    builder.Services.AddSingleton<Cars>().AddSingleton<Entries>();
    builder.Services.AddSingleton<VehicleStore>().AddSingleton<VehicleRules>();
    builder.Services.AddSingleton<OdometerStore>().AddSingleton<OdometerRules>();
    builder.Services.AddSingleton<WorkStore>().AddSingleton<WorkRules>();

    var app = builder.Build();
    app.Services.GetRequiredService<FaultModelFolder>();
    app.Services.GetRequiredService<SqliteFile>();
    var api = app.UseHttpForm();
    api.MapVehicles();
    api.MapOdometers();
    api.MapWorks();

    app.Follow(options);
    app.Run();
    return 0;
}
catch (StartException e)
{
    Console.Error.WriteLine(e.Message);
    return 1;
}
