namespace FuelHistory.Contracts;

/// <summary>What is most likely now. Probabilities are 0..1. Items: what the complaint consists of. Resolved: probability that all of them have
/// been put right by the work done since; 0 before any. NoneOfThese: share of the items that would stand though every component of the
/// model were put right. MoreThanOne: share that takes more than one repair. OtherCause: probability of a cause that is not in this model.
/// Figures: how chances are said (words, percent or odds).
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
    IReadOnlyList<ComplaintItem> Items,
    IReadOnlyList<RankedComponent> Ranking,
    double Resolved,
    double NoneOfThese,
    double MoreThanOne,
    double OtherCause,
    double AllHealthy,
    IReadOnlyList<Disagreement> Disagreements,
    Flip? Flip,
    IReadOnlyList<string> Asks,
    IReadOnlyList<string> Notes,
    int Rounds,
    string Currency,
    string Figures = PlainFigures.Words)
{
    /// <summary>What must not be done now; read it before all else.</summary>
    public IReadOnlyList<StopNote> StopNotes { get; init; } = [];

    /// <summary>Readings and pressure runs taken for a slip of hand or hook-up: they count for next to nothing.</summary>
    public IReadOnlyList<Slip> Slips { get; init; } = [];
}

/// <summary>Probability: that it was a slip, above 0.5.</summary>
public sealed record Slip(string Finding, double Probability, string Sentence);

/// <summary>What to do next. Money in Currency. Outcome as of the assessment.</summary>
public sealed record Advice(
    string ComplaintId,
    string AsOf,
    DateTimeOffset? KnownAt,
    string FaultModel,
    string FaultModelRevision,
    string Outcome,
    bool Exact,
    IReadOnlyList<NextCheck> NextChecks,
    RepairPlan? Plan,
    string Currency,
    string Figures = PlainFigures.Words)
{
    /// <summary>What must not be done now; read it before all else.</summary>
    public IReadOnlyList<StopNote> StopNotes { get; init; } = [];
}

/// <summary>Text: what not to do, and what to do instead. Why: the finding that brought it up. Until: what ends it, in words.
/// Forbids: current, pressure, cranking, running, road; no check, trial or repair that involves one of them is proposed.</summary>
public sealed record StopNote(string Id, string Title, string Text, string Why, string Until, IReadOnlyList<string> Forbids);

/// <summary>An event that was reported, or a check that failed (Kind: event, check or part). Name: its id. Weight: share of the complaint; those of
/// all items sum to 1. Resolved: probability that it has been put right by the work done since.</summary>
public sealed record ComplaintItem(string Kind, string Name, string Title, IReadOnlyList<string> Findings, double Weight, double Resolved);

/// <summary>Bad: probability that the component is bad now. Explains: share of the complaint that putting it right, and nothing else, would end.
/// FixesAlone: probability that this would end all of it. Relieves: the same per item, in the order of Items. Sentence: what a mechanic
/// would say of it. Rough: Explains, FixesAlone and Relieves are by how far the items raised the part, which stands behind those that they raised most.</summary>
public sealed record RankedComponent(
    string Component,
    string Title,
    double Bad,
    double Explains,
    double FixesAlone,
    double Prior,
    IReadOnlyList<RankedMode> Modes,
    IReadOnlyList<Reason> Why,
    IReadOnlyList<SequenceStep> Sequence,
    IReadOnlyList<string> CausedBy,
    string History,
    IReadOnlyList<double> Relieves,
    string Sentence = "",
    bool Rough = false);

public sealed record RankedMode(string Mode, string Title, double Probability);

/// <summary>Factor by which a finding or record entry changed the odds of the component: with everything, over without that one. Sentence: the same
/// as a mechanic would say it.
/// Kind: finding, work, lay-up, incident, complaint (an earlier one), ran-well. Id: of the entry.</summary>
public sealed record Reason(string Kind, string? Id, string Text, double Factor, string Sentence);

/// <summary>How it came about, in order of time: P(bad) of the part then on the car, after this finding or work and before the next.
/// Only steps that moved it are there; before the first it was Prior.</summary>
public sealed record SequenceStep(string Kind, string Id, string Text, double Bad);

/// <summary>The likeliest other outcome of one finding that would put another component first. Probability: of that outcome, by all other findings.</summary>
public sealed record Flip(string Finding, string Outcome, double Probability, Leader Leader, string Sentence);

/// <summary>A check not yet done. Minutes: with its hook-up (SetupMinutes of them), if that is not there yet; SameSetup: titles of other checks worth
/// their time on the same hook-up. Saving: expected cost saved by doing it first. Bits: information about which repair helps. Trial: it is a
/// trial, and Check its id. Repeats: it failed before the last repair, and is made again to show whether that helped: id of that finding.
/// Why: sentence, where it comes first whatever it saves.</summary>
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
    IReadOnlyList<CheckOutcome> Outcomes,
    bool Trial = false,
    string? Repeats = null,
    string Why = "");

/// <summary>What an outcome would do: how likely it is, and the leaders after it.</summary>
public sealed record CheckOutcome(string Outcome, string Title, double Probability, IReadOnlyList<Leader> Leaders);

public sealed record Leader(string Component, string Title, double Explains);

/// <summary>Repairs in order until the specialist is cheaper. Spread: standard deviation of the
/// cost. Advice: one sentence saying whether to check or to repair first.</summary>
public sealed record RepairPlan(IReadOnlyList<RepairStep> Steps, double ExpectedCost, double Spread, double SpecialistCost, string Advice);

/// <summary>Success: probability that the action puts the component right if it is bad. FixedAfter: that all of the complaint is right after
/// this and the earlier steps. RelievedAfter: share of it that is right then. With: other components that go bad along with it and are put
/// right in the same labour; Minutes, Parts and Cost are of all of it. LookFirst: title of a look of a few minutes that comes before.</summary>
public sealed record RepairStep(string Component, string Title, string Action, double Minutes, double Parts, double Cost, double Success, double FixedAfter, double RelievedAfter)
{
    public IReadOnlyList<StepPart> With { get; init; } = [];

    public string? LookFirst { get; init; }
}

public sealed record StepPart(string Component, string Title, string Action);

/// <summary>A finding that the others did not let expect. Kind: conflict (they speak against it, by Bits above 3; With: the finding without
/// which it fits best; ExplainedBy: a fault under which it would be none) or surprise (rare anyway: Bits of surprise above 5).</summary>
public sealed record Disagreement(string Kind, string Finding, double Bits, string? With, string? ExplainedBy, string Sentence);
