namespace FuelHistory.Core.Assessment;

/// <summary>Where a repair is asked about: the whole situation, or one in which only what belongs to one item stands by itself.</summary>
internal sealed record Place(Situation Situation, double LogWeight, bool Whole);

/// <summary>The situation seen from one item (MODEL.md 7, "too large"): the other present events, trials and, where that is not enough, the other
/// findings too count by factors on the parts, found so that every part keeps its probabilities.</summary>
internal static class Focus
{
    /// <summary>Rounds of fitting the parts' factors.</summary>
    private const int Rounds = 4;

    /// <summary>The narrowest that is needed; null where even the item alone has a network that is too large, or is impossible by itself.</summary>
    public static Place? Of(Situation whole, Item item, Func<Situation, bool> fits)
    {
        int now = whole.Worlds.Stretches.Length - 1;
        int[] worlds = [.. new[] { item.World, now }.Where(w => w >= 0).Distinct()];
        if (whole.StatesIn(worlds, new Omitted()) is not double[][][] wanted)
        {
            return null;
        }

        foreach (Func<Evidence, bool> apart in Narrower)
        {
            Evidence[] kept = [.. whole.Evidence.Where(e => !apart(e) || e.Findings.Any(item.Findings.Contains))];
            Situation narrow = whole.With(evidence: kept, items: [item]);
            if (fits(narrow))
            {
                return Fitted(narrow, kept, worlds, wanted);
            }
        }

        return null;
    }

    /// <summary>What is taken out of the network, less and less being left: signed sums first, they make it large.</summary>
    private static readonly Func<Evidence, bool>[] Narrower = [
        e => e is EventEvidence { Open: not 0 } or Hypothetical,
        e => e is EventEvidence or Hypothetical or OutcomeEvidence { Outcome: > 0 },
        _ => true];

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

        return new Place(narrow, narrow.LogWeight(), false);
    }
}
