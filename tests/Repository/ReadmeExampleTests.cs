using System.Diagnostics;
using System.Text;
using System.Text.RegularExpressions;

namespace FuelHistory.Tests.Repository;

/// <summary>The session in the README is run as it stands there, by the shell, against the real host with the demo.</summary>
public sealed class ReadmeExampleTests
{
    private const string Fence = "```console", Mark = "@@ command ";
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    private static string Client => Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "..", "..", "FuelHistory.Client", new DirectoryInfo(AppContext.BaseDirectory).Name));

    [Fact]
    public async Task Readme_session_gives_what_the_readme_says()
    {
        using CancellationTokenSource enough = new(Patience);
        using var host = Start("dotnet", Path.Combine(Client, "server", "FuelHistory.Host.dll"), "--demo", "--urls", "http://127.0.0.1:0", "--Parent:Watch", "stdin");
        using var anyway = enough.Token.Register(() => host.Kill());
        var address = await Listening(host, enough.Token);
        var answers = await Answers(Commands(SourceTree.Lines("README.md")), address, enough.Token);
        host.StandardInput.Close();
        await host.WaitForExitAsync(enough.Token);

        var now = Rewritten(SourceTree.Lines("README.md"), answers);
        if (Environment.GetEnvironmentVariable("FUELHISTORY_WRITE") == "1")
        {
            await File.WriteAllTextAsync(Path.Combine(SourceTree.Root, "README.md"), now, enough.Token);
        }

        Assert.True(answers.Count > 5, "The README has lost its session.");
        Assert.True(SourceTree.Text("README.md") == now, $"The README's session now gives something else; run FUELHISTORY_WRITE=1 dotnet test --filter Readme_session and look at the difference.\n{Differences(now)}");
    }

    private static Process Start(string program, params string[] arguments)
    {
        ProcessStartInfo info = new(program, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true };
        info.Environment["LC_ALL"] = "C.UTF-8";
        return Process.Start(info)!;
    }

    /// <summary>The host says where it listens once the demo is entered.</summary>
    private static async Task<string> Listening(Process host, CancellationToken stop)
    {
        while (await host.StandardOutput.ReadLineAsync(stop) is { } line)
        {
            if (line.StartsWith("FUELHISTORY LISTENING ", StringComparison.Ordinal))
            {
                return line.Split(' ')[2];
            }
        }

        throw new InvalidOperationException("The host ended before it listened.");
    }

    private static List<string> Commands(string[] lines) => [.. InSession(lines).Where(l => l.StartsWith("$ ", StringComparison.Ordinal)).Select(l => l[2..])];

    private static IEnumerable<string> InSession(string[] lines)
    {
        bool inside = false;
        foreach (var line in lines)
        {
            inside = line == Fence || (inside && line != "```");
            if (inside)
            {
                yield return line;
            }
        }
    }

    /// <summary>What each command prints. The built client stands for "dotnet run", which would build it again each time.</summary>
    private static async Task<List<string>> Answers(List<string> commands, string address, CancellationToken stop)
    {
        var script = "exec 2>&1\n" + string.Concat(commands.Select((c, i) => $"printf '{Mark}{i}\\n'\n{c}\nprintf '\\n'\n"))
            .Replace("dotnet run --project client-tui --", $"dotnet '{Client}/FuelHistory.Client.dll'", StringComparison.Ordinal)
            .Replace("http://127.0.0.1:5080", address, StringComparison.Ordinal);
        using var shell = Start("/bin/sh", "-c", script);
        using var anyway = stop.Register(() => shell.Kill(entireProcessTree: true));
        var output = await shell.StandardOutput.ReadToEndAsync(stop);
        await shell.WaitForExitAsync(stop);
        Assert.DoesNotContain(": not found", output, StringComparison.Ordinal);
        return [.. output.Split(Mark).Skip(1).Select(part => Masked(part[(part.IndexOf('\n', StringComparison.Ordinal) + 1)..].TrimEnd()))];
    }

    private static string Masked(string text)
    {
        text = Regex.Replace(text, "[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", "…");
        return Regex.Replace(text, @"""recordedAt"":""[^""]+""", @"""recordedAt"":""…""");
    }

    private static string Rewritten(string[] lines, List<string> answers)
    {
        StringBuilder text = new();
        bool inside = false;
        int command = 0;
        foreach (var line in lines)
        {
            inside = line == Fence || (inside && line != "```");
            if (!inside || line == Fence)
            {
                text.Append(line).Append('\n');
            }
            else if (line.StartsWith("$ ", StringComparison.Ordinal))
            {
                var answer = answers[command++];
                text.Append(line).Append('\n').Append(answer).Append(answer.Length > 0 ? "\n" : "");
            }
        }

        return text.ToString();
    }

    private static string Differences(string now) =>
        string.Join('\n', now.Split('\n').Except(SourceTree.Lines("README.md")).Select(l => "now: " + l).Take(12));
}
