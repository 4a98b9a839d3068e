using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>The timeline, newest first: date, kind, what happened. A void entry says so in words.</summary>
internal static class RecordLines
{
    private const int DateWidth = 10, KindWidth = 9;

    public static IReadOnlyList<Line> Of(RecordView record, int width, Signs signs)
    {
        var vehicle = record.Vehicle;
        var head = Clean.Of($"  {vehicle.System}{string.Concat(new[] { vehicle.Make, vehicle.Model, vehicle.Engine }.Where(each => each is not null).Select((each, at) => (at == 0 ? ", " : " ") + each))}; {VehicleLines.State(vehicle)}", signs);
        if (record.Lines.Count == 0)
            return [Line.Of(head, Role.Faint), Line.Blank, .. Cells.Wrap($"Nothing is recorded yet. Press {Keys.AddWork.Shown} to enter work that was done, {Keys.AddComplaint.Shown} to open a complaint.", width - 4).Select(text => Line.Of("  " + text))];
        return new Listing([Line.Of(Cells.Cut(head, width, signs), Role.Faint)], record.Lines.Count, row => Entry(record.Lines[row], row, width, signs));
    }

    /// <summary>One entry in full.</summary>
    public static IReadOnlyList<Line> One(RecordLine line, int width, Signs signs)
    {
        List<string> parts = [$"{line.Date}: {line.Text}"];
        if (line.Detail is not null) parts.Add(line.Detail);
        if (line.VoidReason is not null) parts.Add($"VOID: {line.VoidReason}");
        parts.Add($"Version {line.Version} of entry {line.Id}");
        return [.. parts.SelectMany(part => Cells.Wrap(Clean.Of(part, signs), width - 4).Select(text => Line.Of("  " + text)).Append(Line.Blank))];
    }

    private static Line Entry(RecordLine line, int row, int width, Signs signs)
    {
        var text = Clean.Of(line.VoidReason is null ? line.Text : $"VOID ({line.VoidReason}): {line.Text}", signs);
        var role = line.VoidReason is not null ? Role.Faint : line.Kind is "complaint" or "closing" ? Role.Title : Role.Plain;
        return Line.Of(row, new Span($"  {Cells.Fit(Clean.Of(line.Date, signs), DateWidth, signs)} {Cells.Fit(Clean.Of(line.Kind, signs), KindWidth, signs)} ", Role.Faint),
            new Span(Cells.Cut(text, width - DateWidth - KindWidth - 5, signs), role));
    }
}
