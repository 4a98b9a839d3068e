using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

internal static class InstrumentLines
{
    public static IReadOnlyList<Line> Of(IReadOnlyList<Instrument> instruments, int width, Signs signs)
    {
        if (instruments.Count == 0)
            return [Line.Blank, .. Cells.Wrap($"No instrument is recorded yet. Press {Keys.Add.Shown} to add the gauge that you measure with: its span and class tell how far to trust a reading.", width - 4).Select(text => Line.Of("  " + text))];
        return new Listing([], instruments.Count, row =>
            Line.Of("  " + Cells.Cut(One(instruments[row], signs), width - 3, signs), instruments[row].Entry.VoidReason is null ? Role.Plain : Role.Faint, row));
    }

    public static string One(Instrument instrument, Signs signs)
    {
        List<string> facts = [];
        if (instrument.Span is { } span) facts.Add($"to {Figures.Plain(span)} {instrument.Unit}");
        if (instrument.ClassPercent is { } cls) facts.Add($"class {Figures.Plain(cls)}");
        if (instrument.PercentOfReading is { } percent) facts.Add($"{Figures.Plain(percent)} % of reading");
        if (instrument.Digits is { } digits) facts.Add($"+ {Figures.Plain(digits)} {instrument.Unit}");
        facts.Add(instrument.LastChecked is { } day ? $"compared {day}" : "never compared");
        if (instrument.Entry.VoidReason is { } reason) facts.Add($"VOID: {reason}");
        return Clean.Of($"{instrument.Name}: {instrument.Quantity}, {string.Join(", ", facts)}", signs);
    }
}
