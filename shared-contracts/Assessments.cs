namespace FuelHistory.Contracts;

/// <summary>What is most likely now. Probabilities are 0..1; money in the settings' currency. Gone: probability that the complaint is
/// gone already, by the repairs made; 0 before any. NoneOfThese: that it would stay though every component of the model were put right.
/// Outcome: answered, contradiction (Contradicting holds the smallest set of findings that cannot be true together) or too-large.</summary>
public sealed record Assessment(
    string ComplaintId,
    string AsOf,
    DateTimeOffset? KnownAt,
    string FaultModel,
    string FaultModelRevision,
    string Outcome,
    bool Exact,
    IReadOnlyList<string> LeftOut,
    IReadOnlyList<string> Contradicting,
    IReadOnlyList<RankedComponent> Ranking,
    double Gone,
    double NoneOfThese,
    double MoreThanOne,
    double Elsewhere,
    double AllHealthy,
    IReadOnlyList<NextCheck> NextChecks,
    RepairPlan? Plan,
    IReadOnlyList<Disagreement> Disagreements,
    Flip? Flip,
    IReadOnlyList<string> Asks,
    IReadOnlyList<string> Notes,
    int Stretches,
    string Currency)
{
    /// <summary>Readings and pressure runs taken for a slip of hand or hook-up: they count for next to nothing.</summary>
    public IReadOnlyList<SetAside> SetAside { get; init; } = [];
}

/// <summary>Probability: that it was a slip, above 0.5.</summary>
public sealed record SetAside(string Finding, double Probability, string Sentence);

/// <summary>Bad: probability that the component is bad now. Cure: probability that putting it right, and nothing else, ends the complaint.</summary>
public sealed record RankedComponent(
    string Component,
    string Title,
    double Bad,
    double Cure,
    double Prior,
    IReadOnlyList<RankedMode> Modes,
    IReadOnlyList<Reason> Why,
    IReadOnlyList<SequenceStep> Sequence,
    IReadOnlyList<string> CausedBy,
    string History);

public sealed record RankedMode(string Mode, string Title, double Probability);

/// <summary>Factor by which a finding or record entry changed the odds of the component: with everything, over without that one.
/// Kind: finding, work, lay-up, incident, complaint (an earlier one), ran-well. Id: of the entry.</summary>
public sealed record Reason(string Kind, string? Id, string Text, double Factor, string Sentence);

/// <summary>How it came about, in order of time: P(bad) of the part then on the car, after this finding or work and before the next.
/// Only steps that moved it are there; before the first it was Prior.</summary>
public sealed record SequenceStep(string Kind, string Id, string Text, double Bad);

/// <summary>The likeliest other outcome of one finding that would put another component first. Probability: of that outcome, by all other findings.</summary>
public sealed record Flip(string Finding, string Outcome, double Probability, Leader Leader, string Sentence);

/// <summary>A check not yet done. Minutes: with its hook-up (SetupMinutes of them), if that is not there yet; SameSetup: titles of other checks worth
/// their time on the same hook-up. Saving: expected cost saved by doing it first. Bits: information about which repair cures.</summary>
public sealed record NextCheck(
    string Check,
    string Title,
    double Minutes,
    double SetupMinutes,
    IReadOnlyList<string> SameSetup,
    IReadOnlyList<string> Tools,
    bool ToolsAtHand,
    string Hazard,
    IReadOnlyList<string> Cautions,
    double Cost,
    double Saving,
    double SavingPerMinute,
    double Bits,
    bool Pays,
    IReadOnlyList<CheckOutcome> Outcomes);

/// <summary>What an outcome would do: how likely it is, and the leaders after it.</summary>
public sealed record CheckOutcome(string Outcome, string Title, double Probability, IReadOnlyList<Leader> Leaders);

public sealed record Leader(string Component, string Title, double Cure);

/// <summary>Repairs in order until the specialist is cheaper. Spread: standard deviation of the
/// cost. Advice: one sentence saying whether to check or to repair first.</summary>
public sealed record RepairPlan(IReadOnlyList<RepairStep> Steps, double ExpectedCost, double Spread, double SpecialistCost, string Advice);

/// <summary>Success: probability that the action puts the component right if it is bad. GoneAfter: that the complaint is gone after this and
/// the earlier steps.</summary>
public sealed record RepairStep(string Component, string Title, string Action, double Minutes, double Parts, double Cost, double Success, double GoneAfter);

/// <summary>A finding that the others did not let expect. Kind: conflict (they speak against it, by Bits above 3; With: the finding without
/// which it fits best; ExplainedBy: a fault under which it would be none) or surprise (rare anyway: Bits of surprise above 5).</summary>
public sealed record Disagreement(string Kind, string Finding, double Bits, string? With, string? ExplainedBy, string Sentence);
