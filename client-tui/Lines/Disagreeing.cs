using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>Findings that the others speak against, told apart from such as are only rare.</summary>
internal static class Disagreeing
{
    public static IEnumerable<Disagreement> Conflicts(Assessment assessment) => assessment.Disagreements.Where(each => each.Kind is not "surprise");

    public static IEnumerable<Disagreement> Surprises(Assessment assessment) => assessment.Disagreements.Where(each => each.Kind is "surprise");
}
