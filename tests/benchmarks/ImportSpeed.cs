using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;

namespace FuelHistory.Benchmarks;

/// <summary>A logger's file over HTTP into a host of its own: seconds, and how far the host's memory grew.</summary>
internal static class ImportSpeed
{
    private const string Url = "http://127.0.0.1:5299", Stop = "2025-05-01T01:00:00Z";

    public static async Task Print(int samples)
    {
        var folder = Directory.CreateTempSubdirectory("fuelhistory-bench-");
        ProcessStartInfo start = new("dotnet") { RedirectStandardInput = true, RedirectStandardOutput = true };
        foreach (var argument in new[] { Path.Combine(AppContext.BaseDirectory, "FuelHistory.Host.dll"), "--urls", Url, "--Database", Path.Combine(folder.FullName, "bench.db"), "--Parent:Watch", "stdin" })
        {
            start.ArgumentList.Add(argument);
        }

        using var host = Process.Start(start)!;
        await host.StandardOutput.ReadLineAsync();
        using HttpClient client = new() { BaseAddress = new Uri(Url) };
        var complaint = await Complaint(client);
        await Import(client, host, complaint, 1000);
        await Import(client, host, complaint, samples);
        host.StandardInput.Close();
        await host.WaitForExitAsync();
        folder.Delete(recursive: true);
    }

    private static async Task Import(HttpClient client, Process host, string complaint, int samples)
    {
        var run = await Id(client, $"/v1/complaints/{complaint}/leak-downs", new { check = "leak-down-whole", stoppedAt = Stop });
        var file = Encoding.ASCII.GetBytes("t,p\n" + string.Concat(Enumerable.Range(0, samples).Select(i => string.Create(CultureInfo.InvariantCulture, $"{i * 50},{3 * Math.Exp(-i / 400_000.0):0.0000}\n"))));
        using ByteArrayContent content = new(file);
        content.Headers.ContentType = new("text/csv");
        host.Refresh();
        var before = host.WorkingSet64;
        var watch = Stopwatch.StartNew();
        using var answer = await client.PostAsync(new Uri($"/v1/leak-downs/{run}/import?timeUnit=ms", UriKind.Relative), content);
        answer.EnsureSuccessStatusCode();
        var seconds = watch.Elapsed.TotalSeconds;
        host.Refresh();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{samples} samples, {file.Length / 1e6:0.0} MB: {seconds:0.00} s, memory of the host {before / 1e6:0} to {host.WorkingSet64 / 1e6:0} MB"));
    }

    private static async Task<string> Complaint(HttpClient client)
    {
        var vehicle = await Id(client, "/v1/vehicles", new { name = "Bench", year = "1981", system = "continuous-mechanical" });
        return await Id(client, $"/v1/vehicles/{vehicle}/complaints", new { title = "Restarts badly", since = "2025-04", events = Array.Empty<object>() });
    }

    private static async Task<string> Id(HttpClient client, string path, object body)
    {
        using var answer = await client.PostAsJsonAsync(new Uri(path, UriKind.Relative), body);
        answer.EnsureSuccessStatusCode();
        return (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("entry").GetProperty("id").GetString()!;
    }
}
