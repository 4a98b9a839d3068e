using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>One world of the oracle: the parts and levels of every stretch, of the trial's world, of the side's world, and of a stretch to come.</summary>
internal sealed record World(WorldOracle.Part[][] Stretches, int[][] Levels)
{
    public WorldOracle.Part[]? Trial { get; init; }

    public int[]? TrialLevels { get; init; }

    public WorldOracle.Part[]? Side { get; init; }

    public int[]? SideLevels { get; init; }

    public WorldOracle.Part[]? Next { get; init; }

    public int[]? NextLevels { get; init; }
}

/// <summary>An item by its own definition: an event with open cells, a check, or a part; wrong in its stretch, right in the stretch to come.</summary>
internal sealed record OracleItem(ItemKind Kind, string Name, int Stretch, bool[] Open);

/// <summary>Likelihood of all findings in one world of the oracle, straight from the definitions of MODEL.md.</summary>
internal sealed class WorldFindings(SmallCase small)
{
    private readonly Dictionary<string, double> _known = [];

    /// <summary>P(findings, and these items wrong then and right in the stretch to come | the world).</summary>
    public double Likelihood(World world, IReadOnlyList<OracleItem> items)
    {
        string key = Key(world, items);
        return _known.TryGetValue(key, out double known) ? known : _known[key] = Sum(world, items);
    }

    /// <summary>Everything that the likelihood depends on, a character each.</summary>
    private static string Key(World w, IReadOnlyList<OracleItem> items)
    {
        var key = new System.Text.StringBuilder(96);
        for (int s = 0; s < w.Stretches.Length; s++)
        {
            Add(w.Stretches[s], w.Levels[s]);
        }

        Add(w.Trial, w.TrialLevels);
        Add(w.Side, w.SideLevels);
        Add(items.Count == 0 ? null : w.Next, w.NextLevels);
        foreach (OracleItem item in items)
        {
            key.Append(item.Name);
        }

        return key.ToString();

        void Add(WorldOracle.Part[]? parts, int[]? levels)
        {
            foreach (WorldOracle.Part part in parts ?? [])
            {
                key.Append((char)('c' + part.Mode)).Append((char)('0' + part.Metal));
            }

            foreach (int level in parts is null ? [] : levels!)
            {
                key.Append((char)('M' + level));
            }

            key.Append('/');
        }
    }

    private double Sum(World world, IReadOnlyList<OracleItem> items)
    {
        double total = 0;
        foreach ((double p, bool[] acting) in Sessions(0))
        {
            double product = p * Own(world);
            foreach ((Observation f, int stretch) in small.CheckFindings())
            {
                OracleItem? item = items.SingleOrDefault(i => i.Kind == ItemKind.Check && i.Name == f.Check && i.Stretch == stretch);
                product *= Check(world.Stretches[stretch], world.Levels[stretch], f, acting[small.SessionOf(f)], item is null ? null : (world.Next!, world.NextLevels!));
            }

            foreach (OracleItem seen in items.Where(i => i.Kind == ItemKind.Part))
            {
                int part = WorldOracle.PartOf(seen.Name);
                product *= world.Stretches[seen.Stretch][part].Mode >= 0 && world.Next![part].Mode < 0 ? 1 : 0;
            }

            total += product == 0 ? 0 : product * Trial(world, items, acting);
        }

        return total;
    }

    private double Own(World world)
    {
        double product = 1;
        foreach ((Observation f, int stretch) in small.OwnFindings.Where(f => f.Finding.Own!.Component is not null))
        {
            product *= world.Stretches[stretch][WorldOracle.PartOf(f.Own!.Component!)].Mode >= 0 ? Factor(f.Own) : 1;
        }

        return product;
    }

    private static double Factor(OwnObservation own)
    {
        double factor = own.Strength switch { Strength.Slightly => 2, Strength.Clearly => 5, _ => 20 };
        return own.For ? factor : 1 / factor;
    }

