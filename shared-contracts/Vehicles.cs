namespace FuelHistory.Contracts;

/// <summary>A car. Year: "1981", or "1981~" for about. InUseSince: a date as half known as that of work; the year's middle where absent.
/// OdometerUnit: km or mi. RecordComplete: nothing was done to the car that the record does not name.
/// Make, Model: as limits are looked up by. Options: option id of the fault model to choice id; one that is not there is not known.</summary>
public sealed record NewVehicle(
    string Name,
    string Year,
    string System,
    string OdometerUnit = "km",
    string? Engine = null,
    string? InUseSince = null,
    bool RecordComplete = false,
    string? Note = null,
    string? Make = null,
    string? Model = null,
    IReadOnlyDictionary<string, string>? Options = null);

public sealed record Vehicle(
    EntryHead Entry,
    string Name,
    string Year,
    string System,
    string OdometerUnit,
    string? Engine,
    string? InUseSince,
    bool RecordComplete,
    string? Note,
    bool Archived,
    int OpenComplaints = 0,
    string? Make = null,
    string? Model = null,
    IReadOnlyDictionary<string, string>? Options = null);

/// <summary>A dated odometer reading. Clock change: Value is what the old clock showed, NewClock what the new one starts at.</summary>
public sealed record NewOdometer(string Date, Measured Reading, Measured? NewClock = null, string? Note = null);

public sealed record Odometer(EntryHead Entry, string VehicleId, string Date, Measured Reading, Measured? NewClock, string? Note);

/// <summary>A time in which the car stood. From and To may be half known; "unknown" where nobody knows. To is absent while it still stands.</summary>
public sealed record NewLayUp(string From, string? To = null, string? Note = null);

public sealed record LayUp(EntryHead Entry, string VehicleId, string From, string? To, string? Note);

/// <summary>Something that happened to the car. Kind: an incident id of the fault model (ran-dry, back-fire, ...).</summary>
public sealed record NewIncident(string Date, string Kind, string? Note = null);

public sealed record Incident(EntryHead Entry, string VehicleId, string Date, string Kind, string? Note);
