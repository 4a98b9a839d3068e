using FuelHistory.Core.Inference;

namespace FuelHistory.Core.Assessment;

/// <summary>The joint distribution of all leak conditions and stores, read off one clique: from it every section's sum of leaks.</summary>
internal sealed class LeakJoint
{
    private readonly int[] _conditions;
    private readonly Node[] _nodes;
    private readonly double[] _joint;

    public LeakJoint(Circuit circuit, Propagation run, int now, IReadOnlyList<int> conditions)
    {
        _conditions = [.. conditions.Where(c => !circuit.Condition(now, c).Constant)];
        _nodes = [.. _conditions.Select(c => circuit.Condition(now, c))];
        _joint = run.Joint();
    }

    /// <summary>P(store lost, saturated sum of the section's leaks).</summary>
    public double[,] Sums(LeakSection section)
    {
        bool[] watched = [.. _conditions.Select(c => Array.IndexOf(section.Watches, c) >= 0)];
        int store = Array.IndexOf(_conditions, section.Store);
        var sums = new double[2, 4];
        int entry = 0;
        Tables.Fill([.. _nodes.Select(n => n.Levels.Length)], at =>
        {
            int level = 0;
            for (int i = 0; i < at.Length; i++)
            {
                level += watched[i] ? _nodes[i].Levels[at[i]] : 0;
            }

            sums[store >= 0 && _nodes[store].Levels[at[store]] < 0 ? 1 : 0, Math.Min(3, level)] += _joint[entry++];
            return 0;
        });
        return sums;
    }
}
