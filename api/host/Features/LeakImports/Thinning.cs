namespace FuelHistory.Host.Features.LeakImports;

/// <summary>So many neighbouring samples as one: their mean time and pressure, the lowest and the highest.</summary>
internal readonly record struct Stretch(double Minutes, double Pressure, double Lowest, double Highest, int Samples);

/// <summary>Makes a few hundred readings of any number of samples in one pass. Each stretch is a second long in the first minute and
/// later 2 % of the time since the stop, so that the steep beginning stays dense. The mean is what counts: the lowest and the highest
/// of many samples lie off the truth by the sensor's noise; they are kept for the picture.</summary>
internal sealed class Thinning
{
    private const double PerMinute = 60, Growth = 0.02;
    private readonly List<Stretch> done = [];
    private long place = long.MinValue;
    private double minutes, pressure, lowest, highest;
    private int count;

    /// <param name="at">Minutes since the stop, later than the sample before.</param>
    public void Add(double at, double value)
    {
        var here = Place(at);
        if (here != place)
        {
            Close();
            (place, minutes, pressure, lowest, highest, count) = (here, 0, 0, value, value, 0);
        }

        minutes += at;
        pressure += value;
        lowest = Math.Min(lowest, value);
        highest = Math.Max(highest, value);
        count++;
    }

    public IReadOnlyList<Stretch> Finish()
    {
        Close();
        count = 0;
        return done;
    }

    private static long Place(double at) => at < 1 ? (long)(at * PerMinute) : (long)PerMinute + (long)(Math.Log(at) / Growth);

    private void Close()
    {
        if (count > 0)
        {
            done.Add(new Stretch(minutes / count, pressure / count, lowest, highest, count));
        }
    }
}
