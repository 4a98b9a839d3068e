using FuelHistory.Core.Readings;

namespace FuelHistory.Core.LeakDown;

/// <summary>Readings put together to looks: those of one moment share the scatter of a single reading, so a log of ten per second
/// says no more than an eye that looks again and again (MODEL.md 6).</summary>
internal static class Looks
{
    /// <summary>A look lasts this share of the time since the stop, and at least three seconds.</summary>
    private const double Share = 0.02, Shortest = 0.05;

    /// <summary>Nobody reads a falling needle better than this, bar.</summary>
    private const double FinestReading = 0.01;

    /// <summary>Before the regulator has shut, readings say nothing about leaks.</summary>
    public const double SettlingMinutes = 0.25;

    /// <param name="points">By time; those of the settling time are left out.</param>
    public static WatchedPressure Of(IEnumerable<(double Minutes, double Bar)> points, ReadingError error)
    {
        var minutes = new List<double>();
        var bar = new List<double>();
        double end = double.NegativeInfinity, times = 0, pressures = 0;
        int count = 0;
        foreach ((double t, double p) in points.Where(p => p.Minutes > SettlingMinutes))
        {
            if (t >= end && count > 0)
            {
                Close();
            }

            end = count == 0 ? t + Math.Max(Shortest, Share * t) : end;
            (count, times, pressures) = (count + 1, times + t, pressures + p);
        }

        if (count > 0)
        {
            Close();
        }

        double own = Math.Max(error.OwnVariance, FinestReading * FinestReading);
        return new WatchedPressure([.. minutes], [.. bar], error with { OwnVariance = own });

        void Close()
        {
            minutes.Add(times / count);
            bar.Add(pressures / count);
            (count, times, pressures) = (0, 0, 0);
        }
    }
}

/// <summary>One watched pressure: looks as minutes since the stop and bar, with the gauge's errors.</summary>
internal sealed record WatchedPressure(double[] Minutes, double[] Bar, ReadingError Error);
