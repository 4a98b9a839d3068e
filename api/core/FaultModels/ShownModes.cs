using System.Collections.Concurrent;

namespace FuelHistory.Core.FaultModels;

/// <summary>What each mode, alone on a car, makes of every check, by the file alone (MODEL.md 8, 10). Worked out when first asked for.</summary>
internal sealed class ShownModes(FaultModel model)
{
    /// <summary>So many bits about "this mode or nothing" at even odds show it: seen in six of ten, and falsely in three of a hundred.</summary>
    private const double Enough = 0.3;

    /// <summary>A check shows a part if it shows the ways of being bad that hold this share of its probability.</summary>
    public const double HalfOfIt = 0.5;

    /// <summary>A mode less likely than this is not looked at.</summary>
    private const double Negligible = 0.002;

    private readonly Lazy<(ModelMap Map, IReadOnlyDictionary<string, double[]> Sound)> _file = new(() =>
    {
        var map = new ModelMap(model);
        return (map, ModeTrace.Of(map, null).Checks);
    });

    private readonly ConcurrentDictionary<string, Traced> _known = [];
    private readonly Dictionary<string, int> _place = model.Checks.Select((c, i) => (c.Id, i)).ToDictionary();

    /// <param name="By">Ids of the checks that show the mode.</param>
    /// <param name="Rows">Per check of the file, in its order: the outcomes under the mode.</param>
    private sealed record Traced(IReadOnlySet<string> By, double[][] Rows);

    /// <summary>Ids of the checks (not trials) that show the mode, given as component.mode.</summary>
    public IReadOnlySet<string> Of(string mode) => Mode(mode).By;

    /// <summary>Share of the part's probability of being bad that lies in modes which the check shows.</summary>
    /// <param name="modes">P(mode), in the model's order.</param>
    public double Share(string check, Component part, IReadOnlyList<double> modes)
    {
        double bad = modes.Sum();
        return bad <= 0 ? 0 : part.Modes.Select((m, i) => modes[i] > Negligible * bad && Of($"{part.Id}.{m.Id}").Contains(check) ? modes[i] : 0).Sum() / bad;
    }

    /// <summary>Outcomes of a check on a car with nothing wrong.</summary>
    public double[] Sound(string check) => _file.Value.Sound[check];

    /// <summary>Outcomes of a check where the part is bad, its modes as likely as given.</summary>
    public double[] Row(string check, Component part, IReadOnlyList<double> modes)
    {
        double[] sound = Sound(check);
        double sum = 0;
        var row = new double[sound.Length];
        for (int m = 0; m < part.Modes.Count; m++)
        {
            double[]? of = modes[m] > Negligible ? Mode($"{part.Id}.{part.Modes[m].Id}").Rows[_place[check]] : null;
            sum += of is null ? 0 : modes[m];
            for (int o = 0; of is not null && o < row.Length; o++)
            {
                row[o] += modes[m] * of[o];
            }
        }

        return sum > 0 ? Array.ConvertAll(row, p => p / sum) : sound;
    }

    private Traced Mode(string mode) => _known.GetOrAdd(mode, id =>
    {
        (ModelMap map, IReadOnlyDictionary<string, double[]> sound) = _file.Value;
        IReadOnlyDictionary<string, double[]> seen = ModeTrace.Of(map, id).Checks;
        return new Traced(
            map.Model.Checks.Where(c => ModelStudy.Bits(seen[c.Id], sound[c.Id]) >= Enough).Select(c => c.Id).ToHashSet(),
            [.. map.Model.Checks.Select(c => seen[c.Id])]);
    });
}
