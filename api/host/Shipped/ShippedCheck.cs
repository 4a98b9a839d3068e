using FuelHistory.Host.Sqlite;

namespace FuelHistory.Host.Shipped;

/// <summary>The option --check-shipped, which the build runs: lints what lies beside the program, so that no start has to. Serves nothing.</summary>
internal static class ShippedCheck
{
    public const string Switch = "--check-shipped";

    private const int Fine = 0, Refused = 1;

    /// <param name="args">After the switch may stand the folder from which the files were copied: refusals name the files there.</param>
    /// <param name="beside">The program's own folder.</param>
    public static int Run(string[] args, string beside, TextWriter output)
    {
        try
        {
            CheckedAtBuild.Write(Path.Combine(beside, CheckedAtBuild.FolderName), Path.Combine(beside, "fault-models"), Path.Combine(beside, "limits-library"));
            return Fine;
        }
        catch (StartException e)
        {
            var named = Array.IndexOf(args, Switch) + 1 < args.Length ? args[^1] : beside;
            foreach (var line in e.Message.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
            {
                // in the form by which a build knows an error
                output.WriteLine($"FuelHistory : error SHIPPED: {line.Replace(Path.TrimEndingDirectorySeparator(beside), Path.TrimEndingDirectorySeparator(named), StringComparison.Ordinal)}");
            }

            return Refused;
        }
    }
}
