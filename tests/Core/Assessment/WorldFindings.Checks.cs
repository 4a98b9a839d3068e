using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

internal sealed partial class WorldFindings
{
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
