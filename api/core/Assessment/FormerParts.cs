using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>Findings on a part that the fault model has since split: they name none of the new ones, so they wait to be entered again (MODEL.md 10).</summary>
internal static class FormerParts
{
    public static IEnumerable<string> Notes(FaultModel model, Investigation investigation) => investigation.ThisRound
        .Select(f => f.Component ?? f.Trial?.Component).OfType<string>().Distinct()
        .Select(id => (Id: id, Now: model.SplitInto(id))).Where(f => f.Now.Count > 0)
        .Select(f => $"A finding names \"{f.Id}\", which is told apart now: {string.Join("; ", f.Now)}. It counts for none of them until it is entered for one.");
}
