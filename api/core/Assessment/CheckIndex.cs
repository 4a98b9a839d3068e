using FuelHistory.Core.FaultModels;
using FuelHistory.Core.LeakDown;

namespace FuelHistory.Core.Assessment;

/// <summary>A check with names turned into numbers; what is there depends on its kind.</summary>
internal sealed record CheckIndex(Check Source, OutcomeGate? Gate, string[] OutcomeIds, string[] OutcomeTitles, int Condition, LeakSection? Section, double[] Biases)
{
    public static CheckIndex From(ModelIndex index, Check check)
    {
        double[] biases = [0, .. (index.Parts.FirstOrDefault(p => p.Source.Instrument)?.Source.Modes ?? []).Select(m => m.Bias ?? 0)];
        return check.Kind switch
        {
            CheckKind.YesNo => new(check, YesNo(index, check), ["no", "yes"], [check.No ?? "no", check.Yes ?? "yes"], -1, null, biases),
            CheckKind.Outcomes => new(check, Named(index, check), [.. check.Outcomes!.Select(o => o.Id)], [.. check.Outcomes!.Select(o => o.Title)], -1, null, biases),
            CheckKind.Measurement => Measured(index, check, biases),
            _ => new(check, null, LeakOutcomes.Names, ["holds", "falls slowly", "falls fast", "drops at once, then stays"], -1, SectionOf(index, check, biases), biases),
        };
    }

    public int Outcome(string id) => Array.IndexOf(OutcomeIds, id);

    /// <summary>Which word about the limits; "above" where nothing limits it upwards, and the like, is within. -1: none of the words.</summary>
    public int LimitWord(string? id)
    {
        int word = id is null ? -1 : Array.IndexOf(LimitWordEvidence.Names, id), zero = Array.IndexOf(OutcomeIds, "0");
        bool limited = word switch { 0 => zero > 0, 2 => zero < OutcomeIds.Length - 1, _ => true };
        return limited ? word : 1;
    }

    /// <summary>For a covariate not known: the middle one of the limit's points.</summary>
    public Dictionary<string, double> MiddleCovariate() => Source.Covariate is Covariate c && Source.Limits!.Points.Count > 0
        ? new() { [c.Id] = Source.Limits.Points[Source.Limits.Points.Count / 2].At ?? 0 }
        : [];

    private static CheckIndex Measured(ModelIndex index, Check check, double[] biases)
    {
        ConditionIndex condition = index.Conditions[index.Condition(check.Measures!)];
        int[] levels = [.. Enumerable.Range(condition.Min, condition.Levels)];
        string[] titles = [.. levels.Select(l => l switch { 0 => "within limits", -1 => "low", < -1 => "far too low", 1 => "high", _ => "far too high" })];
        return new(check, null, [.. levels.Select(l => l.ToString(System.Globalization.CultureInfo.InvariantCulture))], titles, condition.Index, null, biases);
    }

    private static OutcomeGate YesNo(ModelIndex index, Check check) => new(
        2,
        [1 - check.FalseAlarm, 1],
        [.. index.Gate(check.Detects!).Select(g => (g.Part, g.Condition, g.P.Select(p => new[] { 1 - p, 1.0 }).ToArray()))]);

    private static OutcomeGate Named(ModelIndex index, Check check)
    {
        string[] ids = [.. check.Outcomes!.Select(o => o.Id)];
        if (check.ByLevel is OutcomeByLevel byLevel)
        {
            int condition = index.Condition(byLevel.Of);
            double[][] rows = Blank(index.Conditions[condition].Levels, ids.Length);
            index.FillLevels(condition, byLevel.At, (level, row) => rows[level] = Cumulative(ids, row));
            return new OutcomeGate(ids.Length, [.. ids.Select(_ => 1.0)], [(-1, condition, rows)]);
        }

        var groups = check.Table!.Select(row => (Row: row, Ref: index.Resolve(row.Of))).GroupBy(r => (r.Ref.Part, r.Ref.Condition)).Select(group =>
        {
            int states = group.Key.Part >= 0 ? index.Parts[group.Key.Part].Source.Modes.Count : index.Conditions[group.Key.Condition].Levels;
            double[][] rows = Blank(states, ids.Length);
            foreach ((OutcomeRow row, CauseRef reference) in group)
            {
                if (reference.IsPart)
                {
                    rows[reference.Mode] = Cumulative(ids, row.P!);
                }
                else
                {
                    index.FillLevels(reference.Condition, row.At, (level, p) => rows[level] = Cumulative(ids, p));
                }
            }

            return (group.Key.Part, group.Key.Condition, rows);
        });
        return new OutcomeGate(ids.Length, Cumulative(ids, check.Otherwise ?? new Dictionary<string, double>()), [.. groups]);
    }

    private static double[][] Blank(int states, int outcomes) => [.. Enumerable.Range(0, states).Select(_ => Enumerable.Repeat(1.0, outcomes).ToArray())];

    /// <summary>P(at most k) in the outcomes' order; what a row does not state goes to the first outcome.</summary>
    private static double[] Cumulative(string[] ids, IReadOnlyDictionary<string, double> row)
    {
        double[] p = [.. ids.Select(id => row.GetValueOrDefault(id))];
        p[0] += 1 - p.Sum();
        double sum = 0;
        double[] cumulative = [.. p.Select(x => sum += x)];
        cumulative[^1] = 1;
        return cumulative;
    }

    private static LeakSection SectionOf(ModelIndex index, Check check, double[] biases)
    {
        int[] watches = [.. check.Watches!.Select(index.Condition)];
        return new LeakSection(
            [.. watches.Where(c => !index.Conditions[c].OfInstrument)],
            watches.Where(c => index.Conditions[c].OfInstrument).DefaultIfEmpty(-1).First(),
            check.Store is null ? -1 : index.Condition(check.Store),
            biases);
    }
}
