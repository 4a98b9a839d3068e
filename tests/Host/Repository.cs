namespace FuelHistory.Tests.Host;

/// <summary>Where the source tree is, found from the folder of the built tests.</summary>
internal static class Repository
{
    public static string Root { get; } = Find(new DirectoryInfo(AppContext.BaseDirectory));

    private static string Find(DirectoryInfo? folder) =>
        folder is null ? throw new DirectoryNotFoundException("No FuelHistory.sln above the tests.")
        : File.Exists(Path.Combine(folder.FullName, "FuelHistory.sln")) ? folder.FullName
        : Find(folder.Parent);
}
