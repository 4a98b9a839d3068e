namespace FuelHistory.Contracts;

/// <summary>A value as it was found, with the unit in which it was read: bar, psi, kPa, MPa, kgf/cm2, V, mV, A, mA, ohm, kohm,
/// ml, l, s, min, °C, °F, km, mi, rpm, %.</summary>
public sealed record Measured(double Value, string Unit);

/// <summary>Money in one currency (ISO 4217 code).</summary>
public sealed record Money(decimal Amount, string Currency);

/// <summary>What every stored entry says about itself. Versions count from 1; the newest is in force unless it is void.</summary>
public sealed record EntryHead(string Id, int Version, DateTimeOffset RecordedAt, string? VoidReason = null);

/// <summary>The reason for which an entry no longer counts; it stays readable under its versions.</summary>
public sealed record VoidRequest(string Reason);
