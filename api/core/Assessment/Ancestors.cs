namespace FuelHistory.Core.Assessment;

/// <summary>Which parts something hangs on, through conditions or at once.</summary>
internal static class Ancestors
{
    public static bool[] Of(ModelIndex index, Foreseen check)
    {
        var walk = new Walk(index);
        foreach (int condition in check.Conditions(index))
        {
            walk.Mark(-1, condition);
        }

        foreach ((int part, _, _) in check.Check.Gate?.Groups ?? [])
        {
            walk.Mark(part, -1);
        }

        return walk.Parts;
    }

    public static bool[] Of(ModelIndex index, EventIndex source, ulong cells) => Walked(index, source, cells).Parts;

    /// <summary>The conditions through which something can bring about the event.</summary>
    public static bool[] ConditionsOf(ModelIndex index, EventIndex source, ulong cells) => Walked(index, source, cells).Conditions;

    private static Walk Walked(ModelIndex index, EventIndex source, ulong cells)
    {
        var walk = new Walk(index);
        foreach (EventGroup group in source.Groups.Where(g => g.For(cells) is not null))
        {
            walk.Mark(group.Part, group.Condition);
        }

        return walk;
    }

    public static bool[] Of(ModelIndex index, OutcomeGate gate)
    {
        var walk = new Walk(index);
        foreach ((int part, int condition, _) in gate.Groups)
        {
            walk.Mark(part, condition);
        }

        return walk.Parts;
    }

    public static bool[] OfConditions(ModelIndex index, int[] conditions)
    {
        var walk = new Walk(index);
        foreach (int condition in conditions)
        {
            walk.Mark(-1, condition);
        }

        return walk.Parts;
    }

    private sealed class Walk(ModelIndex index)
    {
        public bool[] Conditions { get; } = new bool[index.Conditions.Length];

        public bool[] Parts { get; } = new bool[index.Parts.Length];

        public void Mark(int part, int condition)
        {
            if (part >= 0)
            {
                Parts[part] = true;
            }
            else if (condition >= 0 && !Conditions[condition])
            {
                Conditions[condition] = true;
                foreach (EffectGroup group in index.Conditions[condition].Groups)
                {
                    Mark(group.Part, group.Condition);
                }
            }
        }
    }
}
