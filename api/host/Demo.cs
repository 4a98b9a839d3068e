using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Host;

/// <summary>Enters the scenario of db/demo through the program's own HTTP interface, so that it passes the same checks as any
/// entry. Its days are relative to today: a search in progress stays one whenever the demo is started.</summary>
internal static partial class Demo
{
    private const string Prefix = "demo/";

    public static async Task Fill(Uri address, DateOnly today)
    {
        using HttpClient client = new() { BaseAddress = address };
        Dictionary<string, string> ids = [];
        foreach (var (name, text) in Files())
        {
            using var script = JsonDocument.Parse(Dated(text, today));
            foreach (var step in script.RootElement.GetProperty("steps").EnumerateArray())
            {
                await Enter(client, name, step, ids);
            }
        }
    }

    /// <summary>The fuel systems of its cars.</summary>
    public static List<string> Systems() => [.. Files().SelectMany(f => OfSystem().Matches(f.Text).Select(m => m.Groups[1].Value)).Distinct()];

    private static async Task Enter(HttpClient client, string file, JsonElement step, Dictionary<string, string> ids)
    {
        var route = Named(step.GetProperty("post").GetString()!, ids);
        var body = Named(step.GetProperty("body").GetRawText(), ids);
        using StringContent content = new(body, Encoding.UTF8, "application/json");
        using var response = await client.PostAsync(new Uri(route, UriKind.Relative), content);
        var answer = await response.Content.ReadAsStringAsync();
        if (!response.IsSuccessStatusCode)
        {
            throw new StartException($"The demo's {file} was refused at {route}: {answer}");
        }

        if (step.TryGetProperty("as", out var name))
        {
            using var entry = JsonDocument.Parse(answer);
            ids[name.GetString()!] = entry.RootElement.GetProperty("entry").GetProperty("id").GetString()!;
        }
    }

    private static IEnumerable<(string Name, string Text)> Files()
    {
        var assembly = typeof(Demo).Assembly;
        foreach (var name in assembly.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using StreamReader reader = new(assembly.GetManifestResourceStream(name)!);
            yield return (name, reader.ReadToEnd());
        }
    }

    private static string Dated(string text, DateOnly today) => Relative().Replace(text, m =>
    {
        var by = int.Parse(m.Groups[2].Value, CultureInfo.InvariantCulture);
        return m.Groups[1].Value switch
        {
            "day" => today.AddDays(by).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            "month" => today.AddMonths(by).ToString("yyyy-MM", CultureInfo.InvariantCulture),
            _ => today.AddYears(by).ToString("yyyy", CultureInfo.InvariantCulture),
        };
    });

    // what is not the name of an earlier step stays as it is: the braces of JSON are never followed by a bare name
    private static string Named(string text, Dictionary<string, string> ids) =>
        Alias().Replace(text, m => ids.GetValueOrDefault(m.Groups[1].Value, m.Value));

    [GeneratedRegex(@"\{(day|month|year):(-?\d+)\}")]
    private static partial Regex Relative();

    [GeneratedRegex(@"""system"": ""([^""]+)""")]
    private static partial Regex OfSystem();

    [GeneratedRegex(@"\{([a-z]+)\}")]
    private static partial Regex Alias();
}
