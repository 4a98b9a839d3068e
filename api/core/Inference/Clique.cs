namespace FuelHistory.Core.Inference;

/// <summary>A clique laid out in memory: separator variables first, the last variable running fastest, so that entry i belongs to
/// separator entry i / Run.</summary>
internal sealed class Clique
{
    public Clique(CliqueSketch sketch, IReadOnlyList<int> states)
    {
        Separator = [.. sketch.Separator.Order()];
        Variables = [.. Separator, .. sketch.Variables.Except(Separator).Order()];
        Parent = sketch.Parent;
        Strides = new int[Variables.Length];
        int size = 1;
        for (int i = Variables.Length - 1; i >= 0; i--)
        {
            Strides[i] = size;
            size = checked(size * states[Variables[i]]);
        }

        Size = size;
        SeparatorSize = Separator.Aggregate(1, (s, v) => s * states[v]);
    }

    public int[] Variables { get; }

    public int[] Strides { get; }

    public int[] Separator { get; }

    public int? Parent { get; }

    public int Size { get; }

    public int SeparatorSize { get; }

    /// <summary>Entries of the clique per entry of the separator.</summary>
    public int Run => Size / SeparatorSize;

    /// <summary>Where the table starts in the tree's one array.</summary>
    public int Offset { get; set; }

    /// <summary>Where the message to the parent starts among all messages.</summary>
    public int MessageOffset { get; set; }

    /// <summary>Per entry of the parent: the entry of this clique's separator.</summary>
    public EntryMap? ParentMap { get; set; }

    /// <summary>Factors entered here, each with the map from clique entry to factor entry.</summary>
    public List<(int Factor, EntryMap Map)> Factors { get; } = [];

    public bool Covers(int[] scope) => Array.TrueForAll(scope, v => Array.IndexOf(Variables, v) >= 0);

    /// <summary>Per entry of this clique: the entry of a table over <paramref name="scope"/> (last variable fastest).</summary>
    public EntryMap MapTo(int[] scope, IReadOnlyList<int> states)
    {
        Span<int> sizes = stackalloc int[Variables.Length], steps = stackalloc int[Variables.Length];
        steps.Clear();
        int stride = 1;
        for (int i = scope.Length - 1; i >= 0; i--)
        {
            steps[Array.IndexOf(Variables, scope[i])] = stride;
            stride *= states[scope[i]];
        }

        for (int i = 0; i < sizes.Length; i++)
        {
            sizes[i] = states[Variables[i]];
        }

        return EntryMap.Of(sizes, steps);
    }
}
