namespace FuelHistory.Contracts;

/// <summary>What is wrong, since when. Since: year, month or day. Always: as long as the present owner has had the car.
/// Course: constant or intermittent. Symptoms asked at the opening become the first findings.</summary>
public sealed record NewComplaint(
    string Title,
    string Since,
    IReadOnlyList<SymptomAnswer> Symptoms,
    string Course = "constant",
    bool Always = false,
    DateTimeOffset? At = null,
    string? Note = null);

/// <summary>Answer: present or absent.</summary>
public sealed record SymptomAnswer(string Symptom, string Answer);

/// <summary>What may be changed on an open complaint; symptoms are findings and are changed there.</summary>
public sealed record ComplaintChange(string Title, string Since, string Course = "constant", bool Always = false, string? Note = null);

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
    UsedFaultModel? ClosedUnder = null);

public sealed record UsedFaultModel(string Id, string Revision);

/// <summary>Result: cured, gone-by-itself or given-up. ProvedBy: ids of the findings that repeated the failing check.</summary>
public sealed record Closing(
    DateTimeOffset At,
    string Result,
    IReadOnlyList<ConfirmedCause> Causes,
    IReadOnlyList<string> ProvedBy,
    string? Note = null);

/// <summary>Component of the fault model, or "elsewhere". Mode where it is known.</summary>
public sealed record ConfirmedCause(string Component, string? Mode = null);

/// <summary>One recorded outcome. Exactly one of Symptom, Check and Component (a part opened and looked at) is given.
/// Outcome: present or absent (symptom), yes or no (yes/no check), an outcome's id, below, within or above (measurement of which
/// only the side of the limits is known), hold, slow, fast or steep-then-flat (leak-down without figures), good or bad (part seen). Reading: a measurement. Points: a leak-down, minutes since the stop and pressure.
/// Conditions: covariates by id. Showed: whether an intermittent complaint showed in that session: yes, no or unknown.
/// Session: label; the day where absent. Confirmed: an implausible value is right all the same.</summary>
public sealed record NewFinding(
    DateTimeOffset At,
    string? Symptom = null,
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
    string? Note = null);

public sealed record PressurePoint(double Minutes, Measured Pressure);

public sealed record Finding(
    EntryHead Entry,
    string VehicleId,
    string? ComplaintId,
    DateTimeOffset At,
    string? Symptom,
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
    string Text);
