using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json;
using FuelHistory.Core.Assessment;
using FuelHistory.Host;
using FuelHistory.Host.Features;
using FuelHistory.Host.Features.Assessments;
using FuelHistory.Host.Http;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;

namespace FuelHistory.Benchmarks.Complaints;

/// <summary>Cases kept as files of requests (vehicle, odometer, layUps, incidents, work, complaint, findings): entered over HTTP into a host
/// of its own, then gathered from its file as the host gathers them.</summary>
internal static class EncodedCases
{
    private const string Url = "http://127.0.0.1:5298";

    private static readonly DateOnly AsOf = new(2026, 11, 30);

    private static readonly (string Of, string Path)[] OfVehicle = [("odometer", "odometer"), ("layUps", "lay-ups"), ("incidents", "incidents"), ("work", "work")];

    public static async Task<IReadOnlyList<(string Name, string System, AssessmentInput Input)>> Of(string cases)
    {
        var folder = Directory.CreateTempSubdirectory("fuelhistory-cases-");
        string database = Path.Combine(folder.FullName, "cases.db");
        List<(string Name, string Complaint)> entered = [];
        using (Process host = await Start(database))
        {
            using HttpClient client = new() { BaseAddress = new Uri(Url) };
            foreach (string file in Directory.GetFiles(cases, "*.json").Order(StringComparer.Ordinal))
            {
                using JsonDocument text = JsonDocument.Parse(await File.ReadAllTextAsync(file));
                if (await Enter(client, Path.GetFileNameWithoutExtension(file), text.RootElement) is string complaint)
                {
                    entered.Add((Path.GetFileNameWithoutExtension(file), complaint));
                }
            }

            host.StandardInput.Close();
            await host.WaitForExitAsync();
        }

        var gathered = Gather(database, entered);
        folder.Delete(recursive: true);
        return gathered;
    }

    private static async Task<Process> Start(string database)
    {
        ProcessStartInfo start = new("dotnet") { RedirectStandardInput = true, RedirectStandardOutput = true };
        foreach (string argument in new[] { Path.Combine(AppContext.BaseDirectory, "FuelHistory.Host.dll"), "--urls", Url, "--Database", database, "--Parent:Watch", "stdin", "--Logging:LogLevel:Default", "Warning" })
        {
            start.ArgumentList.Add(argument);
        }

        Process host = Process.Start(start)!;
        using PeriodicTimer again = new(TimeSpan.FromMilliseconds(200));
        using HttpClient client = new() { BaseAddress = new Uri(Url), Timeout = TimeSpan.FromSeconds(2) };
        for (int tries = 0; tries < 300; tries++)
        {
            try
            {
                (await client.GetAsync(new Uri("/readyz", UriKind.Relative))).EnsureSuccessStatusCode();
                return host;
            }
            catch (Exception e) when (e is HttpRequestException or TaskCanceledException)
            {
                await again.WaitForNextTickAsync();
            }
        }

        throw new InvalidOperationException("the host did not start");
    }

    /// <returns>The complaint's id; null where the case cannot be entered. A single finding that is refused is said and left out.</returns>
    private static async Task<string?> Enter(HttpClient client, string name, JsonElement file)
    {
        if (await Post(client, name, "/v1/vehicles", file.GetProperty("vehicle")) is not string vehicle)
        {
            return null;
        }

        foreach ((string of, string path) in OfVehicle)
        {
            await All(client, name, $"/v1/vehicles/{vehicle}/{path}", file, of);
        }

        if (await Post(client, name, $"/v1/vehicles/{vehicle}/complaints", file.GetProperty("complaint")) is not string complaint)
        {
            return null;
        }

        foreach (string kind in new[] { "findings", "trials", "own" })
        {
            await All(client, name, $"/v1/complaints/{complaint}/findings", file, kind);
        }

        return complaint;
    }

    private static async Task All(HttpClient client, string name, string path, JsonElement file, string of)
    {
        foreach (JsonElement body in file.TryGetProperty(of, out JsonElement all) ? all.EnumerateArray() : default)
        {
            await Post(client, name, path, body);
        }
    }

    private static async Task<string?> Post(HttpClient client, string name, string path, JsonElement body)
    {
        using HttpResponseMessage answer = await client.PostAsJsonAsync(new Uri(path, UriKind.Relative), body);
        if (!answer.IsSuccessStatusCode)
        {
            Console.WriteLine($"{name}: refused, left out: {path[path.LastIndexOf('/')..]} {await answer.Content.ReadAsStringAsync()}");
            return null;
        }

        return (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("entry").GetProperty("id").GetString();
    }

    /// <summary>With the host's own reading of its file, in this process.</summary>
    private static List<(string, string, AssessmentInput)> Gather(string database, List<(string Name, string Complaint)> entered)
    {
        string[] args = ["--Database", database];
        WebApplicationBuilder builder = WebApplication.CreateBuilder(args);
        StartOptions.Read(args, builder.Configuration).Register(builder);
        builder.AddHttpForm();
        builder.Services.AddFeatures();
        using WebApplication app = builder.Build();
        AssessmentInputs inputs = app.Services.GetRequiredService<AssessmentInputs>();
        return [.. entered.Select(e => inputs.Gather(e.Complaint, AsOf, null, out Gathered? found) is null
            ? (e.Name, found!.Car.Model.Id, found.Input)
            : throw new InvalidOperationException($"{e.Name} cannot be gathered"))];
    }
}
