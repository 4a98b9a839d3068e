namespace FuelHistory.Core.FaultModels;

/// <summary>A quantity of the circuit that faults push. Level 0 is as it should be; Min..Max within -3..3.</summary>
public sealed record Condition
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    public int Min { get; init; }
    public int Max { get; init; }
    /// <summary>Step to probability, for causes that have no owner in the model.</summary>
    public IReadOnlyDictionary<string, double> Background { get; init; } = new Dictionary<string, double>();
    public required IReadOnlyList<Effect> Effects { get; init; }
    public required string Source { get; init; }
}

/// <summary>One cause of a condition: a mode ("component.mode", with <see cref="Adds"/>: step to probability) or another
/// condition (its id, with <see cref="At"/>: level to step to probability).</summary>
public sealed record Effect
{
    public required string Of { get; init; }
    public IReadOnlyDictionary<string, double>? Adds { get; init; }
    public IReadOnlyDictionary<string, IReadOnlyDictionary<string, double>>? At { get; init; }
    public string? Source { get; init; }
}

/// <summary>What a driver notices: it has cells, one per way in which it may happen (MODEL.md 4).</summary>
public sealed record Event
{
    /// <summary>Cells are told apart by the bits of a number.</summary>
    public const int MaxCells = 64;

    public required string Id { get; init; }
    public required string Title { get; init; }
    /// <summary>The question as it is put to the driver.</summary>
    public required string Ask { get; init; }
    /// <summary>When it happens: starting, idling, driving, stopping or other.</summary>
    public required string Kind { get; init; }
    /// <summary>What a finding of an earlier revision meant: its id, and the facets that it stands for now.</summary>
    public IReadOnlyDictionary<string, Facets> Formerly { get; init; } = new Dictionary<string, Facets>();
    public required string Source { get; init; }
}

/// <summary>Facets of an event: an empty list leaves that side open.</summary>
public sealed record Facets
{
    public IReadOnlyList<string> When { get; init; } = [];
    public IReadOnlyList<string> Then { get; init; } = [];
}

/// <summary>One way in which an event happens. Noisy-OR over its causes; the cells of one event share the hidden threshold of each arrow.
/// A cell without <see cref="Event"/> is an event of its own.</summary>
public sealed record EventCell
{
    public required string Id { get; init; }
    public string? Event { get; init; }
    public string? When { get; init; }
    public string? Then { get; init; }
    public required string Title { get; init; }
    /// <summary>The question as it is put to the driver.</summary>
    public required string Ask { get; init; }
    public required double Background { get; init; }
    /// <summary>A car that does this does not drive: on the last day that it drove it did not do it.</summary>
    public bool Immobilises { get; init; }
    public required IReadOnlyList<Cause> Causes { get; init; }
    public required string Source { get; init; }

    /// <summary>It is one of those that facets mean; a side left open means all.</summary>
    public bool Agrees(IReadOnlyCollection<string> when, IReadOnlyCollection<string> then) =>
        (when.Count == 0 || (When is not null && when.Contains(When))) && (then.Count == 0 || (Then is not null && then.Contains(Then)));
}

/// <summary>One cause of an event or of a yes answer: a mode (with <see cref="P"/>) or a condition (with <see cref="At"/>: level to probability).</summary>
public sealed record Cause
{
    public required string Of { get; init; }
    public double? P { get; init; }
    public IReadOnlyDictionary<string, double>? At { get; init; }
    public string? Source { get; init; }
    /// <summary>Largest of the writers' figures divided by the smallest, 1 or more: how far the figure is to be trusted; null: one source.</summary>
    public double? Spread { get; init; }
}
