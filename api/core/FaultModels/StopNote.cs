namespace FuelHistory.Core.FaultModels;

/// <summary>What must not be done while something dangerous stands; said before all else.</summary>
public sealed record StopNote
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    /// <summary>Any one of these brings it up.</summary>
    public required IReadOnlyList<StopSign> When { get; init; }
    /// <summary>What not to do, and what to do instead.</summary>
    public required string Say { get; init; }
    /// <summary>What ends it, in words.</summary>
    public required string Until { get; init; }
    /// <summary>Any one of these, found after the sign, ends it; an event that brought it up is ended by being absent as well.</summary>
    public IReadOnlyList<StopSign> EndedBy { get; init; } = [];
    /// <summary>Tags of <see cref="Involved"/>.</summary>
    public required IReadOnlyList<string> Forbids { get; init; }
    public required string Source { get; init; }
}

/// <summary>One thing that may be found or done: exactly one of event, check (with outcomes), part and work is there.</summary>
public sealed record StopSign
{
    /// <summary>Present in when, absent in endedBy.</summary>
    public string? Event { get; init; }
    public string? Check { get; init; }
    public IReadOnlyList<string> Outcomes { get; init; } = [];
    /// <summary>component, or component.mode: seen bad in when, seen good in endedBy.</summary>
    public string? Part { get; init; }
    /// <summary>Component that was fitted, rebuilt, cleaned or adjusted; in endedBy alone.</summary>
    public string? Work { get; init; }
}

/// <summary>What a check or a piece of work involves, and a stop note may forbid.</summary>
public static class Involved
{
    /// <summary>Battery voltage on or off by hand where vapour may be: key, bridge, test lead, battery clamps.</summary>
    public const string Current = "current";
    /// <summary>The fuel system is put under pressure by its pump.</summary>
    public const string Pressure = "pressure";
    /// <summary>The starter turns the engine.</summary>
    public const string Cranking = "cranking";
    /// <summary>The engine runs.</summary>
    public const string Running = "running";
    /// <summary>The car is driven.</summary>
    public const string Road = "road";

    public static IReadOnlyList<string> Tags { get; } = [Current, Pressure, Cranking, Running, Road];
}
