namespace FuelHistory.Core.FaultModels;

/// <summary>Everything known about one kind of fuel system: what can be bad, what that does to the circuit, what a driver
/// notices and what a check shows. Read from one JSON file; see api/fault-models/fault-model.schema.json.</summary>
public sealed record FaultModel
{
    public required string Schema { get; init; }
    public required string Id { get; init; }
    public required string Title { get; init; }
    public required string Revision { get; init; }
    public string About { get; init; } = "";
    public required IReadOnlyDictionary<string, Source> Sources { get; init; }
    public required FittedQuality BadWhenFitted { get; init; }
    public required ToldWeights Told { get; init; }
    public required AdviceFigures Advice { get; init; }
    public required TypicalUse Use { get; init; }
    public required Elsewhere Elsewhere { get; init; }
    public required IReadOnlyList<Tool> Tools { get; init; }
    public IReadOnlyList<IncidentKind> Incidents { get; init; } = [];
    public required IReadOnlyList<Component> Components { get; init; }
    public required IReadOnlyList<Condition> Conditions { get; init; }
    /// <summary>Facets that events may have, in the order in which they are shown.</summary>
    public IReadOnlyList<Facet> When { get; init; } = [];
    public IReadOnlyList<Facet> Then { get; init; } = [];
    public IReadOnlyList<Event> Events { get; init; } = [];
    public required IReadOnlyList<EventCell> Cells { get; init; }
    public required IReadOnlyList<Check> Checks { get; init; }
    public IReadOnlyList<Trial> Trials { get; init; } = [];
    public IReadOnlyList<FittedOption> Options { get; init; } = [];
    public IReadOnlyList<StopNote> StopNotes { get; init; } = [];

    /// <summary>Titles of the components that a part of an earlier revision was split into; empty where it was not.</summary>
    public IReadOnlyList<string> SplitInto(string id) => [.. Components.Where(c => c.Formerly.Contains(id)).Select(c => c.Title)];
}

/// <summary>Where a number comes from. <see cref="Kind"/>: published, excerpt, common-practice, judgement, memory.</summary>
public sealed record Source
{
    public required string Kind { get; init; }
    public required string Cite { get; init; }
}

/// <summary>Probability that a part is bad on the day it is fitted, or fails within months, by quality (MODEL.md 2).</summary>
public sealed record FittedQuality
{
    public required double New { get; init; }
    public required double NewUnbranded { get; init; }
    public required double Rebuilt { get; init; }
    public required double Used { get; init; }
    public required double Unknown { get; init; }
    public required string Source { get; init; }
}

/// <summary>How far an entry is believed that nobody saw being done: weight of "it was fitted".</summary>
public sealed record ToldWeights
{
    public required double Told { get; init; }
    public required double Invoice { get; init; }
    public required string Source { get; init; }
}

/// <summary>Money in the settings' currency; minutes of labour.</summary>
public sealed record AdviceFigures
{
    public required double NoneCost { get; init; }
    public required double RatePerMinute { get; init; }
    public required double RetestMinutes { get; init; }
    public required string Source { get; init; }
}

/// <summary>Distance per year of use assumed where the record has no odometer readings.</summary>
public sealed record TypicalUse
{
    public required double KmPerYear { get; init; }
    public required string Source { get; init; }
}

/// <summary>What no modelled component covers: prior probability that something is wrong there, and P(cell of an event | that).</summary>
public sealed record Elsewhere
{
    public required string Title { get; init; }
    public required double Prior { get; init; }
    public required double P { get; init; }
    public IReadOnlyDictionary<string, double> Cells { get; init; } = new Dictionary<string, double>();
    public required string Source { get; init; }
}

public sealed record Tool
{
    public required string Id { get; init; }
    public required string Title { get; init; }
}

/// <summary>Something that happened to the car (ran dry, back-fire, ...); modes name it with an odds multiplier.</summary>
public sealed record IncidentKind
{
    public required string Id { get; init; }
    public required string Title { get; init; }
}

/// <summary>A facet of events: when it happens (cold, hot, idle, ...), or what follows (restarts at once, ...).</summary>
public sealed record Facet
{
    public required string Id { get; init; }
    public required string Title { get; init; }
}
