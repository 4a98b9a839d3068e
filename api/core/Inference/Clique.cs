namespace FuelHistory.Core.Inference;

/// <summary>What a run over a tree needs to know of one clique; its variables are known only while the tree is made.</summary>
/// <param name="Size">Entries of its table, of which entry i belongs to entry i / <see cref="Run"/> of the separator.</param>
/// <param name="SeparatorSize">Entries of the message to its parent; 1 for a root.</param>
/// <param name="Parent">-1: it is a root.</param>
/// <param name="Offset">Where the table starts in the tree's one array.</param>
/// <param name="MessageOffset">Where the message starts among all messages.</param>
/// <param name="ParentMap">Per entry of the parent: the entry of this clique's separator.</param>
/// <param name="Factors">Number of the first of its factors in the tree's list, and of the first that is not its own.</param>
internal readonly record struct Clique(int Size, int SeparatorSize, int Parent, int Offset, int MessageOffset, EntryMap? ParentMap, (int First, int End) Factors)
{
    /// <summary>Entries of the clique per entry of the separator.</summary>
    public int Run => Size / SeparatorSize;
}

/// <summary>A clique laid out in memory: separator variables first, the last variable running fastest.</summary>
internal sealed class CliqueLayout
{
    public CliqueLayout(CliqueSketch sketch, IReadOnlyList<int> states)
    {
        int[] separator = sketch.Separator;
        Variables = new int[sketch.Variables.Length];
        separator.CopyTo(Variables, 0);
        int at = separator.Length;
        foreach (int v in sketch.Variables)
        {
            if (Array.IndexOf(separator, v) < 0)
            {
                Variables[at++] = v;
            }
        }

        Array.Sort(Variables, 0, separator.Length);
        Array.Sort(Variables, separator.Length, Variables.Length - separator.Length);
        (Parent, Strides, SeparatorSize) = (sketch.Parent ?? -1, new int[Variables.Length], 1);
        int size = 1;
        for (int i = Variables.Length - 1; i >= 0; i--)
        {
            Strides[i] = size;
            size = checked(size * states[Variables[i]]);
            SeparatorSize *= i < separator.Length ? states[Variables[i]] : 1;
        }

        Size = size;
        Separator = Variables[..separator.Length];
    }

    public int[] Variables { get; }

    public int[] Strides { get; }

    public int[] Separator { get; }

    public int Parent { get; }

    public int Size { get; }

    public int SeparatorSize { get; }

    /// <summary>Factors entered here, each with the map from clique entry to factor entry.</summary>
    public List<(int Factor, EntryMap Map)> Factors { get; } = [];

    public bool Covers(int[] scope)
    {
        foreach (int v in scope)
        {
            if (Array.IndexOf(Variables, v) < 0)
            {
                return false;
            }
        }

        return true;
    }

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
