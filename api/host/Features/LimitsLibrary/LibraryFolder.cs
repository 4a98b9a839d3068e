using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Library;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Shipped;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Host.Features.LimitsLibrary;

using Limits = FuelHistory.Core.Library.LimitsLibrary;

/// <summary>The limits library as it lies in a folder at the start. Checked there and then, unless the build has done it: then it is read when it is first asked for.</summary>
public sealed class LibraryFolder
{
    private readonly Lazy<Limits> library;

    /// <param name="known">The files, where they are those that the build linted.</param>
    /// <exception cref="StartException">It cannot be used; the message says where and why.</exception>
    public LibraryFolder(string folder, FaultModelFolder models, CheckedAtBuild? known = null)
    {
        if (!Directory.Exists(folder))
        {
            throw new StartException($"There is no folder of limits at {folder}.");
        }

        library = new(() => LibraryReader.Read(known?.Limits ?? Directory.EnumerateFiles(folder).Order(StringComparer.Ordinal)
            .Where(path => IsPart(Path.GetFileName(path))).Select(path => (Path.GetFileName(path), File.ReadAllText(path)))));
        if (known is null)
        {
            Check(folder, models);
        }
    }

    public Limits Library => library.Value;

    /// <param name="name">Of a file that lies in the folder itself.</param>
    internal static bool IsPart(string name) => name.EndsWith(".json", StringComparison.Ordinal) && !name.EndsWith(".schema.json", StringComparison.Ordinal);

    private void Check(string folder, FaultModelFolder models)
    {
        try
        {
            _ = Library;
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
}
