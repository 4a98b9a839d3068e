namespace FuelHistory.Core.Assessment;

public abstract record AssessmentResult;

/// <summary>These findings cannot be true together, whatever is wrong with the car: the smallest such set that was found.</summary>
public sealed record Contradiction(IReadOnlyList<string> Findings) : AssessmentResult;

/// <summary>The network would need more table entries than allowed.</summary>
public sealed record TooLarge(long Allowed) : AssessmentResult;

/// <summary>The answer. Probabilities 0..1; costs in the fault model's currency.</summary>
public sealed record Answered : AssessmentResult
{
    /// <summary>By what each explains, then by probability of being bad.</summary>
    public required IReadOnlyList<RankedFault> Ranking { get; init; }
    /// <summary>What the complaint consists of; empty where nothing was reported or failed.</summary>
    public required IReadOnlyList<RankedItem> Items { get; init; }
    /// <summary>P(all items have been put right by the work done since); 0 before any.</summary>
    public required double Resolved { get; init; }
    /// <summary>Share of the items that would stand though every component were put right.</summary>
    public required double NoneOfThese { get; init; }
    /// <summary>Share of the items that takes more than one repair.</summary>
    public required double MoreThanOne { get; init; }
    /// <summary>Natural logarithm of the probability (density) of all findings.</summary>
    public required double LogEvidence { get; init; }
    /// <summary>P(no component of the car is bad).</summary>
    public required double AllHealthy { get; init; }
    public required int Stretches { get; init; }
    public bool Exact { get; init; } = true;
    public IReadOnlyList<string> LeftOut { get; init; } = [];
    public required IReadOnlyList<Misfit> Misfits { get; init; }
    /// <summary>Null where no single finding, had it come out otherwise, would change the leader.</summary>
    public required Flip? Flip { get; init; }
    /// <summary>Readings and pressure runs that are more likely a slip than not.</summary>
    public IReadOnlyList<SetAside> SetAside { get; init; } = [];
    /// <summary>Sentences: covariates and figures that are missing before a reading can be judged.</summary>
    public required IReadOnlyList<string> Asks { get; init; }
    /// <summary>Sentences: which limits were typical ones, which instrument was assumed.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>A stop note that has not ended.</summary>
/// <param name="Finding">Id of the finding that brought it up last.</param>
public sealed record StopNoteStanding(FaultModels.StopNote Note, string Finding);

public sealed record RankedFault(
    string Component,
    string Title,
    double Bad,
    double Explains,
    double FixesAlone,
    double Prior,
    IReadOnlyList<RankedState> Modes,
    IReadOnlyList<WhyFactor> Why,
    IReadOnlyList<SequenceStep> Sequence,
    IReadOnlyList<string> CausedBy,
    string History)
{
    /// <summary>Per item of the complaint, in its order: what putting this right, and nothing else, would relieve.</summary>
    public IReadOnlyList<double> Relieves { get; init; } = [];

    /// <summary>What it explains is by how far the items raised it (MODEL.md 8, "By their rise").</summary>
    public bool Rough { get; init; }
}

/// <summary>An event that was reported, or a check that failed.</summary>
/// <param name="Weight">Share of the complaint; those of all items sum to 1.</param>
/// <param name="Resolved">P(it has been put right by the work done since).</param>
public sealed record RankedItem(ItemKind Kind, string Name, string Title, IReadOnlyList<string> Findings, double Weight, double Resolved);

/// <summary>What to do next: checks and trials that pay first, and the repairs in the order that costs least.</summary>
public sealed record AdviceAnswered : AssessmentResult
{
    public required IReadOnlyList<CheckAdvice> NextChecks { get; init; }
    public required RepairOrder Plan { get; init; }
    public required double Resolved { get; init; }
    public bool Exact { get; init; } = true;
}

public sealed record RankedState(string Mode, string Title, double Probability);

/// <summary>Kind: finding, work, lay-up, incident, complaint (an earlier one), ran-well. Factor: odds with everything over odds without this one.</summary>
public sealed record WhyFactor(string Kind, string? Id, double Factor);

/// <summary>How it came about: P(bad) of the part then on the car after this finding or work (kind finding, work), the earlier ones counted and no later one.</summary>
public sealed record SequenceStep(string Kind, string Id, double Bad);

/// <summary>The likeliest other outcome of a finding that would make another component lead. Probability: of that outcome, by all other findings.</summary>
public sealed record Flip(string Finding, string Outcome, string Title, double Probability, string Leader);

/// <summary>Saving: expected cost saved, cost of the check already taken off. Pays: at least 3 % of the present cost.</summary>
/// <param name="Minutes">The check and its hook-up, if that is not there yet.</param>
/// <param name="SetupMinutes">The hook-up's part of them.</param>
/// <param name="SameSetup">Other checks worth their own time once that hook-up is there.</param>
public sealed record CheckAdvice(
    string Check,
    double Minutes,
    double SetupMinutes,
    IReadOnlyList<string> SameSetup,
    double Cost,
    double Saving,
    double Bits,
    bool ToolsAtHand,
    bool Pays,
    IReadOnlyList<OutcomeForecast> Outcomes)
{
    /// <summary>A look of seconds counts as one of a minute.</summary>
    public double SavingPerMinute => Saving / Math.Max(1, Minutes);

    /// <summary>A trial of the fault model: <see cref="Check"/> is its id.</summary>
    public bool Trial { get; init; }

    /// <summary>Its hazard is none.</summary>
    public bool Harmless { get; init; }

    /// <summary>It failed before the repair, and shows now whether that helped: id of its last failing finding.</summary>
    public string? Repeats { get; init; }

    /// <summary>Component that is not touched before this look, which would show whether it is bad.</summary>
    public string? Before { get; init; }

    /// <summary>By outcomes; for looking further ahead.</summary>
    internal Prospect? Prospect { get; init; }
}

public sealed record OutcomeForecast(string Outcome, string Title, double Probability, IReadOnlyList<ExplainsAfter> Leaders);

public sealed record ExplainsAfter(string Component, double Explains);

/// <param name="Spread">Standard deviation of the cost.</param>
public sealed record RepairOrder(IReadOnlyList<PlannedRepair> Steps, double ExpectedCost, double Spread, double SpecialistCost, bool CheckFirst);

/// <param name="Success">Probability that the action puts the component right if it is bad.</param>
/// <param name="FixedAfter">P(all items right) after this and the earlier steps.</param>
/// <param name="RelievedAfter">Expected share of the items that is right then.</param>
public sealed record PlannedRepair(string Component, string Action, double Minutes, double Parts, double Cost, double Success, double FixedAfter, double RelievedAfter)
{
    /// <summary>Work on other components in the same labour; minutes, parts and cost are of all of it.</summary>
    public IReadOnlyList<PlannedWork> With { get; init; } = [];

    /// <summary>Check of a few minutes that would show whether the component is bad, and that comes before; null: none, or it is as good as proved.</summary>
    public string? LookFirst { get; init; }
}

public sealed record PlannedWork(string Component, string Action);

public enum MisfitKind
{
    /// <summary>log2(P(e) / P(e | the rest)) above 3: the others speak against it.</summary>
    Conflict,
    /// <summary>Rare by the others' account (P below 1/32) and rare without them too: nothing speaks against it.</summary>
    Surprise,
}

/// <summary>A finding that the others did not let expect. Bits: of a conflict log2(P(e) / P(e | the rest)), of a surprise log2(1 / P(e | the rest)).</summary>
/// <param name="With">Conflict: the finding without which it fits best.</param>
/// <param name="ExplainedBy">Conflict: the fault (component.mode), itself likely enough, under which it is none; null: none does.</param>
public sealed record Misfit(MisfitKind Kind, string Finding, double Bits, string? With, string? ExplainedBy);
