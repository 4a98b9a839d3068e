namespace FuelHistory.Host.Features.Findings;

/// <summary>Sides of a car and ways in which trouble comes about, in words.</summary>
internal static class CarSides
{
    public static readonly IReadOnlyDictionary<string, string> Titles = new Dictionary<string, string>
    {
        ["fuel-supply"] = "Fuel supply",
        ["metering"] = "Metering",
        ["ignition"] = "Ignition",
        ["electrical"] = "Electrical feed",
        ["air"] = "Air",
        ["engine"] = "Engine",
    };

    public static readonly IReadOnlyDictionary<string, string> Onsets = new Dictionary<string, string>
    {
        ["suddenly"] = "Suddenly",
        ["slowly"] = "Slowly, over weeks or longer",
        ["since-work"] = "Since work was done",
        ["since-refuelling"] = "Since refuelling",
        ["since-washing"] = "Since the engine was washed",
        ["since-standing"] = "Since it stood for a time",
    };
}
