using System.Globalization;

namespace FuelHistory.Core.Assessment;

/// <summary>What to do with an investigation whose network is beyond the bound: fold the oldest stretch into the beliefs, or, with one
/// stretch left, leave out the present event that tells least. Both are said in the answer, which is then not exact.</summary>
internal static class Folding
{
    /// <summary>Largest difference in any part's P(bad), over the complaints of the benchmark that can be asked both ways: said in the answer.</summary>
    private const double LargestSeen = 0.24;

    public static string Note { get; } = string.Create(
        CultureInfo.InvariantCulture,
        $"Findings before the last repairs, or the least telling ones, count by what they say of each part or not at all, to keep the "
        + $"computation small: P(bad) may be off by {LargestSeen:0.00} at most, as far as was seen.");

    /// <summary>Asks of the situation as it is, or made smaller step by step until it fits the bound; null where it never does.</summary>
    /// <param name="ask">Given the situation and the findings that were folded or left out.</param>
    public static T? Within<T>(Situation situation, Func<Situation, IReadOnlyList<string>, T> ask)
        where T : class
    {
        var dropped = new List<string>();
        while (true)
        {
            try
            {
                return ask(situation, dropped);
            }
            catch (TooLargeException)
            {
                if (Step(situation) is not (Situation smaller, IReadOnlyList<string> also))
                {
                    return null;
                }

                situation = smaller;
                dropped.AddRange(also);
            }
        }
    }

    /// <summary>The situation made smaller by one step, with what was folded or left out; null where nothing more can be done.</summary>
    public static (Situation Smaller, IReadOnlyList<string> Dropped)? Step(Situation situation) =>
        situation.Worlds.Stretches.Length > 1 ? FoldFirst(situation) : LeaveOutWeakest(situation);

    /// <summary>Beliefs after the first stretch (product of marginals) stand for its findings; hidden thresholds are drawn anew after it.</summary>
    private static (Situation, IReadOnlyList<string>)? FoldFirst(Situation situation)
    {
        Evidence[] own = [.. situation.Evidence.Select(Only).OfType<Evidence>()];
        Situation first = situation.With(situation.Worlds.First(), own);
        (Situation Smaller, IReadOnlyList<string> Dropped)? reduced = null;
        double[][]? states = null;
        while (states is null)
        {
            try
            {
                states = first.CopyStates();
                if (states is null)
                {
                    return null;                     // impossible already: the whole is, too
                }
            }
            catch (TooLargeException)
            {
                reduced = LeaveOutWeakest(first);
                if (reduced is null)
                {
                    return null;
                }

                first = reduced.Value.Smaller;
            }
        }

        Evidence[] later = [.. situation.Evidence.Select(e => e.AfterFirst()).OfType<Evidence>()];
        return (situation.With(situation.Worlds.WithoutFirst(states), later, [.. situation.Items.Select(i => i.AfterFirst())]), [.. own.SelectMany(e => e.Findings)]);
    }

    /// <summary>The part of an evidence that belongs to the first stretch.</summary>
    private static Evidence? Only(Evidence evidence) => evidence switch
    {
        EventEvidence e when e.Reports.Any(r => r.World == 0) => new EventEvidence(e.Source, [.. e.Reports.Where(r => r.World == 0)]),
        MeasuredEvidence m when m.Values.Any(v => v.World == 0) => new MeasuredEvidence(m.Condition, m.Bands, m.Biases, [.. m.Values.Where(v => v.World == 0)]),
        OutcomeEvidence { World: 0 } or SeenEvidence { World: 0 } or LeakEvidence { World: 0 } or LeakOutcomeEvidence { World: 0 } => evidence,
        OnsetEvidence or OwnEvidence { World: 0 } or Hypothetical { World: 0 } or SupposedEvidence { World: 0 } => evidence,
        _ => null,
    };

    private static (Situation, IReadOnlyList<string>)? LeaveOutWeakest(Situation situation)
    {
        EventEvidence[] present = [.. situation.Evidence.OfType<EventEvidence>().Where(e => e.Open != 0)];
        if (present.Length < 2)
        {
            return null;
        }

        EventEvidence weakest = present.MinBy(e => Tells(situation, e))!;
        Item[] items = [.. situation.Items.Where(i => !(i is EventItem e && ReferenceEquals(e.Source, weakest.Source)))];
        double sum = items.Sum(i => i.Weight);
        return (situation.With(
            evidence: [.. situation.Evidence.Where(e => !ReferenceEquals(e, weakest))],
            items: [.. items.Select(i => i with { Weight = i.Weight / sum })]), weakest.Findings);
    }

    /// <summary>How far an event alone moves the beliefs: sum over the parts of |change of P(bad)|.</summary>
    private static double Tells(Situation situation, EventEvidence alone) =>
        situation.With(evidence: [alone]).States() is double[][] states
            ? states.Select((s, p) => Math.Abs(s[0] - situation.Worlds.Priors[p][0])).Sum()
            : double.PositiveInfinity;
}
