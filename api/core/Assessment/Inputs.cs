namespace FuelHistory.Core.Assessment;

/// <summary>Everything an assessment is computed from; the same input gives the same answer, bit for bit.</summary>
/// <param name="RatePerMinute">Labour cost per minute, in the currency of the fault model's parts figures.</param>
/// <param name="ToolsAtHand">Tool ids; null: all.</param>
/// <param name="SetAside">Ids of checks that are not proposed; null: none.</param>
public sealed record AssessmentInput(
    CarRecord Car,
    ComplaintFact Complaint,
    DateOnly AsOf,
    double? RatePerMinute = null,
    IReadOnlySet<string>? ToolsAtHand = null,
    IReadOnlySet<string>? SetAside = null);

/// <summary>The record of one car. Lists need not be sorted. All values are in the quantity's own unit
/// (bar, V, A, ohm, ml, s, °C, km, rpm, %).</summary>
public sealed record CarRecord
{
    public required DateOnly FirstUse { get; init; }
    /// <summary>Nothing was done to the car that the record does not name.</summary>
    public bool Complete { get; init; }
    /// <summary>True distance since new: clock changes already added.</summary>
    public IReadOnlyList<OdometerFix> Odometer { get; init; } = [];
    public IReadOnlyList<LayUpSpan> LayUps { get; init; } = [];
    public IReadOnlyList<WorkFact> Work { get; init; } = [];
    public IReadOnlyList<IncidentFact> Incidents { get; init; } = [];
    /// <summary>Every finding of the car, those of this complaint and of others.</summary>
    public IReadOnlyList<Observation> Findings { get; init; } = [];
    public IReadOnlyList<InstrumentFact> Instruments { get; init; } = [];
    public IReadOnlyList<CarLimit> Limits { get; init; } = [];
    /// <summary>Earlier complaints that were closed; their findings count for what was not touched since.</summary>
    public IReadOnlyList<ClosedComplaint> Closed { get; init; } = [];
    /// <summary>Components that the car does not have, by its fitted options: ok for certain, not ranked, without work and checks.</summary>
    public IReadOnlySet<string> Absent { get; init; } = new HashSet<string>();
    /// <summary>What was believed at the closings; computed from <see cref="Closed"/>, not given.</summary>
    internal IReadOnlyList<CarriedBelief> Carried { get; init; } = [];
}

/// <param name="Causes">Component, and the mode where it is known.</param>
public sealed record ClosedComplaint(ComplaintFact Complaint, DateOnly ClosedOn, IReadOnlyList<(string Component, string? Mode)> Causes);

/// <summary>What an earlier investigation said of one component at its closing: likelihood of ok and of each mode.</summary>
internal sealed record CarriedBelief(string ComplaintId, DateOnly Day, string Component, double[] Likelihood);

public sealed record OdometerFix(DateOnly Day, double Km);

/// <param name="To">Null: the car still stands.</param>
public sealed record LayUpSpan(string Id, DateOnly From, DateOnly? To);

public sealed record IncidentFact(string Id, DateOnly Day, string Kind);

public enum WorkAction { Fitted, Rebuilt, Cleaned, Adjusted, Inspected }

/// <summary>How we know that the work was done.</summary>
public enum Known { DidIt, Seen, Invoice, Told }

public enum PartQuality { New, NewUnbranded, Rebuilt, Used, Unknown }

/// <param name="At">The instant, where it is known; else the order of recording decides within a day.</param>
public sealed record WorkFact(
    string Id,
    DateOnly Day,
    WorkAction Action,
    IReadOnlyList<string> Components,
    Known Known,
    PartQuality Quality,
    DateTimeOffset RecordedAt,
    double? PartAgeYears = null,
    DateTimeOffset? At = null);

/// <param name="Always">There as long as the owner has had the car: no day is known on which it ran well.</param>
public sealed record ComplaintFact(string Id, DateOnly Since, bool Always, bool Intermittent);

/// <summary>Whether an intermittent complaint showed during the session.</summary>
public enum Showed { Unknown, Yes, No }

/// <summary>One recorded outcome: of a symptom question, of a check, or of a part opened and looked at.</summary>
public sealed record Observation
{
    public required string Id { get; init; }
    public string? ComplaintId { get; init; }
    public required DateTimeOffset At { get; init; }
    public required DateOnly Day { get; init; }
    public required DateTimeOffset RecordedAt { get; init; }
    /// <summary>Findings of one session share the gauge's error and whether the fault was acting.</summary>
    public required string Session { get; init; }
    public Showed Showed { get; init; }
    public string? Symptom { get; init; }
    public string? Check { get; init; }
    /// <summary>The part seen; with <see cref="Mode"/> where the defect was named.</summary>
    public string? Component { get; init; }
    public string? Mode { get; init; }
    /// <summary>present/absent, yes/no, an outcome's id, hold/slow/fast/steep-then-flat, good/bad; null for measured values.</summary>
    public string? Outcome { get; init; }
    public bool Sure { get; init; } = true;
    public double? Value { get; init; }
    public IReadOnlyList<LeakPoint> Points { get; init; } = [];
    public string? Instrument { get; init; }
    /// <summary>Covariate id to value.</summary>
    public IReadOnlyDictionary<string, double> Covariates { get; init; } = new Dictionary<string, double>();
}

/// <param name="Minutes">Since the pump stopped.</param>
public sealed record LeakPoint(double Minutes, double Bar);

/// <summary>Gauge: span and class (EN 837-1, percent of span). Meter or vessel: percent of reading and a fixed part.</summary>
public sealed record InstrumentFact(
    string Id,
    double? Span,
    double? ClassPercent,
    double? Resolution,
    double? PercentOfReading,
    double? Digits,
    DateOnly? LastChecked);

/// <summary>The car's own limit for one check; the last in the list wins.</summary>
/// <param name="Origin">Where it stands, in words.</param>
/// <param name="Exact">False: it may differ from this car's as a typical limit may, such as one from memory.</param>
public sealed record CarLimit(
    string Id,
    string Check,
    double? Low,
    double? High,
    double? From,
    IReadOnlyList<FaultModels.LimitPoint> Points,
    string Origin = "entered without a source",
    bool Exact = true);
