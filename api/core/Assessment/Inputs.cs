using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>Everything an assessment is computed from; the same input gives the same answer, bit for bit.</summary>
/// <param name="RatePerMinute">Labour cost per minute, in the currency of the fault model's parts figures.</param>
/// <param name="ToolsAtHand">Tool ids; null: all.</param>
/// <param name="IgnoreOwn">Own observations say nothing.</param>
/// <param name="SetAside">Ids of checks and trials that are not proposed; null: none.</param>
public sealed record AssessmentInput(
    CarRecord Car,
    ComplaintFact Complaint,
    DateOnly AsOf,
    double? RatePerMinute = null,
    IReadOnlySet<string>? ToolsAtHand = null,
    bool IgnoreOwn = false,
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
/// <param name="FromWithin">Where the first day is half known.</param>
/// <param name="ToWithin">Where the last day is half known.</param>
public sealed record LayUpSpan(string Id, DateOnly From, DateOnly? To, DaySpan? FromWithin = null, DaySpan? ToWithin = null);

/// <param name="Within">Where the day is half known; <paramref name="Day"/> is then its middle.</param>
public sealed record IncidentFact(string Id, DateOnly Day, string Kind, DaySpan? Within = null);

/// <summary>Unknown: something was done to the component, nobody knows what.</summary>
public enum WorkAction { Fitted, Rebuilt, Cleaned, Adjusted, Inspected, Unknown }

/// <summary>How we know that the work was done.</summary>
public enum Known { DidIt, Seen, Invoice, Told }

public enum PartQuality { New, NewUnbranded, Rebuilt, Used, Unknown }

/// <summary>Opened and looked at, or tested by a method that was not told.</summary>
public enum Look { Seen, Tested }

/// <summary>What an inspection found of the part.</summary>
/// <param name="Mode">Of a bad part, where it is known.</param>
public sealed record LookResult(bool Bad, string? Mode = null, Look How = Look.Seen, bool Sure = true);

/// <param name="At">The instant, where it is known; else the order of recording decides within a day.</param>
/// <param name="Within">Where the day is half known; <paramref name="Day"/> is then its middle.</param>
/// <param name="Found">Inspected only, and of one component: what was found.</param>
public sealed record WorkFact(
    string Id,
    DateOnly Day,
    WorkAction Action,
    IReadOnlyList<string> Components,
    Known Known,
    PartQuality Quality,
    DateTimeOffset RecordedAt,
    double? PartAgeYears = null,
    DateTimeOffset? At = null,
    DaySpan? Within = null,
    LookResult? Found = null);

/// <param name="Always">There as long as the owner has had the car: no day is known on which it ran well.</param>
/// <param name="Main">Id of the event that is the main trouble; null: none is marked.</param>
/// <param name="Onset">How it came about; null: not told.</param>
public sealed record ComplaintFact(string Id, DateOnly Since, bool Always, bool Intermittent, string? Main = null, string? Onset = null);

/// <summary>Whether an intermittent complaint showed during the session.</summary>
public enum Showed { Unknown, Yes, No }

/// <summary>Something changed for a moment. Trial: of the fault model, where it is one of those; else kind and component say what was done.</summary>
/// <param name="StandIn">Quality of the part in its place, for another one.</param>
/// <param name="CameBack">With the old part back: it came back, it stayed away, or that was not tried.</param>
public sealed record TrialFact(string? Trial, TrialKind Kind, string? Component, PartQuality StandIn, bool? CameBack);

public enum Strength { Slightly, Clearly, Strongly }

/// <summary>A judgement of one's own for or against a component or a side of the car.</summary>
public sealed record OwnObservation(string? Component, string? Side, bool For, Strength Strength);

/// <summary>One recorded outcome: of an event, of a check, of a trial, of a part opened and looked at, or a judgement of one's own.</summary>
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
    /// <summary>Id of the event (or of one of its cells), with the facets told; a side left open is empty.</summary>
    public string? Event { get; init; }
    public IReadOnlyList<string> When { get; init; } = [];
    public IReadOnlyList<string> Then { get; init; } = [];
    public string? Check { get; init; }
    /// <summary>The part seen; with <see cref="Mode"/> where the defect was named.</summary>
    public string? Component { get; init; }
    public string? Mode { get; init; }
    /// <summary>Of a part: opened and looked at, or tested.</summary>
    public Look How { get; init; }
    public TrialFact? Trial { get; init; }
    public OwnObservation? Own { get; init; }
    /// <summary>present/absent/only/always (event), ended/better/same/worse (trial), yes/no, an outcome's id, hold/slow/fast/steep-then-flat, good/bad; null for measured values.</summary>
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
