using FuelHistory.Core.Assessment;

namespace FuelHistory.Core.Readings;

/// <summary>The errors of one reading: what all readings with one gauge in one session share, and what each has for itself
/// (MODEL.md 5; EN 837-1 class as rectangular limits, JCGM 100 GUM 4.3.7).</summary>
/// <param name="SharedVariance">(class% x span / 100)^2 / 3, or the same of percent of reading + digits.</param>
/// <param name="OwnVariance">resolution^2 / 12 + repeat^2.</param>
/// <param name="Range">Over which a slipped reading may lie anywhere: the span, or the top of the check's bands.</param>
/// <param name="BiasUnit">What a gauge mode's bias is a share of: the span, else the reading.</param>
internal readonly record struct ReadingError(double SharedVariance, double OwnVariance, double Range, double BiasUnit)
{
    /// <summary>Probability of a slip of hand or hook-up, one per session and gauge.</summary>
    public const double Slip = 0.02;

    /// <summary>Class assumed where a gauge states none, and where none was named (EN 837-1 has 2.5 as its usual workshop class; judgement).</summary>
    private const double AssumedClass = 2.5;

    /// <summary>A check older than this counts as none (MODEL.md 5).</summary>
    private const double CheckedYears = 2;

    public static ReadingError Of(InstrumentFact? instrument, double reading, double repeat, double top, DateOnly day)
    {
        bool unchecked_ = instrument?.LastChecked is not DateOnly last || day.DayNumber - last.DayNumber > CheckedYears * Life.Usage.DaysPerYear;
        double half = HalfWidth(instrument, reading, top) * (unchecked_ ? 2 : 1);
        double resolution = instrument?.Resolution ?? 0;
        double own = (resolution * resolution / 12) + (repeat * repeat);
        double shared = half * half / 3;
        double range = Math.Max(instrument?.Span ?? 0, top);
        return new ReadingError(shared, Math.Max(own, 1e-8 * Math.Max(shared, range * range * 1e-6)), range, instrument is { Span: null } ? Math.Abs(reading) : instrument?.Span ?? top);
    }

    /// <summary>Class of a gauge of which only "below", "within" or "above" the limits was noted.</summary>
    private const double WordClass = 4;

    /// <summary>Variance of a word: a gauge with the higher limit in the middle of its scale, and a reading's scatter.</summary>
    public static double OfWords(BandEdges bands, double repeat)
    {
        double high = bands.Zero == bands.Edges.Length - 2 ? bands.Edges[bands.Zero] : bands.Edges[bands.Zero + 1];
        double half = WordClass * Math.Min(bands.Top - Math.Min(0, bands.Edges[0]), 2 * Math.Abs(high)) / 100;
        return (half * half / 3) + (repeat * repeat);
    }

    private static double HalfWidth(InstrumentFact? instrument, double reading, double top) => instrument switch
    {
        { ClassPercent: double c, Span: double span } => c * span / 100,
        { PercentOfReading: not null } or { Digits: not null } => ((instrument.PercentOfReading ?? 0) * Math.Abs(reading) / 100) + (instrument.Digits ?? 0),
        { Span: double span } => AssumedClass * span / 100,
        _ => AssumedClass * top / 100,
    };
}
