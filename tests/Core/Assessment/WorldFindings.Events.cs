using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

internal sealed partial class WorldFindings
{
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
        List<double[]> pulls = Pulls(name, cells, looks);

        // 3. walk through all thresholds
        var joint = new double[2, 2];
        Walk(pulls, 0, new bool[looks.Count], 1, (loud, p) =>
        {
            double seen = reports.Aggregate(p, (product, r) => product == 0 ? 0 : product * r(loud));
            joint[loud[t] ? 0 : 1, loud[t + 1] ? 0 : 1] += seen;
        });
        return (joint, inTrial.Any(c => c), inSide.Any(c => c));
    }

    private List<double[]> Pulls(string name, EventCell[] cells, List<(WorldOracle.Part[] Parts, int[] Levels, bool[] Cells, bool Acts)> looks)
    {
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

        return pulls;
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

    /// <summary>Hidden arrows of a part whose trial helped: they make up what its path lacks of 0.7 (the path itself is a figure of the model).</summary>
    private IEnumerable<(int Part, int Mode, double P)> Hidden(string name)
    {
        foreach ((Observation f, _) in small.Trials.Where(t => t.Finding.Outcome is "ended" or "better" && OpenAt(name, t.Finding).Any(c => c)))
        {
            ModelIndex index = small.Index;
            EventIndex source = index.Event(name)!;
            bool[] open = OpenAt(name, f);
            ulong cells = Enumerable.Range(0, open.Length).Where(c => open[c]).Aggregate(0UL, (bits, c) => bits | 1UL << c);
            int part = index.Part(f.Trial!.Component!);
            for (int m = 0; m < index.Parts[part].Source.Modes.Count; m++)
            {
                double path = index.Path(part, m, source, cells);
                if (path < 0.7)
                {
                    yield return (part, m, 1 - (0.3 / (1 - path)));
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
}
