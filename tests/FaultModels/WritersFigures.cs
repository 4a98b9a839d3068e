using System.Text.Json;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.FaultModels;

/// <summary>Figures of independent writers of the trade who saw neither models nor cases, in percent, by our ids: modes (several of one row
/// apart by a blank) to rows, a row being the cells of one event ("no-start-hot/no-start-hot-dead") or the outcome of a check
/// ("pump-listen=silent"), with one figure for each writer.</summary>
/// <param name="Cells">Those for which the writers had a word.</param>
/// <param name="Others">What they put for every mode that they did not name under an outcome.</param>
internal sealed record WritersFigures(
    string About,
    int Writers,
    string Cells,
    IReadOnlyDictionary<string, double?[]> Others,
    IReadOnlyDictionary<string, Dictionary<string, double?[]>> Modes)
{
    /// <summary>From here on a figure counts, and so far may the model be away from it.</summary>
    public const double Counts = 0.2, Factor = 3;

    private const double Percent = 100, AloneCounts = 10;

    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web);

    public static string Folder => Path.Combine(ModelFile.Folder, "..", "..", "tests", "FaultModels", "writers");

    /// <summary>Every mode by itself with its rows.</summary>
    public IEnumerable<(string Mode, Dictionary<string, double?[]> Rows)> Each =>
        Modes.SelectMany(m => m.Key.Split(' '), (m, mode) => (mode, m.Value));

    public static WritersFigures Of(string system) =>
        JsonSerializer.Deserialize<WritersFigures>(File.ReadAllText(Path.Combine(Folder, system + ".json")), Form)!;

    /// <summary>Two or more writers: their geometric mean. One alone: half of it, if he put at least a tenth. Else nothing.</summary>
    public static double Target(IEnumerable<double?> figures)
    {
        double[] given = [.. figures.OfType<double>()];
        return given.Length switch
        {
            0 => 0,
            1 => given[0] >= AloneCounts ? given[0] / 2 / Percent : 0,
            _ => Math.Exp(given.Average(Math.Log)) / Percent,
        };
    }

    /// <summary>Where the model says something else than the rule makes of the writers.</summary>
    public IEnumerable<WritersDifference> Differences(FaultModel model)
    {
        var map = new ModelMap(model);
        return Each.SelectMany(m => new WritersRow(model, m.Mode, ModeTrace.Of(map, m.Mode)).Differences(m.Rows, this));
    }
}

/// <summary>A row whose figure is away from the model's.</summary>
internal sealed record WritersDifference(string Mode, string Where, double Target, double Model);

/// <summary>One mode alone on a car, beside its rows.</summary>
internal sealed class WritersRow(FaultModel model, string mode, ModeTrace trace)
{
    private const int Below = 3;

    private readonly Dictionary<string, EventCell> _cells = model.Cells.ToDictionary(c => c.Id);

    private readonly Dictionary<string, Check> _checks = model.Checks.ToDictionary(c => c.Id);

    public IEnumerable<WritersDifference> Differences(IReadOnlyDictionary<string, double?[]> rows, WritersFigures writers)
    {
        var events = rows.Where(r => !r.Key.Contains('='))
            .Select(r => (Where: r.Key, Cells: r.Key.Split('/'), Target: WritersFigures.Target(r.Value))).ToList();
        IEnumerable<WritersDifference> tooLittle = events.Where(e => TooLittle(e.Cells, e.Target))
            .Select(e => new WritersDifference(mode, e.Where, e.Target, Most(e.Cells)));
        IEnumerable<WritersDifference> tooMuch = writers.Cells.Split(' ')
            .Select(c => (Cell: c, Target: events.Where(e => e.Cells.Contains(c)).Select(e => e.Target).DefaultIfEmpty(0).Max()))
            .Where(c => trace.Cells[c.Cell] >= WritersFigures.Counts && trace.Cells[c.Cell] > WritersFigures.Factor * c.Target)
            .Select(c => new WritersDifference(mode, c.Cell, c.Target, trace.Cells[c.Cell]));
        IEnumerable<WritersDifference?> outcomes = writers.Others.Select(o => Outcome(o.Key, rows.GetValueOrDefault(o.Key), o.Value));
        return [.. tooLittle, .. tooMuch, .. outcomes.OfType<WritersDifference>()];
    }

    /// <summary>Nothing beside what comes by itself, or less than a third where it counts.</summary>
    private bool TooLittle(string[] cells, double target) =>
        (target >= WritersFigures.Counts && Most(cells) < target / WritersFigures.Factor)
        || cells.All(c => trace.Cells[c] - _cells[c].Background < ModelTable.Least);

    private double Most(string[] cells) => cells.Max(c => trace.Cells[c]);

    /// <summary>A mode that was not named under an outcome may not stand out there; that it stands as high as the rest is not asked:
    /// much of the rest are other faults.</summary>
    private WritersDifference? Outcome(string where, double?[]? row, double?[] others)
    {
        double target = WritersFigures.Target(row ?? others), found = Chance(where);
        bool counts = Math.Max(target, found) >= WritersFigures.Counts;
        bool apart = found > WritersFigures.Factor * target || (row is not null && found < target / WritersFigures.Factor);
        return counts && apart ? new(mode, where, target, found) : null;
    }

    private double Chance(string where)
    {
        string[] parts = where.Split('=');
        Check check = _checks[parts[0]];
        double[] p = trace.Checks[check.Id];
        return check.Kind switch
        {
            CheckKind.Measurement => parts[1] == "below" ? p[..Below].Sum() : p[(Below + 1)..].Sum(),
            CheckKind.LeakDown => 1 - p.Chunk(p.Length / ((2 * Below) + 1)).ElementAt(Below).Sum(),
            CheckKind.YesNo => p[1],
            _ => parts[1].Split('+').Sum(o => p[check.Outcomes!.Select(x => x.Id).ToList().IndexOf(o)]),
        };
    }
}