    /// <summary>Sums over what the events do in the trial's world and in the side's: each event has its own draws.</summary>
    private double Trial(World world, IReadOnlyList<OracleItem> items, bool[] acting)
    {
        (Observation Finding, int Stretch)? trial = small.Trials.Count > 0 ? small.Trials[0] : null;
        (Observation Finding, int Stretch)? side = small.OwnFindings.Where(f => f.Finding.Own!.Side is not null).Select(f => ((Observation, int)?)f).FirstOrDefault();
        bool unsure = small.Intermittent && trial?.Finding.Outcome is "ended" or "better";
        double total = 0;
        foreach ((double p, bool acts) in unsure ? [(0.4, true), (0.6, false)] : new[] { (1.0, true) })
        {
            // per event: P(reports and items, right in the trial, right in the side's world)
            (double[,] Joint, bool InTrial, bool InSide)[] events = [.. SmallCase.Events.Select(e => OfEvent(world, e, items, acting, acts, trial, side))];
            for (int at = 0; at < 1 << (2 * events.Length); at++)
            {
                double product = p;
                var trialRight = new List<bool>();
                var sideRight = new List<bool>();
                for (int e = 0; e < events.Length; e++)
                {
                    int right = at >> (2 * e) & 1, other = at >> ((2 * e) + 1) & 1;
                    product *= events[e].Joint[right, other];
                    if (events[e].InTrial)
                    {
                        trialRight.Add(right == 1);
                    }

                    if (events[e].InSide)
                    {
                        sideRight.Add(other == 1);
                    }
                }

                if (product != 0)
                {
                    total += product * TrialResult(trial?.Finding, trialRight, world) * (sideRight.Count > 0 && sideRight.All(r => r) ? Factor(side!.Value.Finding.Own!) : 1);
                }
            }
        }

        return total;
    }

    /// <summary>MODEL.md 4, trials, by its table: with all events right, with the main (first) one right, with that one wrong.</summary>
    private double TrialResult(Observation? trial, List<bool> right, World world)
    {
        if (trial is null || right.Count == 0)
        {
            return 1;
        }

        int row = right.All(r => r) ? 0 : right[0] ? 1 : 2;
        double[] ended = [0.65, 0.03, 0.03], better = [0.32, 0.80, 0.16], same = [0.03, 0.17, 0.81];
        double seen = trial.Outcome switch { "ended" => ended[row], "better" => better[row], "same" => same[row], _ => 1 };
        if (trial.Trial!.CameBack is bool back)
        {
            double comes = row == 0 ? 0.97 : 0.03;
            seen *= back ? comes : 1 - comes;
        }

        int part = WorldOracle.PartOf(trial.Trial.Component!);
        bool harm = trial.Trial.Kind == TrialKind.Another && world.Stretches[small.Trials[0].Stretch][part].Mode < 0 && world.Trial![part].Mode >= 0;
        double worse = harm ? 0.3 : 0.05;
        seen = trial.Sure ? seen : (seen / 2) + 0.125;
        return trial.Trial.Kind != TrialKind.Another ? seen : trial.Outcome == "worse" ? seen * worse : seen * (1 - worse);
    }

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

    /// <summary>Which cells a finding means.</summary>
    private bool[] Meant(string name, Observation f) => [.. small.CellsOf(name).Select(c => f.When.Count == 0 || f.When.Contains(c.When))];

    /// <summary>Cells present after the findings up to one in the list, and the stretch of the last report that is part of them.</summary>
    public (bool[] Open, int Stretch) Open(string name, int before)
    {
        var told = new List<bool[]>();
        var since = new int[small.CellsOf(name).Length];
        for (int i = 0; i < before; i++)
        {
            (Observation f, int stretch) = small.Findings[i];
            if (f.Event == name)
            {
                TakeIn(told, since, Meant(name, f), f.Outcome!, stretch);
            }
        }

        bool[] open = [.. since.Select((_, c) => told.Exists(t => t[c]))];
        return (open, Enumerable.Range(0, open.Length).Where(c => open[c]).Select(c => since[c]).DefaultIfEmpty(-1).Max());
    }

