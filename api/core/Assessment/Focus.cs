using System.Globalization;

namespace FuelHistory.Core.Assessment;

/// <summary>Where a repair is asked about one item: a situation in which only what belongs to that stands by itself.</summary>
internal sealed record Place(Situation Situation, double LogWeight);

/// <summary>The situation seen from one item (MODEL.md 8): the other present events, then trials, then the other findings count by factors on the
/// parts, found so that every part keeps its probabilities.</summary>
internal static class Focus
{
    /// <summary>Rounds of fitting the parts' factors.</summary>
    private const int Rounds = 4;

    /// <summary>Largest difference in what a part explains, over the complaints of the benchmark that can be asked both ways: said in the answer.</summary>
    public const double LargestSeen = 0.13;

    /// <summary>Said in the answer.</summary>
    public static string Note { get; } = string.Create(
        CultureInfo.InvariantCulture,
        $"What a repair would end was asked item by item, the other events counting by what they say of each part, to keep the "
        + $"computation small; explains may be off by {LargestSeen:0.00} at most, as far as was seen.");

    /// <summary>The narrowest that is needed; null where even the item alone has a network that is too large, or is impossible by itself.</summary>
    /// <param name="states">Of the whole, by stretch and part.</param>
    public static Place? Of(Situation whole, Item item, double[][][] states, Func<Situation, bool> fits)
    {
        int now = whole.Worlds.Stretches.Length - 1;
        int[] worlds = [.. new[] { item.World, now }.Where(w => w >= 0).Distinct()];
        double[][][] wanted = [.. worlds.Select(w => states[w])];
        for (int level = 0; level < Narrower.Length; level++)
        {
            Func<Evidence, bool> apart = Narrower[level];
            Evidence[] kept = [
                .. whole.Evidence.OfType<Hypothetical>().Where(apart.Invoke).Select(h => h.ArrowsAlone()),
                .. whole.Evidence.Where(e => !apart(e) && !e.Findings.Any(item.Findings.Contains)),
                .. Own(whole, item, level < WithAllReports)];
            Situation narrow = whole.With(evidence: kept, items: [item]);
            if (level == Narrower.Length - 1 || fits(narrow))
            {
                return Fitted(narrow, kept, worlds, wanted);
            }
        }

        return null;
    }

    /// <summary>What is taken out of the network, less and less being left: signed sums first, they make it large.</summary>
    private static readonly Func<Evidence, bool>[] Narrower = [
        e => e is EventEvidence { Open: not 0 },
        e => e is EventEvidence { Open: not 0 } or Hypothetical,
        e => e is EventEvidence or Hypothetical or OutcomeEvidence { Outcome: > 0 },
        e => e is not SupposedEvidence];

    private const int WithAllReports = 2;

    /// <summary>The findings of the item itself; of an event only the reports of the stretch that the item is wrong in, where all is too much.</summary>
    private static IEnumerable<Evidence> Own(Situation whole, Item item, bool all) =>
        whole.Evidence.Where(e => e.Findings.Any(item.Findings.Contains)).Select(e => all || e is not EventEvidence told
            ? e
            : told.In(item.World));

    private static Place? Fitted(Situation narrow, Evidence[] kept, int[] worlds, double[][][] wanted)
    {
        var factors = new Dictionary<PartCopy, OwnEvidence>(ReferenceEqualityComparer.Instance);
        for (int round = 0; round < Rounds; round++)
        {
            if (narrow.StatesIn(worlds, new Omitted()) is not double[][][] given)
            {
                return null;
            }

            for (int w = 0; w < worlds.Length; w++)
            {
                foreach (PartIndex part in narrow.Index.Parts.Where(p => !p.Source.Instrument && (w == 0 || narrow.Worlds.Stretches[worlds[w]][p.Index] != narrow.Worlds.Stretches[worlds[0]][p.Index])))
                {
                    PartCopy copy = narrow.Worlds.Stretches[worlds[w]][part.Index];
                    factors[copy] = Supposing.Factor("", worlds[w], part.Index, wanted[w][part.Index], given[w][part.Index], factors.GetValueOrDefault(copy));
                }
            }

            narrow = narrow.With(evidence: [.. kept, .. factors.Values.Where(f => f.Likelihood.Any(l => Math.Abs(l - 1) > 1e-9))]);
        }

        return new Place(narrow, narrow.LogWeight());
    }
}
