using FuelHistory.Client.Forms;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>The fields of a form, each with the faults that name it below it, and the current one's hint.</summary>
internal static class FormLines
{
    public const int LabelWidth = 20;

    public static IReadOnlyList<Line> Of(Form form, int current, IReadOnlyList<Fault> faults, int width, Signs signs)
    {
        List<Line> lines = [];
        foreach (var fault in faults.Where(fault => !form.Fields.Any(field => field.IsNamedBy(fault))))
            lines.AddRange(FaultLines(fault, 1, width, signs));
        for (var i = 0; i < form.Fields.Count; i++)
        {
            var field = form.Fields[i];
            lines.Add(FieldLine(field, i, i == current, width, signs));
            if (i == current && field is TypedField { ReadBack: { } read }) lines.AddRange(ReadBackLines(read, width, signs));
            lines.AddRange(faults.Where(field.IsNamedBy).SelectMany(fault => FaultLines(fault, LabelWidth + 2, width, signs)));
            if (i == current && field.Hint.Length > 0)
                lines.AddRange(Cells.Wrap(Clean.Of(field.Hint, signs), width - LabelWidth - 3).Select(text => Line.Of(new string(' ', LabelWidth + 2) + text, Role.Faint)));
        }
        return lines;
    }

    /// <summary>The line on which the field stands.</summary>
    public static int LineOf(IReadOnlyList<Line> lines, int field) => lines.ToList().FindIndex(line => line.Row == field);

    private static Line FieldLine(Field field, int row, bool current, int width, Signs signs)
    {
        var room = width - LabelWidth - 3;
        var label = Cells.Fit(field.Label, LabelWidth, signs);
        var shown = Clean.Of(field.Shown, signs);
        var value = field switch
        {
            TypedField when shown.Length == 0 => new string('_', Math.Min(room, 8)),
            TypedField => shown,
            ChoiceField choice => $"< {shown} >  ({choice.Choices.Count} choices)",
            PickField { NotAsked: true } => "(nothing more to say here)",
            PickField when shown.Length == 0 => "(Enter picks from the list)",
            _ => shown,
        };
        var beside = current ? "" : Beside(field, shown);
        return Line.Of(row, new Span("  "), new Span(label, current ? Role.Title : Role.Plain),
            new Span(" " + Cells.Cut(value, room, signs), shown.Length == 0 ? Role.Faint : Role.Plain), new Span(Cells.Cut(beside, room - Cells.Width(value), signs), Role.Faint));
    }

    /// <summary>How a field that was left is understood, where that is not what stands there.</summary>
    private static string Beside(Field field, string shown)
    {
        if (field is not TypedField { ReadBack: { } read } || read.Said == shown.Trim()) return "";
        return read.Understood ? $"   = {read.Said}" : $"   ? {read.Said}";
    }

    /// <summary>How what is being typed is understood, below it.</summary>
    private static IEnumerable<Line> ReadBackLines(ReadBack read, int width, Signs signs) =>
        Cells.Wrap(Clean.Of(read.Understood ? $"= {read.Said}" : read.Said, signs), width - LabelWidth - 3)
            .Select(text => Line.Of(new string(' ', LabelWidth + 2) + text, read.Understood ? Role.Fine : Role.Faint));

    private static IEnumerable<Line> FaultLines(Fault fault, int indent, int width, Signs signs)
    {
        var first = true;
        foreach (var text in Cells.Wrap("! " + Clean.Of(fault.Detail, signs), width - indent - 3))
        {
            yield return Line.Of(new string(' ', indent) + (first ? text : "  " + text), Role.Warning);
            first = false;
        }
    }
}
