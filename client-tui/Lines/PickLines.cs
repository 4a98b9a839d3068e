using FuelHistory.Client.Forms;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

internal static class PickLines
{
    private const string Ask = "  Type to narrow: ";

    public static int FilterColumn => Ask.Length;

    public static IReadOnlyList<Line> Of(PickField pick, IReadOnlyList<NamedThing> fitting, int marked, int width, Signs signs) =>
    [
        Line.Of(Ask),
        Line.Of($"  {fitting.Count} of {pick.Items.Count}" + (pick.Many ? $"; picked {pick.Picked.Count}: {Cells.Cut(Clean.Of(pick.Shown, signs), width - 24, signs)}" : ""), Role.Faint),
        Line.Of("  " + Cells.Cut(marked < fitting.Count ? Clean.Of(pick.Detail(fitting[marked].Id), signs) : "", width - 3, signs), Role.Title),
        .. fitting.Select((item, row) => Line.Of("  " + Cells.Cut(Sign(pick, item.Id) + Clean.Of(item.Title, signs), width - 3, signs), row: row)),
    ];

    private static string Sign(PickField pick, string id)
    {
        if (!pick.Many) return pick.AnswerOf(id) is null ? "" : "(picked) ";
        var widest = pick.Answers.Max(answer => answer.Length);
        var answer = pick.AnswerOf(id);
        return pick.Answers is [""]
            ? answer is null ? "[ ] " : "[x] "
            : $"[{(answer ?? "").PadRight(widest)}] ";
    }
}
