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

    /// <summary>A fixed one in so many of all pairs of a part of the car and a cell of an event.</summary>
    public static IEnumerable<(Component Part, EventCell Cell)> Pairs(CompiledModel model, int oneIn, Func<Component, bool>? of = null) =>
        model.Source.Components.Where(c => !c.Instrument && (of is null || of(c))).SelectMany(c => model.Source.Cells, (c, e) => (c, e)).Where((_, i) => i % oneIn == 7);

    /// <summary>The situations kept beside a model.</summary>
    public static CaseFile Cases(string id, string file = "cases.json") => CaseFile.Read(File(id, file));

    public static string File(string id, string name) => Path.Combine(ModelFile.Folder, id, name);
}
