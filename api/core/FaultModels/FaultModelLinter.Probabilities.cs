namespace FuelHistory.Core.FaultModels;

public static partial class FaultModelLinter
{
    /// <summary>Sums of decimal fractions may miss 1 by rounding.</summary>
    private const double SumSlack = 1e-9;

    private static IEnumerable<LintNote> ProbabilityRules(ModelMap map) =>
        Probabilities(map).Where(p => !(p.Value >= 0 && p.Value <= 1))
            .Select(p => new LintNote("probability", p.Path, $"{p.Value} is not a probability. Give a number from 0 to 1."));

    private static IEnumerable<LintNote> SumRules(ModelMap map)
    {
        IEnumerable<(string Path, double Sum)> sums =
        [
            .. Distributions(map).Select(d => (d.Path, d.Row.Values.Sum())),
            .. map.Model.Components.Select(c => ($"components[{c.Id}].modes", c.Modes.Sum(m => m.ShareWhenNew ?? 0))),
        ];
        return sums.Where(s => s.Sum > 1 + SumSlack)
            .Select(s => new LintNote("sum-above-one", s.Path, $"The probabilities sum to {s.Sum:0.######}, above 1. Lower them: the rest stands for 'nothing'."));
    }

    /// <summary>Rows whose entries exclude each other. Yes/no rows have one entry and pass by being a probability.</summary>
    private static IEnumerable<(string Path, IReadOnlyDictionary<string, double> Row)> Distributions(ModelMap map) =>
    [
        .. map.Arrows.SelectMany(a => a.Rows()),
        .. map.Model.Conditions.Select(c => ($"conditions[{c.Id}].background", c.Background)),
        .. map.Model.Checks.Where(c => c.Otherwise is not null).Select(c => ($"checks[{c.Id}].otherwise", c.Otherwise!)),
    ];

    private static IEnumerable<(string Path, double Value)> Probabilities(ModelMap map)
    {
        FaultModel m = map.Model;
        FittedQuality q = m.BadWhenFitted;
        return
        [
            .. Distributions(map).SelectMany(d => d.Row.Select(e => ($"{d.Path}.{e.Key}", e.Value))),
            .. Named("badWhenFitted", ("new", q.New), ("newUnbranded", q.NewUnbranded), ("rebuilt", q.Rebuilt), ("used", q.Used), ("unknown", q.Unknown)),
            .. Named("told", ("told", m.Told.Told), ("invoice", m.Told.Invoice)),
            .. Named("elsewhere", ("prior", m.Elsewhere.Prior), ("p", m.Elsewhere.P)),
            .. m.Elsewhere.Cells.Select(e => ($"elsewhere.cells.{e.Key}", e.Value)),
            .. m.Components.SelectMany(OfComponent),
            .. m.Cells.Select(s => ($"cells[{s.Id}].background", s.Background)),
            .. m.Checks.Select(c => ($"checks[{c.Id}].falseAlarm", c.FalseAlarm)),
        ];
    }

    private static IEnumerable<(string Path, double Value)> OfComponent(Component c)
    {
        string path = $"components[{c.Id}]";
        FittedQualityOverride? q = c.BadWhenFitted;
        return
        [
            ($"{path}.notOriginal", c.NotOriginal),
            .. Named($"{path}.badWhenFitted", ("new", q?.New), ("newUnbranded", q?.NewUnbranded), ("rebuilt", q?.Rebuilt), ("used", q?.Used), ("unknown", q?.Unknown)),
            .. c.Modes.SelectMany(m => Named($"{path}.modes[{m.Id}]", ("unnoticed", m.Unnoticed), ("shareWhenNew", m.ShareWhenNew))),
            .. c.Modes.SelectMany(m => m.CuredBy.Select(e => ($"{path}.modes[{m.Id}].curedBy.{e.Key}", e.Value))),
        ];
    }

    private static IEnumerable<(string Path, double Value)> Named(string path, params (string Name, double? Value)[] values) =>
        values.Where(v => v.Value is not null).Select(v => ($"{path}.{v.Name}", v.Value!.Value));
}
