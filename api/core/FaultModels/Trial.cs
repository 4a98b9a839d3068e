using System.Text.Json.Serialization;
using FuelHistory.Core.Assessment;

namespace FuelHistory.Core.FaultModels;

/// <summary>Something that may be changed for a moment, to see what the complaint then does. <see cref="Do"/>: another, bypass, unplug,
/// touch or extra-fuel; to a component, or with conditions that are then right.</summary>
public sealed record Trial
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    public required string Do { get; init; }
    /// <summary>Kinds of events that it can be tried on (starting, ...); empty: all.</summary>
    public IReadOnlyList<string> Kinds { get; init; } = [];
    public string? Component { get; init; }
    /// <summary>Ids of conditions that are as they should be during the trial.</summary>
    public IReadOnlyList<string> Right { get; init; } = [];
    /// <summary>Ids of further components whose contact faults it may make good for the moment.</summary>
    public IReadOnlyList<string> Moves { get; init; } = [];
    /// <summary>Quality of the part that is usually put in its place: new, used, ...</summary>
    public string StandIn { get; init; } = "used";
    public required double Minutes { get; init; }
    public string? Setup { get; init; }
    public double SetupMinutes { get; init; }
    public required IReadOnlyList<string> Tools { get; init; }
    /// <summary>none, low, medium or high.</summary>
    public required string Hazard { get; init; }
    public required IReadOnlyList<string> Cautions { get; init; }
    public required IReadOnlyList<string> Steps { get; init; }
    /// <summary>Checks of an earlier revision that this trial is in truth: check id to outcome to result (ended, better, same, worse).</summary>
    public IReadOnlyDictionary<string, IReadOnlyDictionary<string, string>> Formerly { get; init; } = new Dictionary<string, IReadOnlyDictionary<string, string>>();
    public required string Source { get; init; }
    /// <summary>Components without which it makes no sense; where absent: the component, or any of those behind the conditions.</summary>
    public IReadOnlyList<string>? Needs { get; init; }
    /// <summary>Tags of <see cref="Involved"/>: what a stop note may forbid.</summary>
    public IReadOnlyList<string> Involves { get; init; } = [];

    /// <summary>It can be tried on events of this kind; a cell that is an event of its own has none.</summary>
    public bool Suits(string? kind) => Kinds.Count == 0 || kind is null || Kinds.Contains(kind);

    [JsonIgnore]
    public TrialKind Kind => Do switch
    {
        "another" => TrialKind.Another,
        "bypass" => TrialKind.Bypassed,
        "unplug" => TrialKind.Unplugged,
        "touch" => TrialKind.Touched,
        _ => TrialKind.ExtraFuel,
    };
}
