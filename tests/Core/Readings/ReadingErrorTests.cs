using FuelHistory.Core.Assessment;
using FuelHistory.Core.Readings;

namespace FuelHistory.Tests.Core.Readings;

/// <summary>What an instrument's class and resolution mean as variances.</summary>
public sealed class ReadingErrorTests
{
    private static readonly DateOnly Day = new(2024, 6, 1);

    private static ReadingError Of(InstrumentFact? instrument, double reading = 3, double repeat = 0, double top = 10) => ReadingError.Of(instrument, reading, repeat, top, Day);

    private static InstrumentFact Gauge(double span, double grade, DateOnly? last) => new("g", span, grade, null, null, null, last);

    /// <summary>Limits of error anywhere on the scale; as rectangular limits u = a / sqrt 3 (source: JCGM 100:2008 (GUM) 4.3.7, from memory).</summary>
    [Theory]
    [InlineData(10, 1.6, 0.16)]  // source: EN 837-1 classes; worked example in a gauge maker's test instructions, manualshive.com 980173 (read)
    [InlineData(6, 1.0, 0.06)]   // source: the same page, span -1..+5 bar; it prints a garbled 0,26, and 6 x 1 / 100 is 0.06
    public void Class_is_a_share_of_the_span_and_rectangular(double span, double grade, double limit)
    {
        Assert.Equal(limit / Math.Sqrt(3), Math.Sqrt(Of(Gauge(span, grade, Day.AddYears(-1))).SharedVariance), 1e-12);
        Assert.Equal(Of(Gauge(span, grade, Day.AddYears(-1)), 0.1).SharedVariance, Of(Gauge(span, grade, Day.AddYears(-1)), span).SharedVariance);
    }

    [Fact]
    public void Class_never_or_long_ago_checked_is_doubled()
    {
        double known = Of(Gauge(10, 1.6, Day.AddYears(-1))).SharedVariance;

        Assert.Equal(4 * known, Of(Gauge(10, 1.6, null)).SharedVariance, 1e-12);
        Assert.Equal(4 * known, Of(Gauge(10, 1.6, Day.AddYears(-2).AddDays(-3))).SharedVariance, 1e-12);
        Assert.Equal(known, Of(Gauge(10, 1.6, Day.AddYears(-2).AddDays(3))).SharedVariance, 1e-12);
    }

    [Fact]
    public void Resolution_is_a_rectangle_of_one_step_and_repeat_adds_to_it()
    {
        // source: JCGM 100:2008 (GUM) 4.3.7 and F.2.2.1: a step d gives d / (2 sqrt 3); from memory
        var gauge = new InstrumentFact("g", 10, 1.6, 0.1, null, null, Day);

        Assert.Equal(0.1 / (2 * Math.Sqrt(3)), Math.Sqrt(Of(gauge).OwnVariance), 1e-12);
        Assert.Equal((0.01 / 12) + (0.05 * 0.05), Of(gauge, repeat: 0.05).OwnVariance, 1e-12);
    }

    [Fact]
    public void Meter_states_percent_of_reading_and_digits()
    {
        var meter = new InstrumentFact("m", null, null, 0.01, 0.5, 0.02, Day);

        Assert.Equal(((0.005 * 12) + 0.02) / Math.Sqrt(3), Math.Sqrt(Of(meter, 12).SharedVariance), 1e-12);
    }

    [Fact]
    public void Instrument_unnamed_is_wider_than_any_named_one() =>
        Assert.True(Of(null).SharedVariance > Of(Gauge(10, 2.5, Day)).SharedVariance);
}
