namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    /// <summary>An outcome that no mode and no level of a condition brings about with this is without a cause.</summary>
    private const double Reached = 0.1;

    private static IEnumerable<LintNote> CheckRules(ModelMap map) => map.Model.Checks.SelectMany(CheckRules);

    private static IEnumerable<LintNote> CheckRules(Check c)
    {
        string path = $"checks[{c.Id}]";
        int kinds = (c.Measures is null ? 0 : 1) + (c.Watches is null ? 0 : 1) + (c.Detects is null ? 0 : 1) + (c.Outcomes is null ? 0 : 1);
        if (kinds != 1)
        {
            yield return new LintNote("check-kind", path, $"It has {kinds} of measures, watches, detects and outcomes. Give exactly one.");
        }

        if (c.Detects is not null && (string.IsNullOrWhiteSpace(c.Yes) || string.IsNullOrWhiteSpace(c.No)))
        {
            yield return new LintNote("check-kind", path, "A yes/no check needs the words for yes and no.");
        }

        if ((c.Measures ?? (object?)c.Watches) is not null && string.IsNullOrWhiteSpace(c.Quantity))
        {
            yield return new LintNote("check-kind", path, "A measured check needs its quantity.");
        }

        foreach (LintNote note in Work(path, c.Hazard, c.Cautions, c.Steps))
        {
            yield return note;
        }
    }

    private static IEnumerable<LintNote> OutcomeRules(ModelMap map) => map.Model.Checks.Where(c => c.Outcomes is not null).SelectMany(c => OutcomeRules(map, c));

    private static IEnumerable<LintNote> OutcomeRules(ModelMap map, Check c)
    {
        string path = $"checks[{c.Id}]";
        List<string> ids = [.. c.Outcomes!.Select(o => o.Id)];
        if (ids.Count < 2 || (c.Table is null) == (c.ByLevel is null) || (c.ByLevel is not null && c.Otherwise is not null))
        {
            yield return new LintNote("check-kind", path, "Named outcomes want two or more of them, and either a table (with otherwise) or byLevel.");
        }

        IEnumerable<(string Path, IReadOnlyDictionary<string, double> Row)> rows = map.Into(ArrowTarget.Check, c.Id).SelectMany(a => a.Rows());
        rows = c.Otherwise is null ? rows : rows.Append(($"{path}.otherwise", c.Otherwise));
        foreach ((string row, IReadOnlyDictionary<string, double> values) in rows)
        {
            foreach (string id in values.Keys.Where(k => !ids.Contains(k)))
            {
                yield return new LintNote("unknown-outcome", $"{row}.{id}", $"'{id}' is none of the outcomes {string.Join(", ", ids)}.");
            }

            if (ids.Count > 0 && values.ContainsKey(ids[0]))
            {
                yield return new LintNote("first-outcome", $"{row}.{ids[0]}", $"'{ids[0]}' is the first outcome and takes what the others leave. Drop it from the row.");
            }
        }
    }

    /// <summary>The first outcome needs no cause, nor does one that a sound car shows as often.</summary>
    private static IEnumerable<LintNote> UnreachedOutcomes(ModelMap map) =>
        from c in map.Model.Checks
        where c.Outcomes is not null
        let rows = map.Into(ArrowTarget.Check, c.Id).SelectMany(a => a.Rows()).Select(r => r.Row).Append(c.Otherwise ?? new Dictionary<string, double>()).ToList()
        from o in c.Outcomes!.Skip(1)
        let most = rows.Max(r => r.GetValueOrDefault(o.Id))
        where most < Reached
        select new LintNote("outcome-unreached", $"checks[{c.Id}].outcomes[{o.Id}]",
            $"Nothing makes '{o.Id}' likelier than {most:0.###}, so that whoever finds it learns nothing. Give it to the mode that it shows, or say in reviewed.json why there is none.");

    private static IEnumerable<LintNote> SeesPartWarnings(ModelMap map) =>
        map.Model.Checks.Where(c => c.SeesPart)
            .Where(c => c.Measures is not null || c.Watches is not null || map.Into(ArrowTarget.Check, c.Id).Any(a => map.Conditions.ContainsKey(a.Of)))
            .Select(c => new LintNote("sees-condition", $"checks[{c.Id}].seesPart", "It sees the part but finds a condition. Name the modes that are seen."));
}
