using Microsoft.AspNetCore.Http.Json;

namespace FuelHistory.Host.Http;

/// <summary>Everything about HTTP that is the same for all features.</summary>
internal static class HostSetup
{
    public static void AddHttpForm(this WebApplicationBuilder builder)
    {
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = StrictBody.Largest;
        });
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        // stdout carries the address and nothing else
        builder.Logging.AddConsole(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
        // a long computation under way is not waited for: nothing of it is stored
        builder.Services.Configure<HostOptions>(host => host.ShutdownTimeout = TimeSpan.FromSeconds(2));
        builder.Services.Configure<JsonOptions>(json => JsonForm.Set(json.SerializerOptions));
        builder.Services.Configure<RouteHandlerOptions>(routes => routes.ThrowOnBadRequest = true);
        builder.Services.AddExceptionHandler<Unexpected>();
        builder.Services.AddProblemDetails();
        builder.Services.AddOpenApi("v1", OpenApiForm.Set);
    }

    public static RouteGroupBuilder UseHttpForm(this WebApplication app)
    {
        app.UseExceptionHandler(new ExceptionHandlerOptions { SuppressDiagnosticsCallback = _ => true });
        app.UseStatusCodePages(Unexpected.Bare);
        app.UseMiddleware<Guard>();
        app.UseMiddleware<StrictBody>();
        app.MapOpenApi("/openapi/{documentName}.json");
        return app.MapGroup("").RefusesAnywhere();
    }
}