    /// <summary>"One of these" beside "one of fewer of these" is the latter; "always" is each by itself; "only" ends all others.</summary>
    private static void TakeIn(List<bool[]> told, int[] since, bool[] meant, string outcome, int stretch)
    {
        int[] cells = [.. Enumerable.Range(0, meant.Length).Where(c => meant[c])];
        IEnumerable<bool[]> present = outcome switch
        {
            "absent" => [],
            "always" => cells.Select(c => meant.Select((_, i) => i == c).ToArray()),
            _ => [meant],
        };
        foreach (bool[] some in present)
        {
            if (!told.Exists(t => Within(t, some)))
            {
                told.RemoveAll(t => Within(some, t));
                told.Add([.. some]);
            }
        }

        foreach (int c in outcome == "absent" ? [] : cells)
        {
            since[c] = stretch;
        }

        for (int c = 0; c < meant.Length && outcome is ("absent" or "only"); c++)
        {
            if (meant[c] == (outcome == "absent"))
            {
                told.ForEach(t => t[c] = false);
            }
        }

        told.RemoveAll(t => !t.Contains(true));
    }

    private static bool Within(bool[] few, bool[] many) => !few.Where((x, c) => x && !many[c]).Any();

    /// <summary>Every threshold of every arrow into the event, and of its background, is drawn once for all stretches and cells.</summary>
    private (double[,], bool, bool) OfEvent(
        World world, string name, IReadOnlyList<OracleItem> items, bool[] acting, bool acts, (Observation Finding, int Stretch)? trial, (Observation Finding, int Stretch)? side)
    {
        EventCell[] cells = small.CellsOf(name);
        bool[] inTrial = trial is null ? new bool[cells.Length] : OpenAt(name, trial.Value.Finding), inSide = side is null ? new bool[cells.Length] : OpenAt(name, side.Value.Finding);
        OracleItem? item = items.SingleOrDefault(i => i.Kind == ItemKind.Event && i.Name == name);

        // 1. what is looked at: cells in a world, the fault acting or not
        var looks = new List<(WorldOracle.Part[] Parts, int[] Levels, bool[] Cells, bool Acts)>();
        var reports = new List<Func<bool[], double>>();
        foreach ((Observation f, int stretch) in small.EventFindings(name))
        {
            foreach ((bool[] meant, bool present) in Said(name, f))
            {
                int at = looks.Count;
                looks.Add((world.Stretches[stretch], world.Levels[stretch], meant, acting[small.SessionOf(f)]));
                reports.Add(loud => f.Sure ? (loud[at] == present ? 1 : 0) : loud[at] == present ? 0.75 : 0.25);
            }
        }

        if (item is not null)
        {
            int then = looks.Count;
            looks.Add((world.Stretches[item.Stretch], world.Levels[item.Stretch], item.Open, true));
            looks.Add((world.Next!, world.NextLevels!, item.Open, true));
            reports.Add(loud => loud[then] && !loud[then + 1] ? 1 : 0);
        }

        int t = looks.Count;
        looks.Add((world.Trial ?? world.Stretches[0], world.TrialLevels ?? world.Levels[0], inTrial, acts));
        looks.Add((world.Side ?? world.Stretches[0], world.SideLevels ?? world.Levels[0], inSide, true));

        // 2. per threshold the probability with which it pulls at each look
        List<double[]> pulls = [[.. looks.Select(l => cells.Where((_, c) => l.Cells[c]).Select(c => c.Background).DefaultIfEmpty(0).Max())]];
        foreach (string of in cells.SelectMany(c => c.Causes).Select(c => c.Of).Distinct())
        {
            bool mode = of.Contains('.');
            int[] metals = mode ? [.. looks.Select(l => l.Parts[WorldOracle.PartOf(of)].Metal).Distinct()] : [0];
            foreach (int metal in metals)
            {
                pulls.Add([.. looks.Select(l => !l.Acts || (mode && l.Parts[WorldOracle.PartOf(of)].Metal != metal) ? 0
                    : cells.Where((_, c) => l.Cells[c]).SelectMany(c => c.Causes.Where(x => x.Of == of)).Select(x => P(x, l.Parts, l.Levels)).DefaultIfEmpty(0).Max())]);
            }
        }

        foreach ((int part, int modeNumber, double p) in Hidden(name))
        {
            foreach (int metal in looks.Select(l => l.Parts[part].Metal).Distinct())
            {
                pulls.Add([.. looks.Select(l => l.Acts && l.Cells.Any(c => c) && l.Parts[part] == new WorldOracle.Part(modeNumber, metal) ? p : 0)]);
            }
        }

        // 3. walk through all thresholds
        var joint = new double[2, 2];
        Walk(pulls, 0, new bool[looks.Count], 1, (loud, p) =>
        {
            double seen = reports.Aggregate(p, (product, r) => product == 0 ? 0 : product * r(loud));
            joint[loud[t] ? 0 : 1, loud[t + 1] ? 0 : 1] += seen;
        });
        return (joint, inTrial.Any(c => c), inSide.Any(c => c));
    }

