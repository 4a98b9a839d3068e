using System.Diagnostics;

namespace FuelHistory.Benchmarks;

/// <summary>Threads on two halves of one core hinder one another, and processor time would count that.</summary>
internal static class OneProcessor
{
    /// <summary>The same program once more, seeing one processor.</summary>
    public static async Task Again(params string?[] arguments)
    {
        string program = Environment.ProcessPath!, first = Environment.GetCommandLineArgs()[0];
        bool byDotnet = Path.GetFileNameWithoutExtension(program) == "dotnet";
        ProcessStartInfo again = new(program) { Environment = { ["DOTNET_PROCESSOR_COUNT"] = "1" } };
        foreach (string argument in arguments.Prepend(byDotnet ? first : null).OfType<string>())
        {
            again.ArgumentList.Add(argument);
        }

        using Process one = Process.Start(again)!;
        await one.WaitForExitAsync();
    }
}
