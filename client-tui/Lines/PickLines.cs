using FuelHistory.Client.Forms;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

internal static class PickLines
{
    private const string Ask = "  Type to narrow: ";

    public static int FilterColumn => Ask.Length;

    public static IReadOnlyList<Line> Of(PickField field, IReadOnlyList<NamedThing> fitting, int width, Signs signs) =>
    [
        Line.Of(Ask),
        Line.Of($"  {fitting.Count} of {field.Items.Count}" + (field.Many ? $"; picked {field.Picked.Count}: {Cells.Cut(Clean.Of(field.Shown, signs), width - 24, signs)}" : ""), Role.Faint),
        .. fitting.Select((item, row) => Line.Of("  " + Cells.Cut(Sign(field, item.Id) + Clean.Of(item.Title, signs), width - 3, signs), row: row)),
    ];

    private static string Sign(PickField field, string id)
    {
        if (!field.Many) return field.AnswerOf(id) is null ? "" : "(picked) ";
        var widest = field.Answers.Max(answer => answer.Length);
        var answer = field.AnswerOf(id);
        return field.Answers is [""]
            ? answer is null ? "[ ] " : "[x] "
            : $"[{(answer ?? "").PadRight(widest)}] ";
    }
}
