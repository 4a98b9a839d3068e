using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;

namespace FuelHistory.Tests.Host;

/// <summary>The real host on a free port over a database file of its own, with a clock that the test sets.</summary>
public sealed class ApiHost : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("fuelhistory-test-").FullName;
    private readonly bool realModels;
    private readonly string? checkedAtBuild;
    private Factory factory;

    /// <param name="own">A model.json of the user's own.</param>
    /// <param name="checkedAtBuild">Where a stamp of the models and limits lies.</param>
    public ApiHost(bool realModels = false, string? own = null, string? checkedAtBuild = null)
    {
        (this.realModels, this.checkedAtBuild) = (realModels, checkedAtBuild);
        (factory, Client) = Start(own);
    }

    public static string TestModels => Path.Combine(Repository.Root, "tests", "Host", "fault-models");

    public static string TestLibrary => Path.Combine(Repository.Root, "tests", "Host", "limits-library");

    public Uri Address => factory.ClientOptions.BaseAddress;
    public HttpClient Client { get; private set; }
    public SetClock Clock { get; } = new();
    public string Database => Path.Combine(folder, "test.db");
    public ComputingGate Gate => factory.Services.GetRequiredService<ComputingGate>();
    public FaultModelFolder Models => factory.Services.GetRequiredService<FaultModelFolder>();
    public SqliteFile File => factory.Services.GetRequiredService<SqliteFile>();

    public Task<Answer> Get(string path, string? ifNoneMatch = null) => Send(HttpMethod.Get, path, null, ("If-None-Match", ifNoneMatch));

    public Task<Answer> Post(string path, object? body = null) => Send(HttpMethod.Post, path, body);

    public Task<Answer> Put(string path, object body, string? ifMatch = null) => Send(HttpMethod.Put, path, body, ("If-Match", ifMatch));

    /// <summary>A body that is a string is sent as it is.</summary>
    public async Task<Answer> Send(HttpMethod method, string path, object? body, params (string Name, string? Value)[] headers)
    {
        using HttpRequestMessage request = new(method, path);
        if (body is not null)
        {
            request.Content = new StringContent(body as string ?? JsonSerializer.Serialize(body), Encoding.UTF8, "application/json");
        }

        foreach (var (name, value) in headers.Where(h => h.Value is not null))
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        using var response = await Client.SendAsync(request);
        return await Answer.Read(response);
    }

    /// <summary>A vehicle of the test model, built in 1981.</summary>
    public async Task<string> Vehicle(string system = "test-circuit") =>
        (await Post("/v1/vehicles", new { name = "Blue hatchback", year = "1981", system })).Id;

    public async Task<string> Complaint(string vehicle) =>
        (await Post($"/v1/vehicles/{vehicle}/complaints", new { title = "Restarts badly", since = "2026-05", events = new[] { new { @event = "hard-hot-start", answer = "present" } } })).Id;

    public async Task<string> Gauge() =>
        (await Post("/v1/instruments", new { name = "Gauge", quantity = "pressure", unit = "bar", span = 10, classPercent = 1.6 })).Id;

    /// <summary>Ends the program and starts it again over the same file.</summary>
    /// <param name="own">What the user's own model.json holds now.</param>
    public void Restart(string own)
    {
        Client.Dispose();
        factory.Dispose();
        (factory, Client) = Start(own);
    }

    /// <summary>Past the program, as another tool would open the file.</summary>
    public SqliteConnection Raw()
    {
        SqliteConnection connection = new($"Data Source={Database};Pooling=False;Default Timeout=1");
        connection.Open();
        return connection;
    }

    public void Dispose()
    {
        Client.Dispose();
        factory.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private (Factory Factory, HttpClient Client) Start(string? own)
    {
        if (own is not null)
        {
            Directory.CreateDirectory(Path.Combine(folder, "fault-models", "mine"));
            System.IO.File.WriteAllText(Path.Combine(folder, "fault-models", "mine", "model.json"), own);
        }

        var started = realModels
            ? new Factory(this, Path.Combine(AppContext.BaseDirectory, "fault-models"), Path.Combine(AppContext.BaseDirectory, "limits-library"))
            : new Factory(this, TestModels, TestLibrary);
        started.StartServer();
        return (started, new HttpClient(new Documented(this) { InnerHandler = new SocketsHttpHandler { Expect100ContinueTimeout = TimeSpan.FromMinutes(1) } }) { BaseAddress = started.ClientOptions.BaseAddress });
    }

    private sealed class Factory : WebApplicationFactory<Refused>
    {
        private readonly ApiHost host;
        private readonly string models;
        private readonly string library;

        public Factory(ApiHost host, string models, string library)
        {
            this.host = host;
            this.models = models;
            this.library = library;
            UseKestrel(0);
        }

        protected override void ConfigureWebHost(IWebHostBuilder builder) => builder
            .UseSetting("Database", host.Database).UseSetting("FaultModels", models).UseSetting("LimitsLibrary", library)
            .UseSetting("CheckedAtBuild", host.checkedAtBuild).UseSetting("BusySeconds", "1")
            .ConfigureTestServices(services => services.AddSingleton<TimeProvider>(host.Clock));
    }
}

/// <summary>What came back, read to the end.</summary>
public sealed record Answer(HttpStatusCode Status, string Text, HttpResponseHeaders Headers, HttpContentHeaders Content)
{
    public JsonElement Body => JsonDocument.Parse(Text).RootElement;
    public string Id => Body.GetProperty("entry").GetProperty("id").GetString()!;
    public int Version => Body.GetProperty("entry").GetProperty("version").GetInt32();
    public string Code => Body.GetProperty("code").GetString()!;
    public string? ETag => Headers.ETag?.ToString();

    /// <summary>"pointer code" of every fault, in order.</summary>
    public IReadOnlyList<string> Faults => Body.TryGetProperty("errors", out var errors)
        ? [.. errors.EnumerateArray().Select(e => $"{e.GetProperty("pointer").GetString()} {e.GetProperty("code").GetString()}")]
        : [];

    public string Detail => Body.GetProperty("detail").GetString()!;

    public string Member(string name) => Body.GetProperty(name).ToString();

    public static async Task<Answer> Read(HttpResponseMessage response) =>
        new(response.StatusCode, await response.Content.ReadAsStringAsync(), response.Headers, response.Content.Headers);
}

public sealed class SetClock : TimeProvider
{
    public DateTimeOffset Now { get; set; } = new(2026, 6, 15, 12, 0, 0, TimeSpan.Zero);
    public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;
    public override DateTimeOffset GetUtcNow() => Now;
}
