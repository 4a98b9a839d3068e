using System.Text.Json;
using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>A leak-down of which the server has not heard everything, as it lies in its file. Server: of whom it is.</summary>
internal sealed record KeptRun(
    string Server, string ComplaintId, CheckView Check, string Unit, string? Instrument, string? Id, DateTimeOffset StoppedAt, LeakDetails Details, IReadOnlyList<LeakStep> Waiting);

/// <summary>Keeps what waits for a server in one small file per leak-down, so that it outlives this program however it ends.</summary>
internal sealed class KeptRuns(string folder, string server)
{
    private const string Prefix = "leak-down-", Suffix = ".json";

    public string Server { get; } = server;

    /// <summary>Writes it, or takes the file away where nothing waits.</summary>
    /// <returns>Whether it is safe now.</returns>
    public bool Keep(string name, KeptRun run)
    {
        try
        {
            var file = FileOf(name);
            if (run.Waiting.Count == 0)
            {
                File.Delete(file);
                return true;
            }
            Directory.CreateDirectory(folder);
            // a file half written would be worse than the one before
            var fresh = file + ".new";
            File.WriteAllText(fresh, JsonSerializer.Serialize(run, ClientJson.Default.KeptRun));
            File.Move(fresh, file, overwrite: true);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    /// <summary>Those of this server. What cannot be read stays where it is.</summary>
    public IReadOnlyList<(string Name, KeptRun Run)> All()
    {
        if (!Directory.Exists(folder)) return [];
        List<(string, KeptRun)> all = [];
        foreach (var file in Directory.EnumerateFiles(folder, Prefix + "*" + Suffix).Order(StringComparer.Ordinal))
            if (Read(file) is { } run && run.Server == Server) all.Add((Path.GetFileName(file)[Prefix.Length..^Suffix.Length], run));
        return all;
    }

    private string FileOf(string name) => Path.Combine(folder, Prefix + name + Suffix);

    private static KeptRun? Read(string file)
    {
        try
        {
            return JsonSerializer.Deserialize(File.ReadAllText(file), ClientJson.Default.KeptRun);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or JsonException)
        {
            return null;
        }
    }
}
