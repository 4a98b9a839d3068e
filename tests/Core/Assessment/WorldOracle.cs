using System.Globalization;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>The oracle for assessments: walks through every possible world of a small model (states of the parts in every stretch, every
/// hidden threshold of every arrow into a condition, every background, every stand-in of a trial, whether the fault was acting) and weighs it by the findings,
/// straight from the definitions. Shares nothing with the network builder but the input.</summary>
internal sealed partial class WorldOracle
{
    private readonly SmallCase _case;
    private readonly FaultModel _model;
    private readonly WorldFindings _findings;
    private readonly (Condition Condition, Effect Effect)[] _arrows;

    /// <summary>P(findings); per part P(findings, bad now).</summary>
    public double Weight { get; private set; }

    public double[] Bad { get; }

    /// <summary>What the complaint consists of, by the oracle's own reading of the findings.</summary>
    public IReadOnlyList<OracleItem> Items { get; }

    /// <summary>Per repair (a part, all parts, nothing) and item (the last: all items together): P(findings, relieved).</summary>
    public double[,] Relieved { get; }

    public WorldOracle(SmallCase small)
    {
        (_case, _model) = (small, small.Model);
        _findings = new WorldFindings(small);
        _arrows = [.. _model.Conditions.SelectMany(c => c.Effects.Select(e => (c, e)))];
        Bad = new double[_model.Components.Count];
        Items = [.. EventItems(), .. CheckItems()];
        Relieved = new double[_model.Components.Count + 2, Items.Count + 1];
        Part[][] none = [];
        Walk(1, none);
    }

    private IEnumerable<OracleItem> EventItems() => SmallCase.Events.Select(e => (Name: e, Now: _findings.Open(e, _case.Findings.Count)))
        .Where(e => e.Now.Open.Any(c => c)).Select(e => new OracleItem(ItemKind.Event, e.Name, e.Now.Stretch, e.Now.Open));

    /// <summary>The last finding of a check, or of a part, if it is a bad one.</summary>
    private IEnumerable<OracleItem> CheckItems() => _case.CheckFindings().GroupBy(f => f.Finding.Check ?? f.Finding.Component!).Select(g => g.Last())
        .Where(f => f.Finding.Outcome is not ("no" or "even" or "good"))
        .Select(f => new OracleItem(f.Finding.Check is null ? ItemKind.Part : ItemKind.Check, f.Finding.Check ?? f.Finding.Component!, f.Stretch, []));

    /// <summary>A part in one stretch: its mode (-1: ok) and the piece of metal it is (which draws its own thresholds).</summary>
    internal readonly record struct Part(int Mode, int Metal);

    private void Walk(double p, Part[][] stretches)
    {
        if (stretches.Length > _case.Repairs.Count)
        {
            WalkThresholds(p, stretches, Thresholds(stretches), []);
            return;
        }

        WalkParts(p, stretches, []);
    }

    private void WalkParts(double p, Part[][] before, Part[] now)
    {
        if (now.Length == _model.Components.Count)
        {
            Walk(p, [.. before, now]);
            return;
        }

        Component component = _model.Components[now.Length];
        foreach ((double q, Part part) in Options(component, now.Length, before))
        {
            if (q > 0)
            {
                WalkParts(p * q, before, [.. now, part]);
            }
        }
    }

    private IEnumerable<(double, Part)> Options(Component component, int index, Part[][] before)
    {
        if (before.Length == 0)
        {
            return _case.Priors[component.Id].Select((p, i) => (p, new Part(i - 1, 0)));
        }

        Part was = before[^1][index];
        switch (_case.Repairs[before.Length - 1].GetValueOrDefault(component.Id))
        {
            case "fit":
                return _case.Fresh(component).Select((p, i) => (p, new Part(i - 1, before.Length)));
            case "tell":
                double told = _model.Told.Told;
                return [.. _case.Fresh(component).Select((p, i) => (told * p, new Part(i - 1, before.Length))), (1 - told, was.Mode < 0 ? was with { Metal = before.Length } : was)];
            case "clean" when was.Mode < 0:
                return component.Modes.Select((_, m) => (0.02 / component.Modes.Count, new Part(m, was.Metal))).Append((0.98, was));
            case "clean":
                bool again = Enumerable.Range(was.Metal, before.Length - 1 - was.Metal).Any(k => _case.Repairs[k].GetValueOrDefault(component.Id) == "clean");
                double cured = again ? 0 : component.Modes[was.Mode].CuredBy["clean"];
                return [(cured, new Part(-1, Latest(component.Id, before.Length))), (1 - cured, was)];
            default:
                return [(1.0, was)];
        }
    }

    /// <summary>The piece fitted last, or perhaps fitted: an ok part counts as that one.</summary>
    private int Latest(string component, int stretch) =>
        Enumerable.Range(0, stretch - 1).Where(k => _case.Repairs[k].GetValueOrDefault(component) is "fit" or "tell").Select(k => k + 1).LastOrDefault();

    /// <summary>One threshold per arrow into a condition and per piece of metal: the spans of u between the points where some step changes.</summary>
    private List<(int Arrow, int Metal, (double Length, double Middle)[] Cells)> Thresholds(Part[][] stretches)
    {
        var list = new List<(int, int, (double, double)[])>();
        for (int a = 0; a < _arrows.Length; a++)
        {
            Effect effect = _arrows[a].Effect;
            bool standIn = effect.Adds is not null && _case.Trials.Any(t => t.Finding.Trial!.Kind == TrialKind.Another && PartOf(t.Finding.Trial.Component!) == PartOf(effect.Of));
            int[] metals = effect.Adds is null ? [0] : [.. stretches.Select(s => s[PartOf(effect.Of)].Metal).Concat(standIn ? [StandIn] : []).Distinct()];
            foreach (int metal in metals)
            {
                list.Add((a, metal, Cells(effect)));
            }
        }

        return list;
    }

    private void WalkThresholds(double p, Part[][] stretches, List<(int Arrow, int Metal, (double Length, double Middle)[] Cells)> open, Dictionary<(int, int), double> u)
    {
        if (u.Count < open.Count)
        {
            (int arrow, int metal, (double Length, double Middle)[] cells) = open[u.Count];
            foreach ((double length, double middle) in cells)
            {
                u[(arrow, metal)] = middle;
                WalkThresholds(p * length, stretches, open, u);
                u.Remove((arrow, metal));
            }

            return;
        }

        foreach ((int step, double q) in _model.Conditions[0].Background.Count == 0 ? [(0, 1.0)] : Ordered(_model.Conditions[0].Background))
        {
            foreach ((double r, Part[]? trial) in TrialWorlds(stretches))
            {
                Count(p * q * r, stretches, u, step, trial);
            }
        }
    }

    private void Count(double p, Part[][] stretches, Dictionary<(int, int), double> u, int background, Part[]? trial)
    {
        (Observation Finding, int Stretch)? side = _case.OwnFindings.Where(f => f.Finding.Own!.Side is not null).Select(f => ((Observation, int)?)f).FirstOrDefault();
        Part[]? sideParts = side is null ? null
            : [.. stretches[side.Value.Stretch].Select((x, i) => _model.Components[i].Side == side.Value.Finding.Own!.Side ? x with { Mode = -1 } : x)];
        var world = new World(stretches, [.. stretches.Select(s => Levels(s, u, background))])
        {
            Trial = trial,
            TrialLevels = trial is null ? null : Levels(trial, u, background),
            Side = sideParts,
            SideLevels = sideParts is null ? null : Levels(sideParts, u, background),
        };
        double seen = _findings.Likelihood(world, []);
        if (seen == 0)
        {
            return;
        }

        Weight += p * seen;
        Part[] now = stretches[^1];
        for (int i = 0; i < Bad.Length; i++)
        {
            Bad[i] += now[i].Mode < 0 ? 0 : p * seen;
        }

        for (int r = 0; r < Relieved.GetLength(0); r++)
        {
            Part[] next = [.. now.Select((x, i) => i == r || r == now.Length ? x with { Mode = -1 } : x)];
            World then = world with { Next = next, NextLevels = Levels(next, u, background) };
            for (int item = 0; item <= Items.Count; item++)
            {
                Relieved[r, item] += p * _findings.Likelihood(then, item == Items.Count ? Items : [Items[item]]);
            }
        }
    }

    private int[] Levels(Part[] parts, Dictionary<(int, int), double> u, int background)
    {
        var levels = new int[_model.Conditions.Count];
        for (int c = 0; c < levels.Length; c++)                          // small models list causes first
        {
            Condition condition = _model.Conditions[c];
            int up = c == 0 ? Math.Max(0, background) : 0, down = c == 0 ? Math.Max(0, -background) : 0;
            for (int a = 0; a < _arrows.Length; a++)
            {
                if (ReferenceEquals(_arrows[a].Condition, condition))
                {
                    int step = Step(_arrows[a].Effect, a, parts, levels, u);
                    up += Math.Max(0, step);
                    down += Math.Max(0, -step);
                }
            }

            levels[c] = Math.Min(condition.Max, up) - Math.Min(-condition.Min, down);
        }

        return levels;
    }

    private int Step(Effect effect, int arrow, Part[] parts, int[] levels, Dictionary<(int, int), double> u)
    {
        if (effect.Adds is null)
        {
            int level = levels[_model.Conditions.ToList().FindIndex(c => c.Id == effect.Of)];
            return level == 0 ? 0 : StepAt(effect.At!.GetValueOrDefault(level.ToString(CultureInfo.InvariantCulture)), u[(arrow, 0)]);
        }

        Part part = parts[PartOf(effect.Of)];
        return part.Mode == effect.Of[^1] - '0' ? StepAt(effect.Adds, u[(arrow, part.Metal)]) : 0;
    }

    /// <summary>Small models name parts p0, p1, ... and modes m0, m1.</summary>
    internal static int PartOf(string of) => of[1] - '0';

    private static (double Length, double Middle)[] Cells(Effect effect)
    {
        IEnumerable<IReadOnlyDictionary<string, double>> rows = effect.Adds is not null ? [effect.Adds] : effect.At!.Values;
        double[] cuts = [.. rows.SelectMany(Cumulative).Append(0).Append(1).Order()];
        return [.. cuts.Zip(cuts.Skip(1), (a, b) => (b - a, (a + b) / 2)).Where(c => c.Item1 > 1e-13)];
    }

    private static IEnumerable<double> Cumulative(IReadOnlyDictionary<string, double> row)
    {
        double sum = 0;
        foreach ((int _, double p) in Ordered(row))
        {
            yield return sum += p;
        }
    }

    private static IEnumerable<(int Step, double P)> Ordered(IReadOnlyDictionary<string, double> row)
    {
        var all = row.Select(r => (Step: int.Parse(r.Key, CultureInfo.InvariantCulture), P: r.Value)).ToList();
        all.Add((0, 1 - all.Sum(a => a.P)));
        return all.OrderBy(a => Math.Abs(a.Step)).ThenBy(a => a.Step);
    }

    internal static int StepAt(IReadOnlyDictionary<string, double>? row, double u)
    {
        double sum = 0;
        foreach ((int step, double p) in row is null ? [] : Ordered(row))
        {
            if (u < (sum += p))
            {
                return step;
            }
        }

        return 0;
    }
}
