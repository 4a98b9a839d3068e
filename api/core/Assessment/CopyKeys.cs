namespace FuelHistory.Core.Assessment;

/// <summary>Says which conditions are one and the same variable in several worlds: those whose causes are the same copies.
/// Key 0: at level 0 for certain.</summary>
internal sealed class CopyKeys
{
    private readonly Dictionary<PartCopy, int> _parts = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<string, int> _interned = [];
    private readonly int[][] _conditions;
    private readonly PartCopy?[][] _worlds;

    public CopyKeys(ModelIndex index, PartCopy?[][] worlds)
    {
        _worlds = worlds;
        _conditions = [.. worlds.Select(_ => new int[index.Conditions.Length])];
        for (int w = 0; w < worlds.Length; w++)
        {
            foreach (ConditionIndex condition in index.Conditions.Where(c => !c.OfInstrument))
            {
                string causes = string.Concat(condition.Groups.Select((g, i) => Cause(w, g) is int key and > 0 ? $"|{i}:{key}" : ""));
                _conditions[w][condition.Index] = causes.Length == 0 && condition.Background.Idle ? 0 : Intern($"{condition.Index}{causes}");
            }
        }
    }

    public int Condition(int world, int condition) => _conditions[world][condition];

    /// <summary>Key of the copy behind a group of arrows; 0 where it adds nothing.</summary>
    public int Cause(int world, EffectGroup group) => group.IsPart ? Part(_worlds[world][group.Part]) : _conditions[world][group.Condition];

    public int Intern(string text) => _interned.TryGetValue(text, out int key) ? key : _interned[text] = _interned.Count + 1;

    private int Part(PartCopy? copy) => copy is null ? 0 : _parts.TryGetValue(copy, out int key) ? key : _parts[copy] = _parts.Count + 1;
}
