namespace FuelHistory.Core.Assessment;

/// <summary>Distributions of the outcomes of checks not yet made, given the findings and, where asked, a repair set's event. One propagation
/// answers every check whose conditions are in its network; the others need a larger network, which is built only where the event
/// changes what is believed of some part that the check hangs on.</summary>
internal sealed class OutcomeBook(Situation situation, Foreseen[] checks)
{
    /// <summary>A part whose P(bad) an event moves by less leaves a check on it alone as it was.</summary>
    private const double Moved = 0.01;

    private readonly Dictionary<string, Page> _pages = [];
    private readonly bool[]?[] _parts = new bool[]?[checks.Length];
    private readonly int[] _leaks = [.. checks.Where(c => c.Check.Section is not null).SelectMany(c => c.Conditions(situation.Index)).Distinct().Order()];
    private int[] _wanted = [.. Enumerable.Range(0, checks.Length)];

    private sealed record Page(double[] Bad, Dictionary<int, double[]?> Known);

    /// <summary>Pages not yet written are for these checks only.</summary>
    public void Narrow(int[] wanted) => _wanted = wanted;

    /// <summary>Distribution over the cells of a check (<see cref="Foreseen"/>); null where the network for it would be too large.</summary>
    public double[]? Of(int check, Repair? repair) =>
        PageOf(repair).Known.TryGetValue(check, out double[]? known) ? known : PageOf(null).Known[check];

    /// <summary>Everything about one event is asked for at once, so that its networks, the largest there are, can be let go.</summary>
    private Page PageOf(Repair? repair)
    {
        string key = repair is null ? "plain" : repair.Key;
        if (_pages.TryGetValue(key, out Page? page))
        {
            return page;
        }

        using var networks = new Networks(situation, repair);
        page = _pages[key] = new Page([.. situation.Index.Parts.Select(p => p.Source.Instrument ? 0 : networks.First.Bad(p.Index))], []);
        int[] asked = repair is null ? [.. Enumerable.Range(0, checks.Length)] : [.. _wanted.Where(k => Moves(PageOf(null), page, k))];
        int[] plain = [.. asked.Where(k => checks[k].Check.Section is null)];
        if (repair is null)
        {
            networks.TryAll([.. plain.SelectMany(k => checks[k].Conditions(situation.Index)).Distinct()]);
        }

        foreach (int k in plain)
        {
            page.Known[k] = networks.For(checks[k])?.Outcomes(checks[k]);
        }

        LeakDowns(page, repair, [.. asked.Except(plain)]);
        return page;
    }

    /// <summary>Leak-downs have a network of their own with all leaks in one clique; it answers all of them.</summary>
    private void LeakDowns(Page page, Repair? repair, int[] asked)
    {
        try
        {
            using Foresight? leaks = asked.Length == 0 ? null : situation.Foresee(repair, _leaks, _leaks);
            foreach (int k in asked)
            {
                page.Known[k] = leaks!.Outcomes(checks[k]);
            }
        }
        catch (TooLargeException)
        {
            foreach (int k in asked)
            {
                page.Known[k] = null;
            }
        }
    }

    private bool Moves(Page plain, Page page, int check)
    {
        bool[] parts = _parts[check] ??= Ancestors.Of(situation.Index, checks[check]);
        return Enumerable.Range(0, parts.Length).Any(p => parts[p] && Math.Abs(plain.Bad[p] - page.Bad[p]) > Moved);
    }
}

/// <summary>Networks with one event entered: the one that the findings need, and larger ones for checks that it does not cover.</summary>
internal sealed class Networks(Situation situation, Repair? repair) : IDisposable
{
    private readonly List<Foresight> _all = [situation.Foresee(repair, [], [])];

    public Foresight First => _all[0];

    /// <summary>One network for all these conditions, if it is not too large.</summary>
    public void TryAll(int[] conditions) => Larger(conditions);

    /// <summary>Null where it would be too large.</summary>
    public Foresight? For(Foreseen check) => _all.Find(n => n.Covers(check)) ?? Larger(check.Conditions(situation.Index));

    public void Dispose() => _all.ForEach(n => n.Dispose());

    private Foresight? Larger(int[] also)
    {
        try
        {
            Foresight larger = situation.Foresee(repair, also, []);
            _all.Add(larger);
            return larger;
        }
        catch (TooLargeException)
        {
            return null;
        }
    }
}

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

    public static bool[] Of(ModelIndex index, IEnumerable<SymptomIndex> symptoms)
    {
        var walk = new Walk(index);
        foreach (GateGroup group in symptoms.SelectMany(s => s.Groups))
        {
            walk.Mark(group.Part, group.Condition);
        }

        return walk.Parts;
    }

    private sealed class Walk(ModelIndex index)
    {
        private readonly bool[] _conditions = new bool[index.Conditions.Length];

        public bool[] Parts { get; } = new bool[index.Parts.Length];

        public void Mark(int part, int condition)
        {
            if (part >= 0)
            {
                Parts[part] = true;
            }
            else if (condition >= 0 && !_conditions[condition])
            {
                _conditions[condition] = true;
                foreach (EffectGroup group in index.Conditions[condition].Groups)
                {
                    Mark(group.Part, group.Condition);
                }
            }
        }
    }
}
