namespace FuelHistory.Core.FaultModels;

/// <summary>Words that all fault models and records have in common, each with its title: the linter, the views, the rules and the answers
/// take them from here.</summary>
public static class CommonWords
{
    /// <summary>Sides of a car: a component belongs to one, and an observation of one's own may speak of one.</summary>
    public static IReadOnlyList<Facet> Sides { get; } = Of(
        ("fuel-supply", "Fuel supply"), ("metering", "Metering of the fuel"), ("ignition", "Ignition"), ("electrical", "Electrical feed"), ("air", "Air"),
        ("engine", "The engine itself"));

    /// <summary>How a trouble may have come about.</summary>
    public static IReadOnlyList<Facet> Onsets { get; } = Of(
        ("suddenly", "Suddenly"), ("slowly", "Slowly, over weeks or years"), ("since-work", "Since work was done"), ("since-refuelling", "Since refuelling"),
        ("since-washing", "After washing or rain"), ("since-standing", "After standing for long"));

    /// <summary>What the complaint did while something was changed for a moment.</summary>
    public static IReadOnlyList<Facet> TrialResults { get; } = Of(
        ("ended", "the trouble ended"), ("better", "better, not ended"), ("same", "no change"), ("worse", "worse"));

    /// <summary>What may be done for a moment.</summary>
    public static IReadOnlyList<Facet> Doings { get; } = Of(
        ("another", "another one in its place"), ("bypass", "fed or bypassed directly"), ("unplug", "unplugged or blanked off"),
        ("touch", "wiggled, struck, warmed or cooled"), ("extra-fuel", "extra fuel given"));

    /// <summary>On which side of its limits a measurement lay, where no figure is known.</summary>
    public static IReadOnlyList<Facet> LimitWords { get; } = Of(("below", "below the limits"), ("within", "within limits"), ("above", "above the limits"));

    /// <summary>How much a check or trial may hurt, the least first.</summary>
    public static IReadOnlyList<string> Hazards { get; } = ["none", "low", "medium", "high"];

    public static string[] Ids(IReadOnlyList<Facet> words) => [.. words.Select(w => w.Id)];

    /// <summary>Its title; a word that is not there stands for itself.</summary>
    public static string Title(IReadOnlyList<Facet> words, string? id) => words.FirstOrDefault(w => w.Id == id)?.Title ?? id ?? "";

    private static IReadOnlyList<Facet> Of(params (string Id, string Title)[] words) => [.. words.Select(w => new Facet { Id = w.Id, Title = w.Title })];
}
