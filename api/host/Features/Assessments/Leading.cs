using FuelHistory.Contracts;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>An assessment cut down to its leaders and their main reasons, so that a phone takes it at once.</summary>
internal static class Leading
{
    private const int MaxComponents = 9, AlwaysShown = 3, MaxReasons = 4, MaxNotes = 6;

    private const double Explaining = 0.01, Suspicious = 0.05;

    public static Assessment Of(Assessment all) => all with
    {
        Ranking = [.. all.Ranking.Where((r, i) => i < AlwaysShown || r.Explains >= Explaining || r.Bad >= Suspicious).Take(MaxComponents)
            .Select(r => r with { Why = [.. r.Why.Take(MaxReasons)], Sequence = [.. r.Sequence.TakeLast(MaxReasons)] })],
        Notes = [.. all.Notes.Take(MaxNotes)],
    };
}
