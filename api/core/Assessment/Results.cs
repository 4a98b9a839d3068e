namespace FuelHistory.Core.Assessment;

public abstract record AssessmentResult;

/// <summary>These findings cannot be true together, whatever is wrong with the car: the smallest such set that was found.</summary>
public sealed record Contradiction(IReadOnlyList<string> Findings) : AssessmentResult;

/// <summary>The network would need more table entries than allowed.</summary>
public sealed record TooLarge(long Allowed) : AssessmentResult;

/// <summary>The answer. Probabilities 0..1; costs in the fault model's currency.</summary>
public sealed record Answered : AssessmentResult
{
    /// <summary>By cure, then by probability of being bad.</summary>
    public required IReadOnlyList<RankedFault> Ranking { get; init; }
    /// <summary>Probability that the complaint is gone already, by the repairs made; 0 before any.</summary>
    public required double Gone { get; init; }
    /// <summary>1 - P(gone if every modelled component were ok).</summary>
    public required double NoneOfThese { get; init; }
    /// <summary>P(gone if all were ok) less what is gone already and the single cures: needs more than one repair.</summary>
    public required double MoreThanOne { get; init; }
    /// <summary>Natural logarithm of the probability (density) of all findings.</summary>
    public required double LogEvidence { get; init; }
    /// <summary>P(no component of the car is bad).</summary>
    public required double AllHealthy { get; init; }
    public required int Stretches { get; init; }
    public bool Exact { get; init; } = true;
    public IReadOnlyList<string> LeftOut { get; init; } = [];
    public required IReadOnlyList<CheckAdvice> NextChecks { get; init; }
    public required RepairOrder Plan { get; init; }
    public required IReadOnlyList<Misfit> Misfits { get; init; }
    /// <summary>Sentences: covariates and figures that are missing before a reading can be judged.</summary>
    public required IReadOnlyList<string> Asks { get; init; }
    /// <summary>Sentences: which limits were typical ones, which instrument was assumed.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

public sealed record RankedFault(
    string Component,
    string Title,
    double Bad,
    double Cure,
    double Prior,
    IReadOnlyList<RankedState> Modes,
    IReadOnlyList<WhyFactor> Why,
    IReadOnlyList<string> CausedBy,
    string History);

public sealed record RankedState(string Mode, string Title, double Probability);

/// <summary>Kind: finding, work, lay-up, incident, complaint (an earlier one), ran-well. Factor: odds with everything over odds without this one.</summary>
public sealed record WhyFactor(string Kind, string? Id, double Factor);

/// <summary>Saving: expected cost saved, cost of the check already taken off. Pays: at least 3 % of the present cost.</summary>
public sealed record CheckAdvice(
    string Check,
    double Minutes,
    double Cost,
    double Saving,
    double Bits,
    bool ToolsAtHand,
    bool Pays,
    IReadOnlyList<OutcomeForecast> Outcomes);

public sealed record OutcomeForecast(string Outcome, string Title, double Probability, IReadOnlyList<CureAfter> Leaders);

public sealed record CureAfter(string Component, double Cure);

public sealed record RepairOrder(IReadOnlyList<PlannedRepair> Steps, double ExpectedCost, double SpecialistCost, bool CheckFirst);

public sealed record PlannedRepair(string Component, string Action, double Minutes, double Parts, double Cost, double GoneAfter);

/// <summary>log2(P(e) / P(e | the rest)) above 3; With: the finding whose removal lowers it most.</summary>
public sealed record Misfit(string Finding, double Bits, string? With);
