using System.Collections.Concurrent;

namespace FuelHistory.Core.FaultModels;

/// <summary>Which checks would show that a mode is there, by the file alone (MODEL.md 8, 10). Worked out when first asked for.</summary>
internal sealed class ShownModes(FaultModel model)
{
    /// <summary>So many bits about "this mode or nothing" at even odds show it: right in nine of ten.</summary>
    private const double Enough = 0.5;

    private readonly Lazy<(ModelMap Map, IReadOnlyDictionary<string, double[]> Sound)> _file = new(() =>
    {
        var map = new ModelMap(model);
        return (map, ModeTrace.Of(map, null).Checks);
    });

    private readonly ConcurrentDictionary<string, IReadOnlySet<string>> _known = [];

    /// <summary>Ids of the checks (not trials) that show the mode, given as component.mode.</summary>
    public IReadOnlySet<string> Of(string mode) => _known.GetOrAdd(mode, id =>
    {
        (ModelMap map, IReadOnlyDictionary<string, double[]> sound) = _file.Value;
        IReadOnlyDictionary<string, double[]> seen = ModeTrace.Of(map, id).Checks;
        return map.Model.Checks.Where(c => ModelStudy.Bits(seen[c.Id], sound[c.Id]) >= Enough).Select(c => c.Id).ToHashSet();
    });
}
