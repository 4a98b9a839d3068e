using System.Text.Json;
using System.Text.Json.Serialization;

namespace FuelHistory.Tests.FaultModels.Rates;

/// <summary>published-rates.json and rate-sources.json: published ratios, and what in the fault models stands beside them.</summary>
internal sealed record PublishedRates
{
    private static readonly JsonSerializerOptions Strict = new(JsonSerializerDefaults.Web)
    {
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
    };

    private static readonly Lazy<PublishedRates> Once = new(() => Read<PublishedRates>("published-rates.json"));

    private static readonly Lazy<Dictionary<string, RateSource>> OnceSources =
        new(() => Read<Dictionary<string, RateSource>>("rate-sources.json"));

    public static PublishedRates All => Once.Value;

    public static IReadOnlyDictionary<string, RateSource> Sources => OnceSources.Value;

    /// <summary>Name to the ids of fault models.</summary>
    public required IReadOnlyDictionary<string, IReadOnlyList<string>> Systems { get; init; }
    /// <summary>What the cars of the statistics have, by fault model: parts of which a car has only one are not counted twice.</summary>
    public required IReadOnlyDictionary<string, RatedFitting> Fitted { get; init; }
    /// <summary>Name to picks: a part, part.mode, side:x; with ! before it, not that.</summary>
    public required IReadOnlyDictionary<string, IReadOnlyList<string>> Groups { get; init; }
    public required IReadOnlyList<RateCheck> Checks { get; init; }

    private static T Read<T>(string file)
    {
        string folder = Path.Combine(ModelFile.Folder, "..", "..", "tests", "FaultModels", "Rates");
        return JsonSerializer.Deserialize<T>(File.ReadAllText(Path.Combine(folder, file)), Strict)!;
    }
}

internal enum ReadHow
{
    /// <summary>A part of the page was read; the figure stands in that part.</summary>
    Excerpt,

    /// <summary>Believed, the page was not seen.</summary>
    Memory,
}

/// <param name="By">Who published it, in a few words; two sources by the same one count once.</param>
/// <param name="Cite">Title, body, year, table, address.</param>
internal sealed record RateSource(ReadHow Kind, string By, string Cite);

internal sealed record RatedFitting(IReadOnlyDictionary<string, string> Options, IReadOnlyList<string> Absent);

/// <summary>Years since first use, and true distance.</summary>
internal sealed record RatedCar(int Years, double Km);

internal enum Counted
{
    Breakdowns,
    Noticed,
    Present,

    /// <summary>Years of use at which half of the new parts have failed; no ratio of two groups.</summary>
    HalfLife,

    /// <summary>Chance that a new part is bad; no ratio of two groups.</summary>
    BadWhenNew,

    /// <summary>Odds that adjusting fails, as often as it would be called for; no ratio of two groups.</summary>
    AdjustingFails,
}

internal sealed record RateCheck
{
    public required string Id { get; init; }
    /// <summary>One, or two where numerator and denominator were published apart.</summary>
    public required IReadOnlyList<string> Sources { get; init; }
    /// <summary>The published figures, in words.</summary>
    public required string Of { get; init; }
    public required double Published { get; init; }
    /// <summary>Only an order was published: the ratio is this or more.</summary>
    public bool AtLeast { get; init; }
    /// <summary>Share of the published ratio that a model can mean; <see cref="Allowed"/> says what else was counted.</summary>
    public double Meant { get; init; } = 1;
    public required Counted Counts { get; init; }
    public required RatedCar Car { get; init; }
    /// <summary>The denominator's car, where the ratio is one of two ages.</summary>
    public RatedCar? UnderCar { get; init; }
    /// <summary>What the cars have otherwise than the list of fittings says.</summary>
    public IReadOnlyDictionary<string, string> Options { get; init; } = new Dictionary<string, string>();
    /// <summary>Names of groups.</summary>
    public required IReadOnlyList<string> Over { get; init; }
    public IReadOnlyList<string> Under { get; init; } = [];
    /// <summary>Name of a list of systems.</summary>
    public required string Models { get; init; }
    /// <summary>The model may differ by this factor.</summary>
    public required double Factor { get; init; }
    /// <summary>How it was allowed for that cars are young, that only breakdowns count, how they are recorded; why this factor.</summary>
    public required string Allowed { get; init; }
    /// <summary>Fault models that are known to differ by more.</summary>
    public IReadOnlyList<string> Misses { get; init; } = [];
    /// <summary>Where there are misses: by how much, and what is thought of it.</summary>
    public string? Why { get; init; }

    public double Low => Published * Meant / Factor;

    public double High => AtLeast ? double.PositiveInfinity : Published * Meant * Factor;

    public bool Met(double ratio) => ratio >= Low && ratio <= High;
}
