using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>What was recorded before events had cells means the same now, in every system.</summary>
public class EventContentTests
{
    /// <summary>Where the old question was wider than the cell that kept its id: old id to event, and to the facets that it left open or told.</summary>
    private static readonly Dictionary<string, (string Event, string When, string Then)> Wider = new()
    {
        ["hard-start-cold"] = ("hard-start", "cold", ""),        // whatever follows
        ["cuts-out"] = ("cuts-out-driving", "", "after-wait"),   // wherever it happened
        ["hunting"] = ("surges", "", ""),                        // at idle or on a steady pedal
        ["stumble"] = ("stumbles", "", ""),                      // cold or warm
    };

    private static readonly string[] Petrol = [
        "hard-start-cold", "hard-start-overnight", "hard-start-hot", "hot-catches-and-dies", "flooded-start", "starts-then-stalls", "no-start", "rough-idle-cold", "rough-idle-warm",
        "stalls-at-idle", "high-idle", "hunting", "stumble", "no-power", "cuts-out", "hot-jolts", "rich-smoke", "high-consumption", "run-on", "intake-pop", "exhaust-pop", "one-cylinder",
        "fuel-smell", "petrol-in-oil", "high-co", "poor-until-warm", "worse-as-it-warms", "slow-crank", "good-for-weeks", "pump-silent", "cuts-out-over-bumps"];

    /// <summary>Every id under which something may have been recorded.</summary>
    private static readonly Dictionary<string, string[]> Recorded = new()
    {
        ["continuous-mechanical"] = [.. Petrol, "pump-noisy", "no-fast-idle"],
        ["continuous-electro-hydraulic"] = [.. Petrol, "pump-noisy", "no-fast-idle"],
        ["port-airflow"] = [.. Petrol, "pump-noisy", "no-fast-idle", "hot-rough-start"],
        ["port-manifold-pressure"] = [.. Petrol, "pump-noisy", "no-fast-idle", "hot-rough-start", "half-cylinders", "bucks-at-steady-throttle"],
        ["single-point"] = [.. Petrol, "pump-noisy", "no-fast-idle", "ices-up"],
        ["carburettor"] = [.. Petrol, "starves-at-speed", "hard-start-standing", "bowl-empty", "ticks-on", "icing"],
        ["diesel-mechanical"] = [
            "hard-start-cold", "hard-start-overnight", "hard-start-hot", "no-start", "rough-idle-cold", "rough-idle-warm", "stalls-at-idle", "high-idle", "hunting", "stumble", "no-power",
            "cuts-out", "high-consumption", "one-cylinder", "fuel-smell", "poor-until-warm", "slow-crank", "good-for-weeks", "starts-dies-soon", "no-smoke-cranking", "white-smoke-cold",
            "white-smoke-warm", "black-smoke", "knock-all", "knock-one", "fades-on-hill", "diesel-in-oil", "stops-in-frost", "wont-stop", "no-glow-lamp"],
    };

    public static TheoryData<string> Models => RealModels.All;

    [Theory]
    [MemberData(nameof(Models))]
    public void Recorded_id_means_its_cell_or_what_its_question_left_open(string model)
    {
        ModelIndex index = RealModels.Compiled(model).Index;
        foreach (string id in Recorded[model])
        {
            (EventIndex source, ulong cells) = Assert.NotNull(EventIndex.Told(index, id, [], []));

            string[] named = [.. EventIndex.Each(cells).Select(c => source.Cells[c].Id)];
            Assert.Contains(id, named);
            Assert.Equal(Meant(RealModels.Model(model), id), named);
        }
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Every_cell_has_an_event_and_every_component_a_side(string model)
    {
        Assert.All(RealModels.Model(model).Cells, c => Assert.NotNull(c.Event));
        Assert.All(RealModels.Model(model).Components.Where(c => !c.Instrument), c => Assert.NotNull(c.Side));
    }

    /// <summary>What may empty the line is a cause of a long start after a night, whichever way that is told.</summary>
    [Theory]
    [MemberData(nameof(Models))]
    public void Whatever_loses_pressure_or_fuel_at_rest_is_a_cause_of_every_long_start_after_standing(string model)
    {
        FaultModel source = RealModels.Model(model);
        string[] losses = [.. source.Conditions.Select(c => c.Id).Where(c => Losses.Contains(c))];
        Assert.NotEmpty(losses);
        foreach (EventCell cell in source.Cells.Where(c => c.Id is "hard-start-cold" or "hard-start-overnight" or "hard-start-standing"))
        {
            Assert.Empty(losses.Except(cell.Causes.Select(c => c.Of)).Select(c => $"{c} into {cell.Id}"));
        }
    }

    private static readonly string[] Losses = [
        "check-valve-leak", "supply-leak", "rail-leak", "regulator-leak", "stored-volume", "distributor-leak", "control-leak", "actuator-leak", "cold-start-leak",
        "injector-leak", "bowl-standing", "pump-leak-back", "outlet-leak", "prime-loss", "air-in-fuel", "supply-inlet"];

    private static IEnumerable<string> Meant(FaultModel model, string id)
    {
        if (!Wider.TryGetValue(id, out (string Event, string When, string Then) meant))
        {
            return [id];
        }

        return model.Cells.Where(c => c.Event == meant.Event && (meant.When == "" || c.When == meant.When) && (meant.Then == "" || c.Then == meant.Then)).Select(c => c.Id);
    }
}
