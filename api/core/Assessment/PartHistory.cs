using System.Globalization;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>One line on what the record says of a component.</summary>
internal static class PartHistory
{
    public static string Of(FaultModel model, Component component, Investigation investigation)
    {
        WorkFact? last = investigation.Input.Car.Work
            .Where(w => w.Day <= investigation.Input.AsOf && w.Action is WorkAction.Fitted or WorkAction.Rebuilt && RecordEntry.Covers(model, w, component))
            .OrderBy(w => w.Day).LastOrDefault();
        if (last is null)
        {
            return component.Id == ModelIndex.Elsewhere ? "" : "no record of a new one";
        }

        string how = last.Known switch { Known.Told => "told", Known.Invoice => "invoice", Known.Seen => "seen", _ => "own work" };
        string quality = last.Action == WorkAction.Rebuilt ? "rebuilt" : last.Quality switch
        {
            PartQuality.New => "new",
            PartQuality.NewUnbranded => "new, unbranded",
            PartQuality.Rebuilt => "rebuilt",
            PartQuality.Used => "used",
            _ => "quality unknown",
        };
        string when = last.Within is { IsLong: true } span
            ? string.Create(CultureInfo.InvariantCulture, $"some day from {span.From:yyyy-MM} to {span.To:yyyy-MM}")
            : last.Day.ToString("yyyy-MM", CultureInfo.InvariantCulture);
        return $"fitted {when}, {quality} ({how})";
    }
}
