namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    private static IEnumerable<LintNote> LimitRules(ModelMap map) =>
        map.Model.Checks.Where(c => c.Measures is not null && map.Conditions.ContainsKey(c.Measures)).SelectMany(c => LimitRules(c, map.Conditions[c.Measures!]));

    private static List<LintNote> LimitRules(Check check, Condition condition)
    {
        string path = $"checks[{check.Id}]";
        if (check.Limits is not { } limits || Sides(limits) is not { } sides)
        {
            return [new LintNote("missing-limits", $"{path}.limits", "A measuring check needs limits: low, high or both, or points with 'at' that all have the same sides.")];
        }

        List<LintNote> notes = [];
        if (sides.Low != condition.Min < 0 || sides.High != condition.Max > 0)
        {
            notes.Add(new LintNote("limits-mismatch", $"{path}.limits", $"Limits {Words(sides)}, but {condition.Id} goes {condition.Min}..{condition.Max}. A side without a limit has no level, and the other way round."));
        }

        if (limits.Points.Count > 0 != check.Covariate is not null)
        {
            notes.Add(new LintNote("limits-mismatch", $"{path}.covariate", "Points with 'at' and a covariate belong together. Give both or neither."));
        }

        notes.AddRange(LimitOrder(limits, $"{path}.limits"));
        notes.AddRange(UsualRules(check, limits, sides, $"{path}.limits"));
        if ((check.Bands is null) == (check.Edges is null))
        {
            notes.Add(new LintNote("bands-mismatch", path, "Give either bands or edges."));
        }

        notes.AddRange(check.Bands is { } bands ? BandRules(bands, limits, condition, $"{path}.bands") : []);
        notes.AddRange(check.Edges is { } edges ? EdgeRules(edges, limits, condition, $"{path}.edges") : []);
        return notes;
    }

    /// <summary>Which sides the limits have; null where there are none or the points differ.</summary>
    private static (bool Low, bool High)? Sides(Limits limits)
    {
        List<(bool Low, bool High)> sides = [.. limits.Points.Select(p => (p.Low is not null, p.High is not null)).Distinct()];
        bool stated = limits.Low is not null || limits.High is not null;
        if (stated == sides.Count > 0 || sides.Count > 1 || limits.Points.Any(p => p.At is null))
        {
            return null;
        }

        (bool Low, bool High) only = stated ? (limits.Low is not null, limits.High is not null) : sides[0];
        return only.Low || only.High ? only : null;
    }

    private static string Words((bool Low, bool High) sides) => sides switch { (true, true) => "are two-sided", (true, false) => "have a low side only", _ => "have a high side only" };

    private static IEnumerable<LintNote> LimitOrder(Limits limits, string path)
    {
        IEnumerable<(string Path, double? Low, double? High)> pairs = [(path, limits.Low, limits.High), .. limits.Points.Select(p => ($"{path}.points[{p.At}]", p.Low, p.High))];
        foreach ((string at, double? low, double? high) in pairs.Where(p => p.Low >= p.High))
        {
            yield return new LintNote("limits-order", at, $"Low {low} is not below high {high}.");
        }

        if (!Ascending([.. limits.Points.Select(p => p.At ?? double.NaN)]))
        {
            yield return new LintNote("limits-order", $"{path}.points", "Points must rise by 'at', each once.");
        }
    }

    private static IEnumerable<LintNote> UsualRules(Check check, Limits limits, (bool Low, bool High) sides, string path)
    {
        IEnumerable<(string Path, double? Usual, double? Low, double? High)> all = limits.Points.Count == 0
            ? [(path, limits.Usual, limits.Low, limits.High)]
            : limits.Points.Select(p => ($"{path}.points[{p.At}]", p.Usual, p.Low, p.High));
        double top = check.Edges is { Count: > 0 } edges ? edges[^1] : check.Bands?.Top ?? double.MaxValue;
        foreach ((string at, double? usual, double? low, double? high) in all)
        {
            double from = low ?? 0, to = high ?? top;
            if (usual is not null && (sides is (true, true) || usual <= from || usual >= to || limits.UsualSource is null))
            {
                yield return new LintNote("limits-order", $"{at}.usual", $"Usual {usual} belongs to limits of one side, inside them ({from}..{to}), with its usualSource.");
            }
        }
    }

    /// <summary>Without it all readings inside the limit count as equally likely, up to the top of the bands.</summary>
    private static IEnumerable<LintNote> UsualMissing(ModelMap map) => map.Model.Checks
        .Where(c => c.Measures is not null && c.Limits is { } limits && Sides(limits) is { } s && s.Low != s.High && limits.Usual is null && limits.Points.All(p => p.Usual is null))
        .Select(c => new LintNote("usual-missing", $"checks[{c.Id}].limits", "A limit with one side only needs 'usual', what a sound car reads as a rule: without it a good reading near the limit speaks for a fault."));

    private static IEnumerable<LintNote> BandRules(Bands bands, Limits limits, Condition condition, string path)
    {
        double low = limits.Points.Select(p => p.Low).Append(limits.Low).Min() ?? double.NaN;
        double high = limits.Points.Select(p => p.High).Append(limits.High).Max() ?? limits.Points.Select(p => p.Low).Append(limits.Low).Max() ?? double.NaN;
        if (condition.Min < -2 || condition.Max > 2 || (bands.FarBelow is not null) != condition.Min <= -2 || (bands.FarAbove is not null) != condition.Max >= 2)
        {
            yield return new LintNote("bands-mismatch", path, $"farBelow stands for level -2 and farAbove for +2; {condition.Id} goes {condition.Min}..{condition.Max}. Give the ones that have a level.");
        }

        if (bands.FarBelow is <= 0 or >= 1 || bands.FarAbove <= 1)
        {
            yield return new LintNote("bands-mismatch", path, $"farBelow {bands.FarBelow} must be between 0 and 1, farAbove {bands.FarAbove} above 1.");
        }

        if (condition.Min < 0 && !(low > 0))
        {
            yield return new LintNote("bands-mismatch", path, $"Low {low} leaves no room below it. Use edges.");
        }

        if (!(bands.Top > high * (bands.FarAbove ?? 1)))
        {
            yield return new LintNote("bands-mismatch", $"{path}.top", $"Top {bands.Top} must lie above every limit times farAbove ({high * (bands.FarAbove ?? 1):0.###}).");
        }
    }

    private static IEnumerable<LintNote> EdgeRules(IReadOnlyList<double> edges, Limits limits, Condition condition, string path)
    {
        int levels = condition.Max - condition.Min + 1;
        if (edges.Count != levels + 1 || !Ascending(edges))
        {
            yield return new LintNote("bands-mismatch", path, $"{levels} levels need {levels + 1} rising edges, found {edges.Count}.");
            yield break;
        }

        double low = edges[-condition.Min], high = edges[1 - condition.Min];
        if ((limits.Low ?? low) != low || (limits.High ?? high) != high)
        {
            yield return new LintNote("bands-mismatch", path, $"Level 0 goes {low}..{high} by the edges, {limits.Low}..{limits.High} by the limits. Make them agree.");
        }
    }

    /// <summary>NaN is never ascending.</summary>
    private static bool Ascending(IReadOnlyList<double> values) => values.Zip(values.Skip(1)).All(p => p.First < p.Second) && !values.Any(double.IsNaN);
}
