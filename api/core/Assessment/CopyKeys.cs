namespace FuelHistory.Core.Assessment;

/// <summary>Says which conditions are one and the same variable in several worlds: those whose causes are the same copies.
/// Key 0: at level 0 for certain.</summary>
internal sealed class CopyKeys
{
    private readonly Dictionary<PartCopy, int> _parts = new(ReferenceEqualityComparer.Instance);
    private readonly int[][] _conditions;
    private readonly PartCopy?[][] _worlds;

    /// <param name="forced">Conditions that are right for certain, per world.</param>
    public CopyKeys(ModelIndex index, PartCopy?[][] worlds, IReadOnlySet<(int World, int Condition)> forced)
    {
        _worlds = worlds;
        _conditions = new int[worlds.Length][];
        int keys = 0;
        for (int w = 0; w < worlds.Length; w++)
        {
            _conditions[w] = new int[index.Conditions.Length];
            foreach (ConditionIndex condition in index.Conditions)
            {
                if (!condition.OfInstrument)
                {
                    _conditions[w][condition.Index] = forced.Contains((w, condition.Index)) || Idle(w, condition) ? 0 : Like(w, condition) ?? ++keys;
                }
            }
        }
    }

    public int Condition(int world, int condition) => _conditions[world][condition];

    /// <summary>Key of the copy behind a group of arrows; 0 where it adds nothing.</summary>
    public int Cause(int world, EffectGroup group) => group.IsPart ? Part(_worlds[world][group.Part]) : _conditions[world][group.Condition];

    private bool Idle(int world, ConditionIndex condition)
    {
        bool idle = condition.Background.Idle;
        for (int g = 0; idle && g < condition.Groups.Length; g++)
        {
            idle = Cause(world, condition.Groups[g]) == 0;
        }

        return idle;
    }

    /// <summary>Key of the same condition in an earlier world with the same causes.</summary>
    private int? Like(int world, ConditionIndex condition)
    {
        for (int w = 0; w < world; w++)
        {
            int g = 0;
            while (g < condition.Groups.Length && Cause(w, condition.Groups[g]) == Cause(world, condition.Groups[g]))
            {
                g++;
            }

            if (g == condition.Groups.Length && _conditions[w][condition.Index] > 0)
            {
                return _conditions[w][condition.Index];
            }
        }

        return null;
    }

    private int Part(PartCopy? copy) => copy is null ? 0 : _parts.TryGetValue(copy, out int key) ? key : _parts[copy] = _parts.Count + 1;
}
