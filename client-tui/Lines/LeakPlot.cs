using System.Globalization;
using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>Minutes across, pressure up: readings, limit, the band of the forecast and what a tight circuit would show.</summary>
internal static class LeakPlot
{
    private const int LabelWidth = 7, Below = 2;
    private const double LeastMinutes = 10;

    public static IReadOnlyList<Line> Of(IReadOnlyList<Glance> readings, LeakOutlook? outlook, double minutes, int width, int height, Signs signs)
    {
        Canvas canvas = new(width - LabelWidth - 2, Math.Max(2, height - Below), signs);
        var last = MinutesShown(Math.Max(Math.Max(minutes, outlook?.LimitMinutes ?? LeastMinutes), readings.Select(each => each.Minutes).DefaultIfEmpty(0).Max()));
        var most = PressureShown(readings.Select(each => each.Pressure.Value).Concat(outlook is null ? [1.0] : [outlook.Limit, .. outlook.Forecast.Where(each => each.Minutes <= last).SelectMany(each => new[] { each.High, each.Good })]).DefaultIfEmpty(1).Max());
        Scale scale = new(canvas, last, most);
        if (outlook is not null) Curves(canvas, scale, outlook);
        foreach (var each in readings) canvas.Sign(scale.Column(each.Minutes), scale.Row(each.Pressure.Value), "o", Role.Title);
        return [.. Enumerable.Range(0, canvas.Rows).Select(row => Row(canvas, row, scale, most, outlook, signs)), Axis(last, width, signs), Legend(outlook, width, signs)];
    }

    private static void Curves(Canvas canvas, Scale scale, LeakOutlook outlook)
    {
        for (var x = 0; x < canvas.Columns * canvas.Across; x++)
        {
            if (At(outlook.Forecast, scale.MinutesAt(x)) is not { } there) continue;
            // every other point only, so that the band is told from the curve without colour
            var (top, bottom) = (scale.Y(there.High), scale.Y(there.Low));
            for (var y = top; y <= bottom; y++)
                if ((x + y) % 2 == 0 || canvas.Down == 1) canvas.Point(x, y, Role.Bar, ":");
            canvas.Point(x, scale.Y(there.Good), Role.Fine, "+");
        }
        var end = scale.Column(outlook.LimitMinutes);
        for (var column = 0; column < end; column++) canvas.Sign(column, scale.Row(outlook.Limit), "-", Role.Warning);
        canvas.Sign(end, scale.Row(outlook.Limit), "|", Role.Warning);
    }

    private static Line Row(Canvas canvas, int row, Scale scale, double most, LeakOutlook? outlook, Signs signs)
    {
        var label = row == 0 ? Figure(most) : row == canvas.Rows - 1 ? "0" : outlook is not null && row == scale.Row(outlook.Limit) ? "limit" : "";
        return Line.Of(row: null, [new Span(Cells.Fit(label, LabelWidth - 1, signs, right: true) + " |", Role.Faint), .. canvas.Row(row)]);
    }

    private static Line Axis(double last, int width, Signs signs)
    {
        var (half, end) = ($"{Figure(last / 2)} min", $"{Figure(last)} min");
        var room = width - LabelWidth - 1 - end.Length;
        return Line.Of(new string(' ', LabelWidth) + Cells.Fit(Cells.Fit("0", room / 2, signs) + half, room, signs) + end, Role.Faint);
    }

    private static Line Legend(LeakOutlook? outlook, int width, Signs signs)
    {
        var curves = outlook is null ? "" : signs.Ascii ? "   : forecast (95 %)   + tight" : $"   {(signs.Braille ? "⢕⢕" : "▚▚")} forecast (95 %)   {(signs.Braille ? "⠒⠒" : "▀▀")} tight";
        var limit = outlook is null ? "" : $"   - limit {Figures.Plain(outlook.Limit)} {outlook.Unit} at {Figures.Minutes(outlook.LimitMinutes)}";
        return Line.Of(Cells.Cut($"{new string(' ', LabelWidth)}o read{limit}{curves}", width, signs), Role.Faint);
    }

    private static ForecastAt? At(IReadOnlyList<ForecastAt> forecast, double minutes)
    {
        for (var i = 1; i < forecast.Count; i++)
        {
            var (a, b) = (forecast[i - 1], forecast[i]);
            if (minutes < a.Minutes || minutes > b.Minutes) continue;
            var share = b.Minutes > a.Minutes ? (minutes - a.Minutes) / (b.Minutes - a.Minutes) : 0;
            double Between(double from, double to) => from + (share * (to - from));
            return new ForecastAt(minutes, Between(a.Low, b.Low), Between(a.Median, b.Median), Between(a.High, b.High), Between(a.Good, b.Good));
        }
        return null;
    }

    private static double MinutesShown(double minutes)
    {
        var step = minutes <= 30 ? 5 : minutes <= 120 ? 20 : 120;
        return Math.Ceiling(minutes / step) * step;
    }

    /// <summary>A round figure above the greatest: 1, 2, 3 ... 10, 20 ...</summary>
    private static double PressureShown(double most)
    {
        var unit = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(most, 0.1))));
        return Math.Ceiling(most / unit * 2.02) / 2 * unit;
    }

    private static string Figure(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private sealed class Scale(Canvas canvas, double minutes, double pressure)
    {
        public double MinutesAt(int x) => x * minutes / ((canvas.Columns * canvas.Across) - 1);

        public int Y(double value) => (int)Math.Round((1 - (Math.Clamp(value, 0, pressure) / pressure)) * ((canvas.Rows * canvas.Down) - 1));

        public int Row(double value) => Y(value) / canvas.Down;

        public int Column(double at) => (int)Math.Round(at / minutes * ((canvas.Columns * canvas.Across) - 1)) / canvas.Across;
    }
}
