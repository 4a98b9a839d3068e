using System.Globalization;

namespace FuelHistory.Core.FaultModels;

/// <summary>Look-ups over a fault model: modes and conditions by id, and every arrow in one form.</summary>
internal sealed class ModelMap
{
    private readonly ILookup<(ArrowTarget Kind, string Target), Arrow> _into;

    public ModelMap(FaultModel model)
    {
        Model = model;
        Conditions = model.Conditions.ToDictionary(c => c.Id);
        Modes = model.Components.SelectMany(c => c.Modes.Select(m => (Id: $"{c.Id}.{m.Id}", Mode: m, Component: c))).ToDictionary(m => m.Id);
        Arrows = [.. model.Conditions.SelectMany(ModelArrows.Of), .. model.Cells.SelectMany(ModelArrows.Of), .. model.Checks.SelectMany(ModelArrows.Of)];
        _into = Arrows.ToLookup(a => (a.Kind, a.Target));
    }

    public FaultModel Model { get; }

    public IReadOnlyDictionary<string, Condition> Conditions { get; }

    public IReadOnlyDictionary<string, (string Id, Mode Mode, Component Component)> Modes { get; }

    public IReadOnlyList<Arrow> Arrows { get; }

    public IEnumerable<Arrow> Into(ArrowTarget kind, string target) => _into[(kind, target)];

    public bool IsCause(string id) => Modes.ContainsKey(id) || Conditions.ContainsKey(id);

    public static bool TryLevel(string text, out int level) => int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out level);
}

internal enum ArrowTarget { Condition, Event, Check }

/// <summary>One cause of one target. A mode has <see cref="ByMode"/>: what it brings about with which probability. A condition has
/// <see cref="ByLevel"/>: the same per level. Keys are steps (target a condition), outcome ids, or "p" (target an event or a yes).</summary>
internal sealed record Arrow(
    ArrowTarget Kind,
    string Target,
    string TargetPath,
    string List,
    string Of,
    IReadOnlyDictionary<string, double>? ByMode,
    IReadOnlyDictionary<string, IReadOnlyDictionary<string, double>>? ByLevel)
{
    public string Path => $"{TargetPath}.{List}[{Of}]";

    public bool Acts => (ByMode?.Values.Any(p => p > 0) ?? false) || (ByLevel?.Values.Any(row => row.Values.Any(p => p > 0)) ?? false);

    /// <summary>Every distribution the arrow holds, with its path.</summary>
    public IEnumerable<(string Path, IReadOnlyDictionary<string, double> Row)> Rows()
    {
        if (ByMode is not null)
        {
            yield return (Path, ByMode);
        }

        foreach ((string level, IReadOnlyDictionary<string, double> row) in ByLevel ?? new Dictionary<string, IReadOnlyDictionary<string, double>>())
        {
            yield return ($"{Path}.at[{level}]", row);
        }
    }
}

internal static class ModelArrows
{
    public static IEnumerable<Arrow> Of(Condition condition) =>
        condition.Effects.Select(e => new Arrow(ArrowTarget.Condition, condition.Id, $"conditions[{condition.Id}]", "effects", e.Of, e.Adds, e.At));

    public static IEnumerable<Arrow> Of(EventCell cell) =>
        cell.Causes.Select(c => new Arrow(ArrowTarget.Event, cell.Id, $"cells[{cell.Id}]", "causes", c.Of, One(c.P), Each(c.At)));

    public static IEnumerable<Arrow> Of(Check check)
    {
        string path = $"checks[{check.Id}]";
        IEnumerable<Arrow> detects = (check.Detects ?? []).Select(c => new Arrow(ArrowTarget.Check, check.Id, path, "detects", c.Of, One(c.P), Each(c.At)));
        IEnumerable<Arrow> table = (check.Table ?? []).Select(r => new Arrow(ArrowTarget.Check, check.Id, path, "table", r.Of, r.P, r.At));
        IEnumerable<Arrow> byLevel = check.ByLevel is { } by ? [new Arrow(ArrowTarget.Check, check.Id, path, "byLevel", by.Of, null, by.At)] : [];
        return [.. detects, .. table, .. byLevel];
    }

    private static Dictionary<string, double>? One(double? p) => p is { } value ? new Dictionary<string, double> { ["p"] = value } : null;

    private static Dictionary<string, IReadOnlyDictionary<string, double>>? Each(IReadOnlyDictionary<string, double>? at) =>
        at?.ToDictionary(level => level.Key, level => (IReadOnlyDictionary<string, double>)One(level.Value)!);
}
