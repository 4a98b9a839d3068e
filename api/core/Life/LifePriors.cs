using System.Text.Json;
using System.Text.Json.Serialization;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Life;

/// <summary>Life priors by what they are computed from: the record before an investigation is the same at each of its assessments. The key is
/// the whole text of that record, so that nothing in it can change unnoticed.</summary>
internal sealed class LifePriors(FaultModel model)
{
    /// <summary>Some 50 kB each.</summary>
    private const int Kept = 100;

    private static readonly JsonSerializerOptions Text = new() { NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals };

    private readonly Memo<string, LifePrior> _known = new(Kept);

    private readonly DrivesWith _drives = new(model);

    public LifePrior Of(Investigation investigation)
    {
        // gauges, limits and closed complaints say nothing of a part's life; what the closed ones left behind has been worked out
        CarRecord past = investigation.Past() with { Instruments = [], Limits = [], Closed = [] };
        DateOnly? ranWell = investigation.RanWell(), drove = investigation.Drove();
        string key = JsonSerializer.Serialize((object[])[past, past.Carried, investigation.FirstDay, ranWell ?? (object)"unknown", drove ?? (object)"unknown"], Text);
        return _known.Of(key, () => new LifePrior(model, past, investigation.FirstDay, ranWell, drove is DateOnly day ? new Drove(day, _drives.Of) : null));
    }
}
