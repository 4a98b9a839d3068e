namespace FuelHistory.Core.Assessment;

/// <summary>Distributions of the outcomes of checks not yet made, given the findings and, where asked, a repair set's event. One propagation
/// answers every check whose conditions are in its network; the others need a larger network, which is built only where the event
/// changes what is believed of some part that the check hangs on.</summary>
internal sealed class OutcomeBook(Situation situation, Foreseen[] checks) : IDisposable
{
    /// <summary>A part whose P(bad) an event moves by less leaves a check on it alone as it was.</summary>
    private const double Moved = 0.01;

    private readonly Dictionary<string, Page> _pages = [];
    private readonly bool[]?[] _parts = new bool[]?[checks.Length];
    private readonly int[] _leaks = [.. checks.Where(c => c.Check.Section is not null).SelectMany(c => c.Conditions(situation.Index)).Distinct().Order()];

    private sealed record Page(Repair? Repair, double[] Bad, List<Foresight> Networks, Dictionary<int, double[]> Known);

    /// <summary>Distribution over the cells of a check (<see cref="Foreseen"/>); null where the network for it would be too large.</summary>
    public double[]? Of(int check, Repair? repair)
    {
        Page plain = PageOf(null), page = repair is null ? plain : PageOf(repair);
        if (!page.Known.TryGetValue(check, out double[]? known))
        {
            known = repair is not null && !Moves(plain, page, check) ? Of(check, null)
                : checks[check].Check.Section is not null ? LeakDown(page, check)
                : Network(page, check)?.Outcomes(checks[check]);
            page.Known[check] = known ??= [];
        }

        return known.Length == 0 ? null : known;
    }

    public void Dispose()
    {
        foreach (Foresight network in _pages.Values.SelectMany(p => p.Networks))
        {
            network.Dispose();
        }
    }

    private Page PageOf(Repair? repair)
    {
        string key = repair is null ? "plain" : repair.Key;
        if (!_pages.TryGetValue(key, out Page? page))
        {
            Foresight first = situation.Foresee(repair, [], []);
            _pages[key] = page = new Page(repair, [.. situation.Index.Parts.Select(p => p.Source.Instrument ? 0 : first.Bad(p.Index))], [first], []);
        }

        return page;
    }

    /// <summary>Leak-downs have a network of their own with all leaks in one clique; it answers all of them and is let go again.</summary>
    private double[]? LeakDown(Page page, int check)
    {
        try
        {
            using Foresight leaks = situation.Foresee(page.Repair, _leaks, _leaks);
            for (int k = 0; k < checks.Length; k++)
            {
                if (checks[k].Check.Section is not null)
                {
                    page.Known[k] = leaks.Outcomes(checks[k]);
                }
            }

            return page.Known[check];
        }
        catch (TooLargeException)
        {
            return null;
        }
    }

    private Foresight? Network(Page page, int check)
    {
        if (page.Networks.Find(n => n.Covers(checks[check])) is Foresight known)
        {
            return known;
        }

        // without an event all checks are asked: one network for all of them, if it is not too large
        int[] own = checks[check].Conditions(situation.Index);
        if (page is { Repair: null, Networks.Count: 1 } && Larger(page, [.. checks.Where(c => c.Check.Section is null).SelectMany(c => c.Conditions(situation.Index)).Distinct()]) is Foresight all)
        {
            return all;
        }

        return Larger(page, own);
    }

    private Foresight? Larger(Page page, int[] also)
    {
        try
        {
            Foresight larger = situation.Foresee(page.Repair, also, []);
            page.Networks.Add(larger);
            return larger;
        }
        catch (TooLargeException)
        {
            return null;
        }
    }

    private bool Moves(Page plain, Page page, int check)
    {
        bool[] parts = _parts[check] ??= Ancestors.Of(situation.Index, checks[check]);
        return Enumerable.Range(0, parts.Length).Any(p => parts[p] && Math.Abs(plain.Bad[p] - page.Bad[p]) > Moved);
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
