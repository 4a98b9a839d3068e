using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Likelihood of all findings in one world of the oracle; remembered by the states and levels it depends on.</summary>
internal sealed class WorldFindings(SmallCase small)
{
    private readonly Dictionary<string, double> _known = [];

    /// <param name="next">A stretch to come in which the present symptoms are to be gone; null: none.</param>
    public double Likelihood(WorldOracle.Part[][] stretches, int[][] levels, WorldOracle.Part[]? next, int[]? nextLevels)
    {
        WorldOracle.Part[][] all = next is null ? stretches : [.. stretches, next];
        int[][] allLevels = nextLevels is null ? levels : [.. levels, nextLevels];
        string key = string.Join('/', all.Select((s, i) => $"{string.Join(',', s.Select(p => $"{p.Mode}:{p.Metal}"))} {string.Join(',', allLevels[i])}"));
        return _known.TryGetValue(key, out double known) ? known : _known[key] = Sum(all, allLevels, next is not null);
    }

    private double Sum(WorldOracle.Part[][] parts, int[][] levels, bool gone)
    {
        double total = 0;
        foreach ((double p, bool[] acting) in Sessions(0))
        {
            double product = p;
            foreach (Symptom symptom in small.Model.Symptoms)
            {
                product *= Answers(parts, levels, symptom, acting, gone);
            }

            foreach ((Observation f, int stretch) in small.CheckFindings())
            {
                product *= Check(parts[stretch], levels[stretch], f, acting[small.SessionOf(f)]);
            }

            total += product;
        }

        return total;
    }

    /// <summary>Likelihood of the checks alone, the fault acting.</summary>
    public double Checks(WorldOracle.Part[] parts, int[] levels) =>
        small.CheckFindings().Aggregate(1.0, (product, f) => product * Check(parts, levels, f.Finding, true));

    private IEnumerable<(double, bool[])> Sessions(int session)
    {
        if (session == small.Sessions.Count)
        {
            yield return (1, []);
            yield break;
        }

        double acts = small.ActingProbability(session);
        foreach ((double p, bool[] rest) in Sessions(session + 1))
        {
            yield return (p * acts, [true, .. rest]);
            if (acts < 1)
            {
                yield return (p * (1 - acts), [false, .. rest]);
            }
        }
    }

    /// <summary>Every threshold of every arrow into the symptom, and of its background, is drawn once for all stretches.</summary>
    private double Answers(WorldOracle.Part[][] parts, int[][] levels, Symptom symptom, bool[] acting, bool gone)
    {
        var asked = small.SymptomFindings(symptom.Id).Select(f => (f.Stretch, Present: f.Finding.Outcome == "present", f.Finding.Sure, Acts: acting[small.SessionOf(f.Finding)])).ToList();
        if (asked.Count == 0)
        {
            return 1;
        }

        bool mustGo = gone && asked[^1].Present;
        int stretches = parts.Length;

        // 1. per threshold (an arrow and, for a part, its piece of metal): the probability with which it pulls at each answer, and then
        var pulls = new List<double[]> { Enumerable.Repeat(symptom.Background, asked.Count).Append(mustGo ? symptom.Background : 0).ToArray() };
        foreach (Cause cause in symptom.Causes)
        {
            int[] metals = cause.P is null ? [0] : [.. parts.Select(s => s[WorldOracle.PartOf(cause.Of)].Metal).Distinct()];
            foreach (int metal in metals)
            {
                double At(int stretch) => cause.P is null || parts[stretch][WorldOracle.PartOf(cause.Of)].Metal == metal ? P(cause, parts[stretch], levels[stretch]) : 0;
                pulls.Add([.. asked.Select(a => a.Acts ? At(a.Stretch) : 0), mustGo ? At(stretches - 1) : 0]);
            }
        }

        // 2. walk through all thresholds
        return Walk(0, new bool[asked.Count + 1]);

        double Walk(int t, bool[] loud)
        {
            if (t == pulls.Count)
            {
                double p = mustGo && loud[^1] ? 0 : 1;
                for (int i = 0; i < asked.Count; i++)
                {
                    double yes = loud[i] == asked[i].Present ? 1 : 0;
                    p *= asked[i].Sure ? yes : (yes / 2) + 0.25;
                }

                return p;
            }

            double[] cuts = [.. pulls[t].Append(0).Append(1).Distinct().Order()];
            double sum = 0;
            for (int c = 0; c + 1 < cuts.Length; c++)
            {
                double u = (cuts[c] + cuts[c + 1]) / 2;
                sum += (cuts[c + 1] - cuts[c]) * Walk(t + 1, [.. loud.Select((x, i) => x || u < pulls[t][i])]);
            }

            return sum;
        }
    }

