namespace FuelHistory.Host.Features.Assessments;

/// <summary>Probabilities as people say them.</summary>
internal static class Chance
{
    public static string Of(double p) => p switch
    {
        >= 0.98 => "almost certainly",
        >= 0.88 => "about nine in ten",
        >= 0.78 => "about four in five",
        >= 0.62 => "about two in three",
        >= 0.45 => "about one in two",
        >= 0.29 => "about one in three",
        >= 0.22 => "about one in four",
        >= 0.15 => "about one in six",
        >= 0.08 => "about one in ten",
        >= 0.04 => "about one in twenty",
        >= 0.015 => "about one in fifty",
        _ => "hardly ever",
    };
}
