namespace FuelHistory.Contracts;

/// <summary>What a document says that a car should read. Trust: published, excerpt, common-practice or memory; TrustText: the same
/// in words. Car: make, model, engine and years in words. Printed: as the document has it, misprints included; Figures: as
/// they are used. Checks: that read just this; may be empty. From: a leak-down's pressure at the stop. Over: what the points'
/// At is. NotForJudging: why no reading may be judged by it. NoCheck: why no check reads just this. Closeness, where a car was asked for: this-car, this-model,
/// this-make, any-car, other-car.</summary>
public sealed record LibraryLimit(
    string Id,
    string Title,
    string Quantity,
    IReadOnlyList<string> Systems,
    IReadOnlyList<string> Checks,
    string Trust,
    string TrustText,
    string Car,
    string? Make,
    string? Model,
    IReadOnlyList<string> Engines,
    int? FirstYear,
    int? LastYear,
    string Source,
    string? Point,
    IReadOnlyList<string> SetUp,
    string Printed,
    string Figures,
    string? Unit,
    double? Seconds,
    double? Low,
    double? High,
    double? From,
    IReadOnlyList<LimitPoint> Points,
    CovariateView? Over,
    bool PartlyOurs,
    string? Worked,
    string? Misprint,
    string? Remark,
    string? NotForJudging,
    string? Closeness = null,
    string? NoCheck = null);

/// <summary>Takes a limit of the library for one of the vehicle's checks.</summary>
public sealed record Adoption(string LibraryId, string Check);
