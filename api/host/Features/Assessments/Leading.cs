using FuelHistory.Contracts;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>An assessment cut down to its leaders and their main reasons, so that a phone takes it at once.</summary>
internal static class Leading
{
    /// <summary>No short answer is longer than this.</summary>
    public const int MostBytes = 20_000;

    private const int AlwaysShown = 3, MaxNotes = 6;

    private const double Explaining = 0.01, Suspicious = 0.05;

    /// <summary>How many components and reasons of each, the fullest first; a later one where the answer would be too long.</summary>
    private static readonly (int Components, int Reasons)[] Sizes = [(9, 4), (9, 3), (8, 3), (7, 3), (6, 2), (5, 2), (AlwaysShown, 2), (AlwaysShown, 1)];

    /// <summary>As it is written, cut until it is short enough.</summary>
    public static byte[] Of(Assessment all, Func<Assessment, byte[]> written)
    {
        byte[] body = [];
        foreach (var (components, reasons) in Sizes)
        {
            body = written(Of(all, components, reasons));
            if (body.Length <= MostBytes)
            {
                break;
            }
        }

        return body;
    }

    private static Assessment Of(Assessment all, int components, int reasons) => all with
    {
        Ranking = [.. all.Ranking.Where((r, i) => i < AlwaysShown || r.Explains >= Explaining || r.Bad >= Suspicious).Take(components)
            .Select(r => r with { Why = [.. r.Why.Take(reasons)], Sequence = [.. r.Sequence.TakeLast(reasons)] })],
        Notes = [.. all.Notes.Take(MaxNotes)],
    };
}