    public IEnumerable<(bool[] Cells, bool Present)> Said(string name, Observation f)
    {
        bool[] meant = Meant(name, f);
        if (f.Outcome == "always")
        {
            return Enumerable.Range(0, meant.Length).Where(c => meant[c]).Select(c => (meant.Select((_, i) => i == c).ToArray(), true));
        }

        List<(bool[], bool)> said = [(meant, f.Outcome != "absent")];
        if (f.Outcome == "only")
        {
            said.Add(([.. meant.Select(m => !m)], false));
        }

        return said;
    }

    /// <summary>Cells present when a trial or own observation was made.</summary>
    private bool[] OpenAt(string name, Observation f) => Open(name, small.Findings.ToList().FindIndex(x => x.Finding.Id == f.Id)).Open;

    /// <summary>Hidden arrows of the tried part: they make up what its path lacks of 0.3 (the path itself is a figure of the model).</summary>
    private IEnumerable<(int Part, int Mode, double P)> Hidden(string name)
    {
        foreach ((Observation f, _) in small.Trials.Where(t => OpenAt(name, t.Finding).Any(c => c)))
        {
            ModelIndex index = small.Index;
            EventIndex source = index.Event(name)!;
            bool[] open = OpenAt(name, f);
            ulong cells = Enumerable.Range(0, open.Length).Where(c => open[c]).Aggregate(0UL, (bits, c) => bits | 1UL << c);
            int part = index.Part(f.Trial!.Component!);
            for (int m = 0; m < index.Parts[part].Source.Modes.Count; m++)
            {
                double path = index.Path(part, m, source, cells);
                if (path < 0.3)
                {
                    yield return (part, m, 1 - (0.7 / (1 - path)));
                }
            }
        }
    }

    private static void Walk(List<double[]> pulls, int t, bool[] loud, double p, Action<bool[], double> end)
    {
        if (t == pulls.Count)
        {
            end(loud, p);
            return;
        }

        double[] cuts = [.. pulls[t].Append(0).Append(1).Distinct().Order()];
        for (int c = 0; c + 1 < cuts.Length; c++)
        {
            double u = (cuts[c] + cuts[c + 1]) / 2;
            Walk(pulls, t + 1, [.. loud.Select((x, i) => x || u < pulls[t][i])], p * (cuts[c + 1] - cuts[c]), end);
        }
    }

    internal double P(Cause cause, WorldOracle.Part[] parts, int[] levels) => cause.P is double p
        ? parts[WorldOracle.PartOf(cause.Of)].Mode == cause.Of[^1] - '0' ? p : 0
        : cause.At!.GetValueOrDefault($"{levels[ConditionOf(cause.Of)]}");

    private int ConditionOf(string id) => small.Model.Conditions.ToList().FindIndex(c => c.Id == id);

