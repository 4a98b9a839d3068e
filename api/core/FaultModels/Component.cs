namespace FuelHistory.Core.FaultModels;

/// <summary>A thing on the car that ages and can be fitted, cleaned or adjusted. Exactly one state: ok or one mode.
/// <see cref="Instrument"/>: the template from which every gauge used gets its own variable; never a bad part of the car.</summary>
public sealed record Component
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    /// <summary>Share of cars on which this part is no longer the original one, where the record says nothing.</summary>
    public double NotOriginal { get; init; }
    public bool Instrument { get; init; }
    public bool Consumable { get; init; }
    /// <summary>Ids of components that come along when this one is fitted (a pump with its check valve).</summary>
    public IReadOnlyList<string> Includes { get; init; } = [];
    /// <summary>Ids that earlier revisions had for a part of which this is one now: work on such a one counts for all of them.</summary>
    public IReadOnlyList<string> Formerly { get; init; } = [];
    /// <summary>Side of the car it belongs to: fuel-supply, metering, ignition, electrical, air or engine.</summary>
    public string? Side { get; init; }
    /// <summary>Ids of components whose contact faults an exchange of this one may make good for the moment (its plug, its ground).</summary>
    public IReadOnlyList<string> Moves { get; init; } = [];
    public FittedQualityOverride? BadWhenFitted { get; init; }
    public required IReadOnlyList<Mode> Modes { get; init; }
    public IReadOnlyList<WorkFigures> Work { get; init; } = [];
    public required string Source { get; init; }
}

public sealed record FittedQualityOverride
{
    public double? New { get; init; }
    public double? NewUnbranded { get; init; }
    public double? Rebuilt { get; init; }
    public double? Used { get; init; }
    public double? Unknown { get; init; }
}

/// <summary>A way of being bad.</summary>
public sealed record Mode
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    public required LifeFigures Life { get; init; }
    /// <summary>Share of this mode among parts that are bad when fitted; equal shares where no mode of the component states one.</summary>
    public double? ShareWhenNew { get; init; }
    /// <summary>Probability that the mode is there although the car ran well.</summary>
    public required double Unnoticed { get; init; }
    /// <summary>A fault of a contact: a knock, a wiggle, cold or warmth may make it good for the moment.</summary>
    public bool Contact { get; init; }
    /// <summary>Eyes see it on the opened part; what they cannot see a look does not clear.</summary>
    public bool Visible { get; init; }
    /// <summary>Incident id to odds multiplier.</summary>
    public IReadOnlyDictionary<string, double> Incidents { get; init; } = new Dictionary<string, double>();
    /// <summary>How the trouble came about (suddenly, slowly, since-work, ...) to the factor that this puts on the odds of the mode; 1 where absent.</summary>
    public IReadOnlyDictionary<string, double> Onset { get; init; } = new Dictionary<string, double>();
    /// <summary>component.mode that brings this one on (water in the tank clogs the regulator).</summary>
    public IReadOnlyList<string> CausedBy { get; init; } = [];
    /// <summary>Ids of components that go bad along with it: whoever does the one does the others in the same labour (a rusty tank, its strainer, the filter, the fuel).</summary>
    public IReadOnlyList<string> Together { get; init; } = [];
    /// <summary>Action (replace, clean, adjust) to the probability that it puts this mode right; replace is 1 where absent.</summary>
    public IReadOnlyDictionary<string, double> CuredBy { get; init; } = new Dictionary<string, double>();

    /// <summary>Probability that an action puts this mode right.</summary>
    public double Cures(string action) => CuredBy.GetValueOrDefault(action, action == "replace" ? 1 : 0);
    /// <summary>Instruments only: how far the reading is shifted, as a share of the span (of the reading where there is no span).</summary>
    public double? Bias { get; init; }
    public required string Source { get; init; }
}

/// <summary>Characteristic lives A (years of use) and K (km), Weibull shape b, rate per parked year l, and the gamma shape a of
/// the spread between parts: H = (years/A)^b + (km/K)^b + l x parked (MODEL.md 2).</summary>
public sealed record LifeFigures
{
    public double? Years { get; init; }
    public double? Km { get; init; }
    public required double Shape { get; init; }
    public double PerParkedYear { get; init; }
    public double A { get; init; } = 2;
}

/// <summary>What an action on a component costs. Action: replace, clean or adjust. Parts in currency units.</summary>
public sealed record WorkFigures
{
    public required string Action { get; init; }
    public required double Minutes { get; init; }
    public required double Parts { get; init; }
    /// <summary>Tags of <see cref="Involved"/>: what a stop note may forbid.</summary>
    public IReadOnlyList<string> Involves { get; init; } = [];
    public required string Source { get; init; }
}
