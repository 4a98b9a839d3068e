namespace FuelHistory.Tests.Repository;

/// <summary>The source tree as it lies on disk, without what is built or belongs to other tools.</summary>
internal static class SourceTree
{
    private static readonly string[] Foreign = [".git", ".vs", ".idea", ".vscode", "artifacts", "bin", "obj", "TestResults", "BenchmarkDotNet.Artifacts"];

    public static string Root => Host.Repository.Root;

    /// <summary>Paths with slashes, relative to the root.</summary>
    public static IReadOnlyList<string> Files { get; } = [.. Below(Root).Select(f => Path.GetRelativePath(Root, f).Replace('\\', '/')).Order(StringComparer.Ordinal)];

    public static IReadOnlyList<string> Folders { get; } =
        [.. Files.Select(f => Path.GetDirectoryName(f)!.Replace('\\', '/')).Where(f => f.Length > 0).Distinct().Order(StringComparer.Ordinal)];

    public static IEnumerable<string> Code => Files.Where(f => f.EndsWith(".cs", StringComparison.Ordinal));

    public static string Text(string path) => File.ReadAllText(Path.Combine(Root, path));

    public static string[] Lines(string path) => File.ReadAllLines(Path.Combine(Root, path));

    private static IEnumerable<string> Below(string folder) =>
        Directory.EnumerateFiles(folder).Concat(Directory.EnumerateDirectories(folder).Where(d => !Foreign.Contains(Path.GetFileName(d))).SelectMany(Below));
}
