namespace FuelHistory.Contracts;

/// <summary>A proposed check or trial that is not wanted: give one of Check and Trial. Reason: not-fitted or no-tool (for the vehicle, until
/// voided), or not-today. Until: with not-today the last day on which it counts; the day of the entry where absent.</summary>
public sealed record NewSetAside(string Reason, string? Check = null, string? Trial = null, string? Until = null, string? Note = null);

/// <param name="Title">Of the check or trial.</param>
public sealed record SetAside(
    EntryHead Entry, string VehicleId, string ComplaintId, string? Check, string? Trial, string Title, string Reason, string? Until, string? Note);
