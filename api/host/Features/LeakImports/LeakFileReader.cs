using System.Text;
using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Validation;
using nietras.SeparatedValues;

namespace FuelHistory.Host.Features.LeakImports;

/// <summary>What a logger's file holds, thinned.</summary>
internal sealed record LeakFile(IReadOnlyList<Stretch> Stretches, int Samples, int BeforeStop);

/// <summary>Reads a logger's file row by row; memory does not grow with it.</summary>
internal sealed class LeakFileReader(LeakFileForm form, Check check, DateTimeOffset stoppedAt, bool confirmed)
{
    public const int MostSamples = 1_000_000;

    /// <summary>So many wrong lines say enough; reading stops there.</summary>
    private const int MostFaults = 5;

    private const double LongestMinutes = 24 * 60;
    private readonly Thinning thinning = new();
    private double last = double.NegativeInfinity;
    private int rows, beforeStop;

    public LeakFile Read(Faults faults, Stream content, Encoding encoding)
    {
        try
        {
            // BOM first: it says more surely than anybody what follows
            using StreamReader text = new(content, encoding, detectEncodingFromByteOrderMarks: true, 64 * 1024, leaveOpen: true);
            using ShortLines lines = new(text);
            Preamble(lines);
            using var reader = Sep.New(Delimiter()).Reader(o => o with { HasHeader = false, DisableColCountCheck = true, Unescape = true }).From(lines);
            Rows(faults, reader);
        }
        catch (DecoderFallbackException)
        {
            faults.Add("", Problems.Malformed, $"The file is not {encoding.WebName}: a letter after about line {form.Skip + rows + 1} cannot be read. Save it as UTF-8, or name its charset in the Content-Type (text/csv; charset=windows-1252).");
        }
        catch (Exception e) when (e is InvalidDataException or NotSupportedException)
        {
            faults.Add(LeakCells.Pointer(form.Skip + rows + 1), Problems.Malformed, $"Line {form.Skip + rows + 1} does not end where a line can: it is far too long, or a quote is not closed.");
        }

        if (faults.None && rows - beforeStop == 0)
        {
            faults.Required("", rows == 0
                ? "The file has no sample: no row with a time and a value. Check skip, header and delimiter."
                : $"All {rows} samples lie before the stop. Say with stop= at which time of the file the pump stopped.");
        }

        return new LeakFile(thinning.Finish(), rows - beforeStop, beforeStop);
    }

    private void Rows(Faults faults, SepReader reader)
    {
        LeakCells? cells = null;
        foreach (var row in reader)
        {
            // without headings of its own the reader counts the first row as line 2
            var line = form.Skip + (row.RowIndex == 0 ? 1 : row.LineNumberFrom);
            if (row.RowIndex > 0 && row.LineNumberToExcl - row.LineNumberFrom > 1)
            {
                faults.Add(LeakCells.Pointer(line), Problems.Malformed, $"Line {line} has a quote that is not closed on it; no cell of a logger's file spans lines. Close it, or take the quotes out.");
                return;
            }

            if (row.ColCount == 1 && row[0].Span.IsWhiteSpace())
            {
                continue;
            }

            if (cells is null)
            {
                cells = LeakCells.Of(faults, form, stoppedAt, form.Header ? Headings(row) : null, line);
                if (!faults.None)
                {
                    return;
                }

                if (form.Header)
                {
                    continue;
                }
            }

            if (++rows > MostSamples)
            {
                faults.Add(LeakCells.Pointer(line), Problems.TooMany, $"Line {line} is sample {rows}; at most {MostSamples} are taken. Log more slowly, or cut the file after the part that matters.");
                return;
            }

            Sample(faults, cells, row, line);
            if (faults.Found.Count >= MostFaults)
            {
                return;
            }
        }
    }

    private void Sample(Faults faults, LeakCells cells, SepReader.Row row, int line)
    {
        if (row.ColCount <= cells.Last)
        {
            faults.Add(LeakCells.Pointer(line), Problems.Malformed, $"Line {line} has {row.ColCount} columns, and column {cells.Last + 1} is needed. Check delimiter and decimal, or mend the line.");
            return;
        }

        if (cells.Time(faults, line, row[cells.TimePlace].Span) is not { } at || cells.Value(faults, line, row[cells.ValuePlace].Span) is not { } value)
        {
            return;
        }

        if (at <= last)
        {
            var text = row[cells.TimePlace].Span.Trim().ToString();
            faults.Add(LeakCells.Pointer(line), at == last ? Problems.TimeTwice : Problems.OutOfOrder, at == last
                ? $"Line {line} has the time {text} once more; each time may come once. Log with finer times, or take the doubled lines out."
                : $"Line {line} goes back in time, to {text}; the rows must follow in the order of time. Sort the file by its time.");
            return;
        }

        last = at;
        if (at < 0)
        {
            beforeStop++;
            return;
        }

        if (at > LongestMinutes)
        {
            faults.Add(LeakCells.Pointer(line), Problems.OutOfRange, $"Line {line} lies {Names.Number(at / 60)} hours after the stop; a leak-down ends after 24. Check timeUnit and stop, or cut the file.");
        }
        else if (confirmed || cells.IsPlausible(check, value))
        {
            thinning.Add(at, value);
        }
        else
        {
            cells.Implausible(faults, line, check, value);
        }
    }

    private static string[] Headings(SepReader.Row row)
    {
        var headings = new string[row.ColCount];
        for (var i = 0; i < headings.Length; i++)
        {
            headings[i] = row[i].Span.Trim().ToString();
        }

        return headings;
    }

    private char Delimiter() => form.Delimiter switch { "semicolon" => ';', "tab" => '\t', _ => ',' };

    private void Preamble(ShortLines text)
    {
        for (var lines = 0; lines < form.Skip; lines++)
        {
            int c;
            while ((c = text.Read()) is not ('\n' or '\r' or -1))
            {
            }

            if (c == '\r' && text.Peek() == '\n')
            {
                text.Read();
            }
        }
    }
}
