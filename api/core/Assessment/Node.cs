using FuelHistory.Core.Inference;

namespace FuelHistory.Core.Assessment;

/// <summary>A condition in one or more stretches as a variable: the level that each of its states means. Without a variable it is
/// at level 0 for certain.</summary>
internal sealed record Node(int Variable, int[] Levels)
{
    public static readonly Node Zero = new(-1, [0]);

    public bool Constant => Variable < 0;
}

/// <summary>Fills tables: one value per combination of the states of a scope, the last variable running fastest.</summary>
internal static class Tables
{
    /// <exception cref="TooLargeException">One table alone is beyond what a whole network may have.</exception>
    public static double[] Fill(IReadOnlyList<int> states, Func<int[], double> value)
    {
        double size = states.Aggregate(1.0, (product, s) => product * s);
        if (size > CompiledModel.Bound)
        {
            throw new TooLargeException();
        }

        var table = new double[(int)size];
        var at = new int[states.Count];
        for (int i = 0; i < size; i++)
        {
            table[i] = value(at);
            for (int v = at.Length - 1; v >= 0 && ++at[v] == states[v]; v--)
            {
                at[v] = 0;
            }
        }

        return table;
    }

    /// <summary>Adds a factor given by a function of the states of its scope.</summary>
    public static void Add(this Network network, IReadOnlyList<int> scope, Func<int[], double> value) =>
        network.AddFactor(scope, Fill([.. scope.Select(v => network.States[v])], value));
}
