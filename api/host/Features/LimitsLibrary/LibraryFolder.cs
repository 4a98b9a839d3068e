using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Library;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Host.Features.LimitsLibrary;

/// <summary>The limits library as it lies in a folder, checked once at the start.</summary>
public sealed class LibraryFolder
{
    /// <exception cref="StartException">It cannot be used; the message says where and why.</exception>
    public LibraryFolder(string folder, FaultModelFolder models)
    {
        if (!Directory.Exists(folder))
        {
            throw new StartException($"There is no folder of limits at {folder}.");
        }

        try
        {
            Library = LibraryReader.Read(Directory.EnumerateFiles(folder, "*.json").Order(StringComparer.Ordinal)
                .Where(path => !path.EndsWith(".schema.json", StringComparison.Ordinal))
                .Select(path => (Path.GetFileName(path), File.ReadAllText(path))));
        }
        catch (LibraryException e)
        {
            throw new StartException($"The limits in {folder}: {e.Message}");
        }

        if (LibraryLinter.Lint(Library, models.All.ToDictionary(m => m.Id)) is { Count: > 0 } refusals)
        {
            throw new StartException($"The limits in {folder} cannot be used:{string.Concat(refusals.Select(r => $"\n  {r.Path}: {r.Message} ({r.Rule})"))}");
        }
    }

    public Core.Library.LimitsLibrary Library { get; }
}
