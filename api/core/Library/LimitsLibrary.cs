using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Library;

/// <summary>All limits with their sources, as read from the files.</summary>
public sealed record LimitsLibrary(IReadOnlyList<LibraryLimit> Limits, IReadOnlyDictionary<string, Source> Sources)
{
    /// <summary>Kinds of source, the most to be trusted first.</summary>
    public static readonly IReadOnlyList<string> Trusts = ["published", "excerpt", "common-practice", "memory"];

    public LibraryLimit? Find(string id) => Limits.FirstOrDefault(l => l.Id == id);

    public Source SourceOf(LibraryLimit limit)
    {
        ArgumentNullException.ThrowIfNull(limit);
        return Sources[limit.Given.Source];
    }
}
