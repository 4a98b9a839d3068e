namespace FuelHistory.Contracts;

/// <summary>What causes what in one fuel system and what tells it apart, worked out from the fault model's file alone: each fault alone on a
/// car with nothing else wrong, gauges without error.</summary>
/// <param name="Pairs">Faults that the best check hardly separates, nearest first.</param>
public sealed record FaultModelStudy(
    string Id,
    string Title,
    string Revision,
    string About,
    IReadOnlyList<StudiedFault> Faults,
    IReadOnlyList<StudiedCondition> Conditions,
    IReadOnlyList<FaultPair> Pairs);

/// <param name="Acts">Conditions that it moves by itself.</param>
/// <param name="CausedBy">Faults that bring this one on.</param>
/// <param name="Events">Those that it raises, with the probability that each shows; the likeliest first.</param>
/// <param name="Checks">Those that tell something, with their information in bits (0 to 1) about whether the fault is there; the best first.</param>
public sealed record StudiedFault(
    string Component,
    string Mode,
    string Title,
    string Trust,
    string Source,
    IReadOnlyList<NamedThing> Acts,
    IReadOnlyList<NamedThing> CausedBy,
    IReadOnlyList<StudiedFigure> Events,
    IReadOnlyList<StudiedFigure> Checks);

/// <param name="Causes">Faults and conditions that move it.</param>
public sealed record StudiedCondition(string Id, string Title, IReadOnlyList<NamedThing> Causes);

public sealed record StudiedFigure(string Id, string Title, double Value);

/// <param name="Apart">0: no check separates them; 1: one does for sure (total variation of its outcomes).</param>
/// <param name="Check">The check that separates them best.</param>
/// <param name="Why">What the model's authors say of it; null where they say nothing.</param>
public sealed record FaultPair(NamedThing A, NamedThing B, double Apart, NamedThing Check, string? Why);
