namespace FuelHistory.Core.Assessment;

/// <summary>Distributions of the outcomes of checks not yet made, given the findings and, where asked, what a repair relieves. One propagation
/// answers every check whose conditions are in its network; the others need a larger network, which is built only where the event
/// changes what is believed of some part that the check hangs on.</summary>
/// <param name="wanted">Numbers of the checks that are asked about.</param>
internal sealed class OutcomeBook(Situation situation, Foreseen[] checks, IReadOnlySet<int> wanted)
{
    /// <summary>A part whose P(bad) an event moves by less leaves a check on it alone as it was.</summary>
    private const double Moved = 0.01;

    private readonly Dictionary<string, Page> _pages = [];
    private readonly bool[]?[] _parts = new bool[]?[checks.Length];
    private readonly int[] _leaks = [.. wanted.Select(k => checks[k]).Where(c => c.Check.Section is not null).SelectMany(c => c.Conditions(situation.Index)).Distinct().Order()];
    private readonly int[] _wanted = [.. wanted.Order()];

    private sealed record Page(double[] Bad, Dictionary<int, double[]?> Known);

    /// <summary>Distribution over the cells of a check (<see cref="Foreseen"/>); null where the network for it would be too large.</summary>
    public double[]? Of(int check, Suspect? suspect) =>
        PageOf(suspect).Known.TryGetValue(check, out double[]? known) ? known : PageOf(null).Known[check];

    /// <summary>Everything about one event is asked for at once, from one network after the other: they are the largest there are.</summary>
    private Page PageOf(Suspect? suspect)
    {
        Relief? relief = suspect?.Relief;
        Situation where = suspect?.Situation ?? situation;
        string key = relief is null ? "plain" : relief.Repair.Key;
        if (_pages.TryGetValue(key, out Page? page))
        {
            return page;
        }

        // 1. what the findings' own network covers
        Page? today = relief is null ? null : PageOf(null);
        List<int> open, leaks;
        using (Foresight first = where.Foresee(relief, [], []))
        {
            page = _pages[key] = new Page([.. situation.Index.Parts.Select(p => p.Source.Instrument ? 0 : first.Bad(p.Index))], []);
            open = [.. today is null ? _wanted : _wanted.Where(k => Moves(today, page, k))];
            leaks = open.FindAll(k => checks[k].Check.Section is not null);
            open.RemoveAll(leaks.Contains);
            Answer(page, first, open);
        }

        // 2. the rest, today all from one network if it is not too large; else each as it needs, with what it happens to cover
        if (today is null && open.Count > 0)
        {
            Larger(where, page, null, [.. open.SelectMany(k => checks[k].Conditions(situation.Index)).Distinct()], open);
        }

        while (open.Count > 0)
        {
            int k = open[0];
            if (!Larger(where, page, relief, checks[k].Conditions(situation.Index), open))
            {
                page.Known[k] = null;
                open.Remove(k);
            }
        }

        LeakDowns(where, page, relief, leaks);
        return page;
    }

    /// <summary>Answers the open checks that a network covers, and takes them off the list.</summary>
    private void Answer(Page page, Foresight network, List<int> open)
    {
        foreach (int k in open.FindAll(k => network.Covers(checks[k])))
        {
            page.Known[k] = network.Outcomes(checks[k]);
            open.Remove(k);
        }
    }

    /// <returns>False where the network would be too large.</returns>
    private bool Larger(Situation where, Page page, Relief? relief, int[] also, List<int> open)
    {
        try
        {
            using Foresight larger = where.Foresee(relief, also, []);
            Answer(page, larger, open);
            return true;
        }
        catch (TooLargeException)
        {
            return false;
        }
    }

    /// <summary>Leak-downs have a network of their own with all leaks in one clique; it answers all of them.</summary>
    private void LeakDowns(Situation where, Page page, Relief? relief, List<int> asked)
    {
        try
        {
            using Foresight? leaks = asked.Count == 0 ? null : where.Foresee(relief, _leaks, _leaks);
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
