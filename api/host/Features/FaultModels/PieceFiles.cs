namespace FuelHistory.Host.Features.FaultModels;

/// <summary>Files of pieces in a folder of fault models: all in shared/, and beside a model.json those named after its folder ("carburettor/carburettor-events.json").</summary>
public static class PieceFiles
{
    private const string Shared = "shared";

    /// <summary>Paths in a fixed order; the file's name without its ending is the piece's id.</summary>
    public static IReadOnlyList<string> In(string folder)
    {
        ArgumentNullException.ThrowIfNull(folder);
        string[] shared = Directory.Exists(Path.Combine(folder, Shared)) ? Directory.GetFiles(Path.Combine(folder, Shared), "*.json") : [];
        return [.. shared.Concat(Directory.Exists(folder) ? Directory.GetDirectories(folder).SelectMany(Own) : []).Order(StringComparer.Ordinal)];
    }

    private static string[] Own(string system) => Directory.GetFiles(system, $"{Path.GetFileName(system)}-*.json");
}
