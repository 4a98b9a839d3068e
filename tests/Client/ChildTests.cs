using System.Diagnostics;
using System.Globalization;
using Xunit;

namespace FuelHistory.Tests.Client;

/// <summary>The client as a program of its own, with the host as its child.</summary>
public sealed class ChildTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(40);

    private static string Program => Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "..", "..", "FuelHistory.Client", new DirectoryInfo(AppContext.BaseDirectory).Name, "FuelHistory.Client.dll"));

    [Fact]
    public async Task Client_alone_starts_its_host_answers_and_leaves_none_behind()
    {
        using Folder folder = new();
        using var client = Start("dotnet", folder, Program, "list");
        using CancellationTokenSource enough = new(Patience);
        var output = await client.StandardOutput.ReadToEndAsync(enough.Token);
        await client.WaitForExitAsync(enough.Token);
        Assert.Equal(0, client.ExitCode);
        Assert.Contains("No vehicle is recorded yet", output, StringComparison.Ordinal);
        Assert.Empty(HostsOn(folder));
    }

    [Fact]
    public async Task Client_whose_host_cannot_start_says_why_and_how_it_ended()
    {
        using Folder folder = new();
        await File.WriteAllTextAsync(folder.Database, "");
        using var client = Start("dotnet", folder, Program, "list", "--database", folder.Database);
        using CancellationTokenSource enough = new(Patience);
        var errors = await client.StandardError.ReadToEndAsync(enough.Token);
        await client.WaitForExitAsync(enough.Token);

        Assert.Equal(3, client.ExitCode);
        Assert.Matches("The server did not start: the server ended before it listened: .*own.db is empty", errors);
    }

    /// <summary>On a terminal made by script(1), as the screens need one.</summary>
    [Fact]
    public async Task Client_killed_without_warning_leaves_no_host_behind()
    {
        Assert.True(File.Exists("/usr/bin/script"), "script(1) of util-linux makes the terminal for this test");
        using Folder folder = new();
        using var terminal = Start("/usr/bin/script", folder, "-qec", $"stty rows 24 cols 80; exec dotnet {Program} --database {folder.Database}", "/dev/null");
        using CancellationTokenSource enough = new(Patience);
        using var anyway = enough.Token.Register(() => terminal.Kill(entireProcessTree: true));
        var screen = "";
        var buffer = new char[4096];
        while (!screen.Contains("No vehicle", StringComparison.Ordinal)) screen += new string(buffer, 0, await terminal.StandardOutput.ReadAsync(buffer, enough.Token));
        using var host = Process.GetProcessById(Assert.Single(HostsOn(folder)));
        using var client = Process.GetProcessById(ParentOf(host.Id));
        client.Kill();
        await host.WaitForExitAsync(enough.Token);
        Assert.Empty(HostsOn(folder));
    }

    private static Process Start(string file, Folder folder, params string[] arguments)
    {
        ProcessStartInfo info = new(file, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        info.Environment["XDG_DATA_HOME"] = folder.Path;
        info.Environment["TERM"] = "xterm";
        info.Environment.Remove("DisableRealDriverIO");
        return Process.Start(info)!;
    }

    /// <summary>Hosts that run for this folder: their environment names it.</summary>
    private static List<int> HostsOn(Folder folder) => [.. Directory.EnumerateDirectories("/proc").Select(Path.GetFileName).Where(name => int.TryParse(name, out _)).Select(name => int.Parse(name!, CultureInfo.InvariantCulture))
        .Where(id => Read(id, "cmdline").Contains("FuelHistory.Host.dll", StringComparison.Ordinal) && Read(id, "environ").Contains(folder.Path, StringComparison.Ordinal))];

    private static int ParentOf(int id) => int.Parse(Read(id, "stat").Split(") ")[1].Split(' ')[1], CultureInfo.InvariantCulture);

    private static string Read(int id, string file)
    {
        try
        {
            return File.ReadAllText($"/proc/{id}/{file}");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // it ended between the listing and the reading
            return "";
        }
    }

    private sealed class Folder : IDisposable
    {
        public string Path { get; } = Directory.CreateTempSubdirectory("fuelhistory-client-").FullName;

        public string Database => System.IO.Path.Combine(Path, "own.db");

        public void Dispose() => Directory.Delete(Path, recursive: true);
    }
}
