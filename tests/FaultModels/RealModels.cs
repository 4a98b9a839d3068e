using System.Collections.Concurrent;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>Every fault model of the tree, composed and compiled once for all tests.</summary>
internal static class RealModels
{
    private static readonly ConcurrentDictionary<string, Lazy<CompiledModel>> Read = new();

    public static TheoryData<string> All => [.. Ids];

    public static IReadOnlyList<string> Ids { get; } = [.. Directory.GetFiles(ModelFile.Folder, "model.json", SearchOption.AllDirectories)
        .Select(path => Path.GetFileName(Path.GetDirectoryName(path)!)).Order(StringComparer.Ordinal)];

    public static CompiledModel Compiled(string id) => Read.GetOrAdd(id, _ => new(() => new CompiledModel(ModelFile.Composed(id).Read()))).Value;

    public static FaultModel Model(string id) => Compiled(id).Source;

    public static string File(string id, string name) => Path.Combine(ModelFile.Folder, id, name);
}
