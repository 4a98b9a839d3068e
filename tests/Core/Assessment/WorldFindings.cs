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
internal sealed partial class WorldFindings(SmallCase small)
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
                    bool silent = trial is not null && !unsure && !acting[small.SessionOf(trial.Value.Finding)];
                    total += product * TrialResult(trial?.Finding, trialRight, world, silent) * (sideRight.Count > 0 && sideRight.All(r => r) ? Factor(side!.Value.Finding.Own!) : 1);
                }
            }
        }

        return total;
    }

    /// <summary>MODEL.md 4, trials, by its table: with all events right, with the main (first) one right, with that one wrong.</summary>
    private double TrialResult(Observation? trial, List<bool> right, World world, bool silent)
    {
        if (trial is null || right.Count == 0)
        {
            return 1;
        }

        int row = right.All(r => r) ? 0 : right[0] ? 1 : 2;
        double[] ended = [0.65, 0.01, 0.01], better = [0.32, 0.80, 0.16], same = [0.03, 0.19, 0.83];
        double seen = trial.Outcome switch { "ended" => ended[row], "better" => better[row], "same" => same[row], _ => 1 };
        bool stayed = trial.Trial!.CameBack == false && trial.Trial.Kind != TrialKind.Touched;
        if (trial.Trial.CameBack is bool back)
        {
            double comes = row == 0 ? 0.97 : 0.03;
            seen *= stayed ? 0.97 : back ? comes : 1 - comes;
        }

        int part = WorldOracle.PartOf(trial.Trial.Component!);
        bool harm = trial.Trial.Kind == TrialKind.Another && world.Stretches[small.Trials[0].Stretch][part].Mode < 0 && world.Trial![part].Mode >= 0;
        double worse = harm ? 0.3 : 0.05;
        seen = trial.Sure ? seen : (seen / 2) + 0.125;
        seen = silent ? 1 : seen;
        return trial.Trial.Kind != TrialKind.Another || stayed ? seen : trial.Outcome == "worse" ? seen * worse : seen * (1 - worse);
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
}
