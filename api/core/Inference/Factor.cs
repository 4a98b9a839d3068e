namespace FuelHistory.Core.Inference;

/// <summary>A table over some variables of a network. The last variable of the scope runs fastest. Entries may be negative
/// (the signed terms of a noisy-OR), so a table is not in general a distribution.</summary>
public sealed class Factor
{
    /// <exception cref="ArgumentException">A variable occurs twice, or the table does not hold one finite entry per combination.</exception>
    public Factor(IReadOnlyList<int> scope, IReadOnlyList<int> states, double[] table)
    {
        long size = 1;
        for (int i = 0; i < scope.Count; i++)
        {
            size *= states[scope[i]];
            for (int j = 0; j < i; j++)
            {
                if (scope[i] == scope[j])
                {
                    throw new ArgumentException($"Scope [{string.Join(", ", scope)}] names a variable twice.", nameof(scope));
                }
            }
        }

        if (table.Length != size)
        {
            throw new ArgumentException($"Scope [{string.Join(", ", scope)}] needs {size} entries, the table has {table.Length}.", nameof(table));
        }

        foreach (double entry in table)
        {
            if (!double.IsFinite(entry))
            {
                throw new ArgumentException($"The table over [{string.Join(", ", scope)}] holds a NaN or an infinity.", nameof(table));
            }
        }

        Scope = [.. scope];
        Table = table;
    }

    private Factor(int[] scope, double[] table) => (Scope, Table) = (scope, table);

    /// <summary>A factor of a scope and a table that were checked before; neither is copied, neither may change.</summary>
    internal static Factor Known(int[] scope, double[] table) => new(scope, table);

    public int[] Scope { get; }

    public double[] Table { get; }
}

/// <summary>Variables (by number, each with its count of states) and factors; their product is the joint weight.</summary>
public sealed class Network
{
    private readonly List<int> _states = [];
    private readonly List<Factor> _factors = [];

    public IReadOnlyList<int> States => _states;

    public IReadOnlyList<Factor> Factors => _factors;

    /// <summary>Adds a variable; returns its number.</summary>
    public int AddVariable(int states)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(states, 1);
        _states.Add(states);
        return _states.Count - 1;
    }

    public void AddFactor(IReadOnlyList<int> scope, double[] table) => _factors.Add(new Factor(scope, _states, table));

    /// <summary>Adds a factor whose table was checked when it was first made.</summary>
    internal void AddKnown(int[] scope, double[] table) => _factors.Add(Factor.Known(scope, table));
}
