using System.Diagnostics;
using System.Runtime.InteropServices;

namespace FuelHistory.Client.Child;

/// <summary>The API as a child process. It ends when its standard input closes, so it cannot outlive this process, however that ends.</summary>
internal sealed class HostChild : IDisposable
{
    private const string Announcement = "FUELHISTORY LISTENING ";
    private static readonly TimeSpan StartTime = TimeSpan.FromSeconds(20);
    private static readonly TimeSpan StopTime = TimeSpan.FromSeconds(5);

    private readonly Process _process;
    private readonly Queue<string> _lastErrors = new();
    private readonly TaskCompletionSource<Uri> _listening = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private HostChild(Process process, CancellationToken ct)
    {
        _process = process;
        Address = WhenListening(ct);
    }

    public int Id => _process.Id;

    /// <summary>Where it listens, as soon as it says so.</summary>
    /// <exception cref="ChildFailure">The host ended, or said nothing in time.</exception>
    public Task<Uri> Address { get; }

    public static string Assembly => Path.Combine(AppContext.BaseDirectory, "server", "FuelHistory.Host.dll");

    /// <summary>Starts the host that lies beside the client. What the client needs itself can be made ready until it listens.</summary>
    /// <exception cref="ChildFailure">The host is missing, or cannot be started.</exception>
    public static HostChild Start(IEnumerable<string> arguments, CancellationToken ct)
    {
        if (!File.Exists(Assembly)) throw new ChildFailure("the server's files are missing beside the client; build the client again");
        var process = Process.Start(Command([Assembly, "--urls", "http://127.0.0.1:0", "--Parent:Watch", "stdin", .. arguments]))
            ?? throw new ChildFailure("the server could not be started");
        HostChild child = new(process, ct);
        // both streams are read to their end: a full pipe would stop the host
        process.OutputDataReceived += (_, line) => Heard(line.Data, child._listening);
        process.ErrorDataReceived += (_, line) => child.Keep(line.Data);
        process.EnableRaisingEvents = true;
        process.Exited += (_, _) => child._listening.TrySetException(new ChildFailure("the server ended before it listened"));
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        return child;
    }

    public void Dispose()
    {
        try
        {
            _process.StandardInput.Close();
            if (!_process.WaitForExit(StopTime)) _process.Kill(entireProcessTree: true);
        }
        catch (Exception e) when (e is InvalidOperationException or IOException)
        {
            // it has ended already, which is what was wanted
        }
        _process.Dispose();
    }

    private async Task<Uri> WhenListening(CancellationToken ct)
    {
        try
        {
            return await _listening.Task.WaitAsync(StartTime, ct).ConfigureAwait(false);
        }
        catch (ChildFailure ended)
        {
            // its last words may still be on their way
            await _process.WaitForExitAsync(CancellationToken.None).ConfigureAwait(false);
            throw new ChildFailure($"{ended.Message}{Errors()}");
        }
        catch (Exception e) when (e is TimeoutException or OperationCanceledException)
        {
            throw new ChildFailure($"{(e is TimeoutException ? "the server said nothing in time" : e.Message)}{Errors()}");
        }
    }

    private static ProcessStartInfo Command(IEnumerable<string> arguments)
    {
        // the runtime that runs this client runs the host as well
        var root = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", ".."));
        var dotnet = Path.Combine(root, "dotnet");
        ProcessStartInfo info = new(File.Exists(dotnet) ? dotnet : "dotnet")
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var argument in arguments) info.ArgumentList.Add(argument);
        // an address set for another program must not move this one
        info.Environment.Remove("ASPNETCORE_URLS");
        info.Environment.Remove("ASPNETCORE_HTTP_PORTS");
        return info;
    }

    private static void Heard(string? line, TaskCompletionSource<Uri> listening)
    {
        if (line is not null && line.StartsWith(Announcement, StringComparison.Ordinal) && Uri.TryCreate(line[Announcement.Length..].Trim(), UriKind.Absolute, out var address))
            listening.TrySetResult(address);
    }

    private void Keep(string? line)
    {
        if (string.IsNullOrWhiteSpace(line)) return;
        lock (_lastErrors)
        {
            _lastErrors.Enqueue(line.Trim());
            while (_lastErrors.Count > 3) _lastErrors.Dequeue();
        }
    }

    private string Errors()
    {
        lock (_lastErrors) return _lastErrors.Count == 0 ? "" : ": " + string.Join(" / ", _lastErrors);
    }
}

internal sealed class ChildFailure(string message) : Exception(message);
