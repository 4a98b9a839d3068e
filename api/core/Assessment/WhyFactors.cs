using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>For every finding and record entry: by which factor it changed the odds of each part, everything else being kept
/// (leave-one-out: order-free, and not additive).</summary>
internal static class WhyFactors
{
    /// <summary>A factor nearer to 1 than this is not worth a line.</summary>
    public const double Silent = 1.05;

    /// <summary>Per part: the factors that matter, strongest first.</summary>
    public static WhyFactor[][] Of(Situation situation, Ranking ranking, Investigation investigation, LifePrior life, LeaveOneOut left)
    {
        var why = situation.Index.Parts.Select(_ => new List<WhyFactor>()).ToArray();
        foreach (string finding in situation.Evidence.SelectMany(e => e.Findings))
        {
            if (left.States(finding) is double[][] without)
            {
                Note(why, ranking.States, without, "finding", finding);
            }
        }

        foreach ((string kind, string id, double[][]? states) in Each.Of(WithoutEntries(situation, investigation, life), e => (e.Item1, e.Item2, situation.With(e.Item3).States())))
        {
            if (states is not null)
            {
                Note(why, ranking.States, states, kind, id);
            }
        }

        return [.. why.Select(w => w.OrderByDescending(f => Math.Abs(Math.Log(f.Factor))).ToArray())];
    }

    private static IEnumerable<(string, string, Worlds)> WithoutEntries(Situation situation, Investigation investigation, LifePrior life)
    {
        if (situation.Worlds.Stretches.Length < investigation.Stretches)
        {
            yield break;                                     // stretches were folded: the priors are no longer the record's alone
        }

        var entries = investigation.History.Select(w => ("work", w.Id))
            .Concat(investigation.Past().Incidents.Select(i => ("incident", i.Id)))
            .Concat(investigation.Past().Findings.Select(f => ("finding", f.Id)))
            .Concat(investigation.Past().Carried.Select(c => ("complaint", c.ComplaintId)).Distinct());
        foreach ((string kind, string id) in entries)
        {
            double[][] priors = [.. situation.Index.Parts.Select(p => situation.Worlds.Priors[p.Index])];
            double most = 0;
            foreach (PartIndex part in situation.Index.Parts.Where(p => life.Bears(p.Source, id)))
            {
                priors[part.Index] = life.Of(part.Source, id);
                most += Reach(situation.Worlds.Priors[part.Index], priors[part.Index]);
            }

            // of hundreds of entries most say nothing any more: no odds can move further than the priors' own
            if (most > Math.Log(Silent) - 1e-6)
            {
                yield return (kind, id, Worlds.From(situation.Index, investigation, life, p => priors[p.Index]));
            }
        }

        if (life.RanWell is not null)
        {
            yield return (life.OnlyDrove ? "drove" : "ran-well", RecordEntry.RanWell, Worlds.From(situation.Index, investigation, life,
                p => p.Source.Instrument ? situation.Worlds.Priors[p.Index] : life.Of(p.Source, RecordEntry.RanWell)));
        }
    }

    /// <summary>How far, as a logarithm, any odds can move where this prior stands for that one: the sum over the states of posterior times
    /// ratio lies between the least and the largest ratio, given anything.</summary>
    private static double Reach(double[] prior, double[] other)
    {
        double least = double.PositiveInfinity, largest = double.NegativeInfinity;
        for (int s = 0; s < prior.Length; s++)
        {
            if (prior[s] > 0 || other[s] > 0)
            {
                double ratio = Math.Log(other[s] / prior[s]);
                (least, largest) = (Math.Min(least, ratio), Math.Max(largest, ratio));
            }
        }

        return largest - least;
    }

    private static void Note(List<WhyFactor>[] why, double[][] all, double[][] without, string kind, string id)
    {
        for (int part = 0; part < why.Length; part++)
        {
            double factor = Odds(all[part][0]) / Odds(without[part][0]);
            if (double.IsFinite(factor) && factor > 0 && (factor > Silent || factor < 1 / Silent))
            {
                why[part].Add(new WhyFactor(kind, id, factor));
            }
        }
    }

    private static double Odds(double ok) => (1 - ok) / ok;
}
