using FuelHistory.Client.Forms;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

internal static class PickLines
{
    private const string Ask = "  Type to narrow: ";

    private const int DetailRows = 3;

    public static Line Filter { get; } = Line.Of(Ask);

    public static int FilterColumn => Ask.Length;

    public static Listing Of(PickField pick, IReadOnlyList<NamedThing> fitting, int marked, int width, Signs signs) => new(
    [
        Filter,
        Line.Of(pick.Items.Count == 0 ? "  There is nothing to pick from yet." : $"  {fitting.Count} of {pick.Items.Count}" + (pick.Many ? $"; picked {pick.Picked.Count}: {Cells.Cut(Clean.Of(pick.Shown, signs), width - 24, signs)}" : ""), Role.Faint),
        .. Detail(marked < fitting.Count ? Clean.Of(pick.Detail(fitting[marked].Id), signs) : "", pick.HasDetails ? DetailRows : 1, width),
    ],
    fitting.Count,
    row => Line.Of("  " + Cells.Cut(Sign(pick, fitting[row].Id) + Clean.Of(fitting[row].Title, signs), width - 3, signs), row: row));

    /// <summary>Always the same number of rows, so that the list does not jump.</summary>
    private static IEnumerable<Line> Detail(string text, int rows, int width)
    {
        var pieces = Cells.Wrap(text, width - 4);
        return Enumerable.Range(0, rows).Select(row => row < pieces.Count ? Line.Of("  " + pieces[row], Role.Title) : Line.Blank);
    }

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
