namespace FuelHistory.Core.FaultModels;

/// <summary>Something one can do to find out more. Four kinds, told apart by the members that are there:
/// measures (a quantity), watches (a leak-down), detects (yes or no), outcomes (named).</summary>
public sealed record Check
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    public required double Minutes { get; init; }
    /// <summary>Hook-up shared by several checks, and what it takes once.</summary>
    public string? Setup { get; init; }
    public double SetupMinutes { get; init; }
    public required IReadOnlyList<string> Tools { get; init; }
    /// <summary>none, low, medium or high.</summary>
    public required string Hazard { get; init; }
    public required IReadOnlyList<string> Cautions { get; init; }
    public required IReadOnlyList<string> Steps { get; init; }
    public required string Source { get; init; }
    /// <summary>The part itself is seen, so that it shows whether or not an intermittent fault is acting.</summary>
    public bool SeesPart { get; init; }
    /// <summary>Components without which it makes no sense; where absent: any of those that it can show.</summary>
    public IReadOnlyList<string>? Needs { get; init; }
    /// <summary>Tags of <see cref="Involved"/>: what a stop note may forbid.</summary>
    public IReadOnlyList<string> Involves { get; init; } = [];
    /// <summary>Ids of events that say the same: told as present in this round, they leave nothing to ask by it.</summary>
    public IReadOnlyList<string> AnsweredBy { get; init; } = [];

    // measures
    public string? Measures { get; init; }
    public string? Quantity { get; init; }
    public Limits? Limits { get; init; }
    public Bands? Bands { get; init; }
    /// <summary>Explicit band edges from the lowest level's bottom to the highest level's top; instead of <see cref="Bands"/>.</summary>
    public IReadOnlyList<double>? Edges { get; init; }
    public Covariate? Covariate { get; init; }
    /// <summary>Standard deviation of one reading beside the instrument's own error, in the limits' unit.</summary>
    public double Repeat { get; init; }

    // watches (leak-down); shares Limits, Quantity and Repeat
    public IReadOnlyList<string>? Watches { get; init; }
    public string? Store { get; init; }
    public string? Section { get; init; }

    // detects
    public IReadOnlyList<Cause>? Detects { get; init; }
    public double FalseAlarm { get; init; }
    public string? Yes { get; init; }
    public string? No { get; init; }

    // outcomes
    public IReadOnlyList<Outcome>? Outcomes { get; init; }
    /// <summary>Rows per mode (or condition) combined by noisy-MAX in the outcomes' order, the first being "nothing wrong".</summary>
    public IReadOnlyList<OutcomeRow>? Table { get; init; }
    public IReadOnlyDictionary<string, double>? Otherwise { get; init; }
    public OutcomeByLevel? ByLevel { get; init; }

    public CheckKind Kind =>
        Watches is not null ? CheckKind.LeakDown
        : Measures is not null ? CheckKind.Measurement
        : Outcomes is not null ? CheckKind.Outcomes
        : CheckKind.YesNo;
}

public enum CheckKind { Measurement, LeakDown, YesNo, Outcomes }

/// <summary>What the car should read. Measurement: low and/or high (or covariate points). Leak-down: from, points of minutes and low, and hold where it drops first.</summary>
public sealed record Limits
{
    public double? Low { get; init; }
    public double? High { get; init; }
    public double? From { get; init; }
    /// <summary>Measurement with one side only: what a sound car reads as a rule. With points it stands in each of them.</summary>
    public double? Usual { get; init; }
    public string? UsualSource { get; init; }
    /// <summary>Leak-down with <see cref="Drop"/>: where the pressure stands once regulator and injectors have shut.</summary>
    public double? Hold { get; init; }
    public string? HoldSource { get; init; }
    /// <summary>Leak-down that starts from running pressure (<see cref="From"/>) and falls within seconds to <see cref="Hold"/>.</summary>
    public bool Drop { get; init; }
    public required string Unit { get; init; }
    /// <summary>Standard deviation of the limit between makers and models; 0 for the car's own.</summary>
    public double Spread { get; init; }
    public IReadOnlyList<LimitPoint> Points { get; init; } = [];
    public required string Source { get; init; }
}

/// <summary>Leak-down: at <see cref="Minutes"/> at least <see cref="Low"/>. Covariate: at <see cref="At"/> between low and high.</summary>
public sealed record LimitPoint
{
    public double? Minutes { get; init; }
    public double? At { get; init; }
    public double? Low { get; init; }
    public double? High { get; init; }
    public double? Usual { get; init; }
}

/// <summary>Level -1 is farBelow*low..low, -2 from 0 to farBelow*low; +1 high..farAbove*high, +2 up to top.</summary>
public sealed record Bands
{
    public double? FarBelow { get; init; }
    public double? FarAbove { get; init; }
    public required double Top { get; init; }
}

/// <summary>What must be noted with the reading because the limit depends on it.</summary>
public sealed record Covariate
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    public required string Quantity { get; init; }
    public required string Unit { get; init; }
}

public sealed record Outcome
{
    public required string Id { get; init; }
    public required string Title { get; init; }
}

public sealed record OutcomeRow
{
    public required string Of { get; init; }
    /// <summary>Outcome id to probability if this mode alone is there; the rest goes to the first outcome.</summary>
    public IReadOnlyDictionary<string, double>? P { get; init; }
    /// <summary>The same per level of a condition.</summary>
    public IReadOnlyDictionary<string, IReadOnlyDictionary<string, double>>? At { get; init; }
    public string? Source { get; init; }
    /// <summary>As that of a cause.</summary>
    public double? Spread { get; init; }
}

/// <summary>Outcome distribution per level of one condition; the rest of each row goes to the first outcome.</summary>
public sealed record OutcomeByLevel
{
    public required string Of { get; init; }
    public required IReadOnlyDictionary<string, IReadOnlyDictionary<string, double>> At { get; init; }
}