    /// <param name="right">A world in which it is to be right by the same draws, having been wrong in the first one; null: none.</param>
    public double Check(WorldOracle.Part[] parts, int[] levels, Observation finding, bool acting, (WorldOracle.Part[] Parts, int[] Levels)? right)
    {
        if (finding.Component is not null)
        {
            return Seen(finding, parts[WorldOracle.PartOf(finding.Component)].Mode);
        }

        Check check = small.Model.Checks.Single(c => c.Id == finding.Check);
        string[] ids = check.Kind == CheckKind.YesNo ? ["no", "yes"] : [.. check.Outcomes!.Select(o => o.Id)];
        double total = 0;
        foreach ((double p, int then, int next) in Draws(check, ids, parts, levels, acting || check.SeesPart, right))
        {
            double seen = ids[then] == finding.Outcome ? 1 : 0;
            seen = finding.Sure ? seen : (seen / 2) + (0.5 / ids.Length);
            total += right is null || (then > 0 && next == 0) ? p * seen : 0;
        }

        return total;
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

    /// <summary>The worst outcome that any cause draws shows: then, and in the other world by the same draws.</summary>
    private List<(double P, int Then, int Next)> Draws(
        Check check, string[] ids, WorldOracle.Part[] parts, int[] levels, bool counts, (WorldOracle.Part[] Parts, int[] Levels)? right)
    {
        double[] background = check.Kind == CheckKind.YesNo ? [1 - check.FalseAlarm, check.FalseAlarm] : Row(ids, check.Otherwise!);
        List<(double P, int Then, int Next)> draws = [.. background.Select((p, k) => (p, k, k))];
        foreach ((string of, Func<WorldOracle.Part[], int[], double[]?> row) in Causes(check, ids))
        {
            int part = of.Contains('.') ? WorldOracle.PartOf(of) : -1;
            double[]? then = counts ? row(parts, levels) : null, next = right is null ? null : row(right.Value.Parts, right.Value.Levels);
            bool one = part < 0 || right is null || parts[part].Metal == right.Value.Parts[part].Metal;
            draws = Combined(draws, Joint(then, next, ids.Length, one));
        }

        return draws;
    }

    private static List<(double P, int Then, int Next)> Combined(List<(double P, int Then, int Next)> a, List<(double P, int Then, int Next)> b) =>
        [.. a.SelectMany(_ => b, (x, y) => (P: x.P * y.P, Then: Math.Max(x.Then, y.Then), Next: Math.Max(x.Next, y.Next)))
            .GroupBy(d => (d.Then, d.Next)).Select(g => (g.Sum(d => d.P), g.Key.Then, g.Key.Next))];

    /// <summary>One cause's outcome in two worlds: by one and the same draw u, or by two.</summary>
    private static List<(double P, int Then, int Next)> Joint(double[]? then, double[]? next, int outcomes, bool oneDraw)
    {
        double[] nothing = [1, .. new double[outcomes - 1]];
        double[] a = then ?? nothing, b = next ?? nothing;
        if (!oneDraw)
        {
            return [.. a.SelectMany((_, _) => b, (_, _) => 0).Select((_, i) => (a[i / outcomes] * b[i % outcomes], i / outcomes, i % outcomes))];
        }

        double[] cuts = [.. Cumulative(a).Concat(Cumulative(b)).Append(0).Append(1).Order()];
        return [.. cuts.Zip(cuts.Skip(1), (lo, hi) => (hi - lo, At(a, (lo + hi) / 2), At(b, (lo + hi) / 2))).Where(c => c.Item1 > 0)];
    }

    private static double[] Cumulative(double[] row)
    {
        double sum = 0;
        return [.. row.Select(p => Math.Min(1, sum += p))];
    }

    private static int At(double[] row, double u)
    {
        int k = 0;
        for (double sum = row[0]; k < row.Length - 1 && u >= sum; sum += row[k])
        {
            k++;
        }

        return k;
    }

    private IEnumerable<(string Of, Func<WorldOracle.Part[], int[], double[]?> Row)> Causes(Check check, string[] ids)
    {
        if (check.Kind == CheckKind.YesNo)
        {
            return check.Detects!.Select(c => (c.Of, (Func<WorldOracle.Part[], int[], double[]?>)((parts, levels) =>
            {
                double p = P(c, parts, levels);
                return [1 - p, p];
            })));
        }

        return check.Table!.Select(r => (r.Of, (Func<WorldOracle.Part[], int[], double[]?>)((parts, levels) =>
        {
            IReadOnlyDictionary<string, double>? own = r.P is not null
                ? parts[WorldOracle.PartOf(r.Of)].Mode == r.Of[^1] - '0' ? r.P : null
                : r.At!.GetValueOrDefault($"{levels[ConditionOf(r.Of)]}");
            return own is null ? null : Row(ids, own);
        })));
    }

    private static double[] Row(string[] ids, IReadOnlyDictionary<string, double> stated)
    {
        double[] row = [.. ids.Select(id => stated.GetValueOrDefault(id))];
        row[0] += 1 - row.Sum();
        return row;
    }
}
