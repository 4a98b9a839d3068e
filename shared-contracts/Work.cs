namespace FuelHistory.Contracts;

/// <summary>Something done to one or more components. Date: as half known as people have it: 1995, 1995-06, 1995-06-03, "about 1995"
/// (or 1995~), "before 1995", "after 1995", "between 1990 and 1995", "unknown". At: the instant, where the order within a day
/// matters (else the order of entry decides). Action: fitted, rebuilt, cleaned, adjusted, inspected; unknown where something was done
/// and nobody knows what. Known: did-it, seen, invoice, told. Quality: new, new-unbranded, rebuilt, used, unknown. Reason: failed,
/// preventive, unknown. Outcome (good or bad), Mode, How (seen or tested; seen where absent) and Sure: what an inspection found of the
/// one component that it names.</summary>
public sealed record NewWork(
    string Date,
    string Action,
    IReadOnlyList<string> Components,
    string Known = "did-it",
    DateTimeOffset? At = null,
    string Quality = "unknown",
    double? PartAgeYears = null,
    Measured? Odometer = null,
    string? Maker = null,
    string? PartNumber = null,
    Money? Cost = null,
    string Reason = "unknown",
    string? Note = null,
    string? Outcome = null,
    string? Mode = null,
    string? How = null,
    bool Sure = true);

public sealed record Work(
    EntryHead Entry,
    string VehicleId,
    string Date,
    string Action,
    IReadOnlyList<string> Components,
    string Known,
    DateTimeOffset? At,
    string Quality,
    double? PartAgeYears,
    Measured? Odometer,
    string? Maker,
    string? PartNumber,
    Money? Cost,
    string Reason,
    string? Note,
    string? Outcome = null,
    string? Mode = null,
    string? How = null,
    bool Sure = true);

/// <summary>What this car should read for one check, with its source in words. Leak-down: From and Points.
/// Low, high and points are in Unit.</summary>
public sealed record NewLimit(
    string Check,
    string Unit,
    string Source,
    double? Low = null,
    double? High = null,
    double? From = null,
    IReadOnlyList<LimitPoint>? Points = null,
    string? Note = null);

/// <summary>Leak-down: after Minutes at least Low. Otherwise: where the covariate is At, between Low and High.</summary>
public sealed record LimitPoint(double? Minutes = null, double? At = null, double? Low = null, double? High = null);

/// <summary>Trust: own (entered by hand), or how the library's source is to be trusted: published, excerpt, common-practice,
/// memory; TrustText: the same in words. Printed: the figures as the source has them. Exact: false where it may
/// differ from this car's as a typical limit may; TrustText says why.</summary>
public sealed record Limit(
    EntryHead Entry,
    string VehicleId,
    string Check,
    string Unit,
    string Source,
    double? Low,
    double? High,
    double? From,
    IReadOnlyList<LimitPoint>? Points,
    string? Note,
    string Trust = "own",
    string? LibraryId = null,
    string? Printed = null,
    bool Exact = true,
    string TrustText = "own entry");

/// <summary>A gauge, meter or vessel. Gauges: Span and ClassPercent (EN 837-1). Meters and vessels: PercentOfReading and Digits
/// (absolute part, in Unit). LastChecked: year, month or day of the last comparison with a known good one.</summary>
public sealed record NewInstrument(
    string Name,
    string Quantity,
    string Unit,
    double? Span = null,
    double? ClassPercent = null,
    double? Resolution = null,
    double? PercentOfReading = null,
    double? Digits = null,
    string? LastChecked = null,
    string? Note = null);

public sealed record Instrument(
    EntryHead Entry,
    string Name,
    string Quantity,
    string Unit,
    double? Span,
    double? ClassPercent,
    double? Resolution,
    double? PercentOfReading,
    double? Digits,
    string? LastChecked,
    string? Note);