    internal double P(Cause cause, WorldOracle.Part[] parts, int[] levels) => cause.P is double p
        ? parts[WorldOracle.PartOf(cause.Of)].Mode == cause.Of[^1] - '0' ? p : 0
        : cause.At!.GetValueOrDefault($"{levels[ConditionOf(cause.Of)]}");

    private int ConditionOf(string id) => small.Model.Conditions.ToList().FindIndex(c => c.Id == id);

    private double Check(WorldOracle.Part[] parts, int[] levels, Observation finding, bool acting)
    {
        if (finding.Component is not null)
        {
            return Seen(finding, parts[WorldOracle.PartOf(finding.Component)].Mode);
        }

        Check check = small.Model.Checks.Single(c => c.Id == finding.Check);
        bool counts = acting || check.SeesPart;
        double[] outcomes = check.Kind == CheckKind.YesNo ? YesNo(check, parts, levels, counts) : Worst(check, parts, levels, counts);
        string[] ids = check.Kind == CheckKind.YesNo ? ["no", "yes"] : [.. check.Outcomes!.Select(o => o.Id)];
        double likelihood = outcomes[Array.IndexOf(ids, finding.Outcome)];
        return finding.Sure ? likelihood : (likelihood / 2) + (0.5 / ids.Length);
    }

    /// <summary>Of a part opened and looked at, or tested; of one component m0 is what eyes see.</summary>
    private static double Seen(Observation finding, int mode)
    {
        bool sound = mode < 0, seen = finding.How == Look.Seen;
        if (finding.Outcome == "good")
        {
            double clear = sound ? 1 : seen ? (mode == 0 ? 0.05 : 1) : 0.25;
            return finding.Sure ? clear : (1 + clear) / 2;
        }

        (double there, double elsewhere) = (seen, finding.Sure) switch
        {
            (true, true) => (0.98, 0.002),
            (false, false) => (0.6, 0.15),
            _ => (0.9, 0.05),
        };
        bool named = finding.Mode is null || mode == finding.Mode[^1] - '0';
        return sound ? elsewhere : named ? there : 0.2;
    }

    private double[] YesNo(Check check, WorldOracle.Part[] parts, int[] levels, bool counts)
    {
        double no = check.Detects!.Aggregate(1 - check.FalseAlarm, (silent, cause) => silent * (1 - (counts ? P(cause, parts, levels) : 0)));
        return [no, 1 - no];
    }

    /// <summary>Noisy-MAX by its story: every cause draws an outcome, so does "otherwise", and the worst of them shows.</summary>
    private double[] Worst(Check check, WorldOracle.Part[] parts, int[] levels, bool counts)
    {
        string[] ids = [.. check.Outcomes!.Select(o => o.Id)];
        double[] worst = Row(ids, check.Otherwise!);
        foreach (OutcomeRow row in check.Table!.Where(_ => counts))
        {
            IReadOnlyDictionary<string, double>? own = row.P is not null
                ? parts[WorldOracle.PartOf(row.Of)].Mode == row.Of[^1] - '0' ? row.P : null
                : row.At!.GetValueOrDefault($"{levels[ConditionOf(row.Of)]}");
            if (own is not null)
            {
                double[] drawn = Row(ids, own);
                var next = new double[ids.Length];
                for (int i = 0; i < ids.Length; i++)
                {
                    for (int j = 0; j < ids.Length; j++)
                    {
                        next[Math.Max(i, j)] += worst[i] * drawn[j];
                    }
                }

                worst = next;
            }
        }

        return worst;
    }

    private static double[] Row(string[] ids, IReadOnlyDictionary<string, double> stated)
    {
        double[] row = [.. ids.Select(id => stated.GetValueOrDefault(id))];
        row[0] += 1 - row.Sum();
        return row;
    }
}
