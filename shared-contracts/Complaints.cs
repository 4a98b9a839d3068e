namespace FuelHistory.Contracts;

/// <summary>What is wrong, since when. Since: a date as half known as that of work. Always: as long as the present owner has had the car.
/// Course: constant or intermittent. Events asked at the opening become the first findings; Main: the event that is the main trouble.
/// Onset: how it came about (suddenly, slowly, since-work, since-refuelling, since-washing, since-standing).</summary>
public sealed record NewComplaint(
    string Title,
    string Since,
    IReadOnlyList<EventAnswer> Events,
    string Course = "constant",
    bool Always = false,
    DateTimeOffset? At = null,
    string? Note = null,
    string? Main = null,
    string? Onset = null);

/// <summary>Answer: present, absent, only (here, and in no other cell of the event) or always (in every cell that agrees). When, Then: facets of
/// the event; a side left out is open.</summary>
public sealed record EventAnswer(
    string Event,
    string Answer,
    IReadOnlyList<string>? When = null,
    IReadOnlyList<string>? Then = null,
    bool Sure = true);

/// <summary>What may be changed on an open complaint; events are findings and are changed there.</summary>
public sealed record ComplaintChange(
    string Title,
    string Since,
    string Course = "constant",
    bool Always = false,
    string? Note = null,
    string? Main = null,
    string? Onset = null);

/// <param name="ClosedUnder">The fault model that was in use when it was closed; null while it is open, or where that was not noted yet.</param>
public sealed record Complaint(
    EntryHead Entry,
    string VehicleId,
    string Title,
    string Since,
    string Course,
    bool Always,
    DateTimeOffset OpenedAt,
    string? Note,
    Closing? Closed,
    UsedFaultModel? ClosedUnder = null,
    string? Main = null,
    string? Onset = null);

public sealed record UsedFaultModel(string Id, string Revision);

/// <summary>Result: resolved, gone-by-itself or given-up. ProvedBy: ids of the findings that repeated the failing check.</summary>
public sealed record Closing(
    DateTimeOffset At,
    string Result,
    IReadOnlyList<ConfirmedCause> Causes,
    IReadOnlyList<string> ProvedBy,
    string? Note = null);

/// <summary>Component of the fault model, or "elsewhere". Mode where it is known.</summary>
public sealed record ConfirmedCause(string Component, string? Mode = null);

/// <summary>One recorded outcome. Exactly one of Event, Check, Component (a part opened and looked at), Trial and Own is given.
/// Outcome: present, absent, only or always (event), ended, better, same or worse (trial), yes or no (yes/no check), an outcome's id, below, within or above (measurement of which
/// only the side of the limits is known), hold, slow, fast or steep-then-flat (leak-down without figures),
/// good or bad (part seen). Reading: a measurement. Points: a leak-down, minutes since the stop and pressure.
/// Conditions: covariates by id. Showed: whether an intermittent complaint showed in that session: yes, no or unknown.
/// Session: label; the day where absent. Confirmed: an implausible value is right all the same. How: of a part, seen (opened and
/// looked at) or tested (by a method not told); seen where absent.</summary>
public sealed record NewFinding(
    DateTimeOffset At,
    string? Event = null,
    string? Check = null,
    string? Component = null,
    string? Mode = null,
    string? Outcome = null,
    bool Sure = true,
    Measured? Reading = null,
    IReadOnlyList<PressurePoint>? Points = null,
    string? Instrument = null,
    IReadOnlyDictionary<string, Measured>? Conditions = null,
    string? Session = null,
    string Showed = "unknown",
    bool Confirmed = false,
    string? Note = null,
    IReadOnlyList<string>? When = null,
    IReadOnlyList<string>? Then = null,
    TrialDone? Trial = null,
    OwnObservation? Own = null,
    string? How = null);

/// <summary>Something changed for a moment, to see what the complaint then did. Trial: one of the fault model; or Do (another, bypass, unplug,
/// touch, extra-fuel) and Component. StandIn: quality of the part in its place (new, new-unbranded, rebuilt, used, unknown).
/// Back: with the old part back it came-back or stayed-away; absent: that was not tried.</summary>
public sealed record TrialDone(string? Trial = null, string? Do = null, string? Component = null, string StandIn = "used", string? Back = null);

/// <summary>A judgement of one's own, in one's own words, for or against (Direction) a component or a side of the car: fuel-supply, metering,
/// ignition, electrical, air or engine. Strength: slightly, clearly or strongly.</summary>
public sealed record OwnObservation(string Direction, string Strength, string Words, string? Component = null, string? Side = null);

public sealed record PressurePoint(double Minutes, Measured Pressure);

public sealed record Finding(
    EntryHead Entry,
    string VehicleId,
    string? ComplaintId,
    DateTimeOffset At,
    string? Event,
    string? Check,
    string? Component,
    string? Mode,
    string? Outcome,
    bool Sure,
    Measured? Reading,
    IReadOnlyList<PressurePoint>? Points,
    string? Instrument,
    IReadOnlyDictionary<string, Measured>? Conditions,
    string? Session,
    string Showed,
    string? Note,
    string Text,
    IReadOnlyList<string>? When = null,
    IReadOnlyList<string>? Then = null,
    TrialDone? Trial = null,
    OwnObservation? Own = null,
    string? How = null);
