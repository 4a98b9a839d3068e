namespace FuelHistory.Contracts;

/// <summary>The timeline of one vehicle, newest first. Kind: vehicle, odometer, lay-up, incident, work, complaint, finding, set-aside, closing.
/// Date as entered; Void entries are listed with the reason.</summary>
public sealed record RecordLine(string Kind, string Id, int Version, string Date, string Text, string? Detail, string? ComplaintId, string? VoidReason);

public sealed record RecordView(Vehicle Vehicle, IReadOnlyList<RecordLine> Lines);
