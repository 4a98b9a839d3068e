using System.Globalization;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>How a curve is drawn: eight dots to a cell, two blocks to a cell, or one letter.</summary>
internal enum Stroke { Dots, Blocks, Letters }

/// <summary>A pressure over the minutes since the stop: the looks, the forecast with its band, the curve of a tight section, the limit.</summary>
internal static class LeakPlot
{
    private const int AxisWidth = 6;

    /// <summary>Looks as (minutes, pressure); the analysis where there is one.</summary>
    public static IReadOnlyList<Line> Of(IReadOnlyList<(double Minutes, double Pressure)> looks, LeakOutlook? analysis, int width, int height, Stroke stroke, Signs signs)
    {
        var (right, top) = Scale(looks, analysis);
        Grid grid = new(width - AxisWidth, height - 1, right, top, stroke);
        if (analysis is not null) Forecast(grid, analysis);
        var cells = grid.Cells();
        if (analysis is not null) Limit(cells, grid, analysis, signs);
        foreach (var (minutes, pressure) in looks) Put(cells, grid.Column(minutes), grid.Row(pressure), 'o');
        return [.. cells.Select((row, i) => Line.Of(Axis(i, height - 1, top) + new string(row).TrimEnd())), Minutes(width, right)];
    }

    private static (double Right, double Top) Scale(IReadOnlyList<(double Minutes, double Pressure)> looks, LeakOutlook? analysis)
    {
        var right = Math.Max(analysis?.LimitMinutes * 1.2 ?? 10, looks.Count == 0 ? 0 : looks.Max(look => look.Minutes) * 1.1);
        var top = Math.Max(looks.Count == 0 ? 3 : looks.Max(look => look.Pressure) * 1.1, analysis is null ? 0 : Math.Max(analysis.Limit * 1.2, analysis.Forecast.Select(at => at.Good).DefaultIfEmpty(0).Max() * 1.05));
        return (right, Math.Max(top, 0.1));
    }

    /// <summary>The middle as a line, the band's edges and the good curve broken.</summary>
    private static void Forecast(Grid grid, LeakOutlook analysis)
    {
        for (var i = 1; i < analysis.Forecast.Count; i++)
        {
            var (a, b) = (analysis.Forecast[i - 1], analysis.Forecast[i]);
            grid.Draw(a.Minutes, a.Median, b.Minutes, b.Median, every: 1);
            grid.Draw(a.Minutes, a.Low, b.Minutes, b.Low, every: 3);
            grid.Draw(a.Minutes, a.High, b.Minutes, b.High, every: 3);
            grid.Draw(a.Minutes, a.Good, b.Minutes, b.Good, every: 2);
        }
    }

    private static void Limit(char[][] cells, Grid grid, LeakOutlook analysis, Signs signs)
    {
        var row = grid.Row(analysis.Limit);
        for (var column = 0; column <= grid.Column(analysis.LimitMinutes); column++)
            if (cells[Math.Clamp(row, 0, cells.Length - 1)][Math.Min(column, cells[0].Length - 1)] == ' ') Put(cells, column, row, signs.Rule[0]);
        var words = string.Create(CultureInfo.InvariantCulture, $" limit {analysis.Limit:0.##} at {analysis.LimitMinutes:0.#} min");
        var from = Math.Min(grid.Column(analysis.LimitMinutes) + 1, cells[0].Length - words.Length);
        for (var i = 0; i < words.Length; i++) Put(cells, from + i, row, words[i]);
    }

    private static void Put(char[][] cells, int column, int row, char sign)
    {
        if (row >= 0 && row < cells.Length && column >= 0 && column < cells[0].Length) cells[row][column] = sign;
    }

    private static string Axis(int row, int rows, double top) => row % 3 == 0
        ? string.Create(CultureInfo.InvariantCulture, $"{top * (rows - 1 - row) / Math.Max(1, rows - 1),5:0.0} ")
        : new string(' ', AxisWidth);

    private static Line Minutes(int width, double right)
    {
        var cells = new char[width];
        Array.Fill(cells, ' ');
        for (var k = 0; k <= 4; k++)
        {
            var text = string.Create(CultureInfo.InvariantCulture, $"{right * k / 4:0.#}{(k == 4 ? " min" : "")}");
            var at = Math.Min(AxisWidth + ((width - AxisWidth - 1) * k / 4), width - text.Length);
            text.CopyTo(0, cells, at, text.Length);
        }
        return Line.Of(new string(cells).TrimEnd(), Role.Faint);
    }

    /// <summary>Points finer than cells, by the stroke.</summary>
    private sealed class Grid(int columns, int rows, double right, double top, Stroke stroke)
    {
        private const char FirstDots = '\u2800';

        // bit of each of the eight dots of a cell, by row and column (Unicode, Braille Patterns)
        private static readonly int[,] Bits = { { 0x01, 0x08 }, { 0x02, 0x10 }, { 0x04, 0x20 }, { 0x40, 0x80 } };

        private readonly int _across = stroke == Stroke.Dots ? 2 : 1, _down = stroke switch { Stroke.Dots => 4, Stroke.Blocks => 2, _ => 1 };
        private readonly HashSet<(int X, int Y)> _points = [];

        public int Column(double minutes) => (int)(minutes / right * (columns - 1));

        public int Row(double pressure) => (int)Math.Round((1 - (pressure / top)) * (rows - 1));

        public void Draw(double fromMinutes, double from, double toMinutes, double to, int every)
        {
            var (x0, x1) = ((int)(fromMinutes / right * ((columns * _across) - 1)), (int)(toMinutes / right * ((columns * _across) - 1)));
            for (var x = x0; x <= x1; x++)
            {
                var y = (int)Math.Round((1 - ((from + ((to - from) * (x - x0) / Math.Max(1, x1 - x0))) / top)) * ((rows * _down) - 1));
                if (x % every == 0 && x >= 0 && x < columns * _across && y >= 0 && y < rows * _down) _points.Add((x, y));
            }
        }

        public char[][] Cells() => [.. Enumerable.Range(0, rows).Select(row => Enumerable.Range(0, columns).Select(column => Cell(column, row)).ToArray())];

        private char Cell(int column, int row)
        {
            if (stroke == Stroke.Letters) return _points.Contains((column, row)) ? '.' : ' ';
            if (stroke == Stroke.Blocks)
                return (_points.Contains((column, row * 2)), _points.Contains((column, (row * 2) + 1))) switch { (true, true) => '█', (true, false) => '▀', (false, true) => '▄', _ => ' ' };
            var bits = 0;
            for (var y = 0; y < 4; y++)
                for (var x = 0; x < 2; x++)
                    if (_points.Contains(((column * 2) + x, (row * 4) + y))) bits |= Bits[y, x];
            return bits == 0 ? ' ' : (char)(FirstDots + bits);
        }
    }
}
