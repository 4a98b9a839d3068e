namespace FuelHistory.Core.Assessment;

/// <summary>How the beliefs came about: P(bad) of the part that was on the car, after each finding and repair in order of time (MODEL.md 8).
/// The network is that of all findings; the later ones say nothing in it, so that its shape, and the compiled tree, stay.</summary>
internal static class Sequence
{
    /// <summary>A part that is never suspected by more than this has no sequence.</summary>
    private const double Suspected = 0.02;

    /// <summary>Per part: the steps that moved it.</summary>
    public static SequenceStep[][] Of(Situation situation, Investigation investigation)
    {
        double[] prior = [.. situation.Worlds.Priors.Select(p => 1 - p[0])];
        var steps = new List<(string Kind, string Id, double[] Bad)>();
        foreach ((string kind, string id, double[]? bad) in Walk(situation, investigation))
        {
            if (bad is null)
            {
                break;                                       // impossible from here on: a contradiction has an answer of its own
            }

            steps.Add((kind, id, bad));
        }

        return [.. prior.Select((p, part) => OfPart(part, p, steps))];
    }

    private static SequenceStep[] OfPart(int part, double prior, List<(string Kind, string Id, double[] Bad)> steps)
    {
        if (prior < Suspected && steps.TrueForAll(s => s.Bad[part] < Suspected))
        {
            return [];
        }

        var moved = new List<SequenceStep>();
        double before = prior;
        foreach ((string kind, string id, double[] bad) in steps)
        {
            double factor = Odds(bad[part]) / Odds(before);
            if (factor > WhyFactors.Silent || factor < 1 / WhyFactors.Silent)
            {
                moved.Add(new SequenceStep(kind, id, bad[part]));
                before = bad[part];
            }
        }

        return [.. moved];
    }

    private static double Odds(double bad) => bad / Math.Max(1e-12, 1 - bad);

    private static IEnumerable<(string Kind, string Id, double[]? Bad)> Walk(Situation situation, Investigation investigation)
    {
        int folded = investigation.Stretches - situation.Worlds.Stretches.Length;
        HashSet<string> counted = [.. situation.Evidence.SelectMany(e => e.Findings)];
        string[] order = [.. investigation.Findings.Select(f => f.Id).Where(counted.Contains)];
        int[] stretch = [.. investigation.Findings.Select((f, i) => (f.Id, Stretch: investigation.StretchOf(i))).Where(f => counted.Contains(f.Id)).Select(f => f.Stretch - folded)];
        return Each.Of(Enumerable.Range(0, order.Length), k =>
        {
            int here = stretch[k], next = k + 1 < order.Length ? stretch[k + 1] : situation.Worlds.Stretches.Length - 1;
            double[][][]? states = situation.StatesIn([.. Enumerable.Range(here, next - here + 1)], new Omitted(order.Skip(k + 1)));
            return Enumerable.Range(here, next - here + 1).Select(s => (
                s == here ? "finding" : "work",
                s == here ? order[k] : investigation.Repairs[s - 1 + folded][0].Id,
                states?[s - here].Select(x => 1 - x[0]).ToArray())).ToArray();
        }).SelectMany(s => s);
    }
}
