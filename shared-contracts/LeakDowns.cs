namespace FuelHistory.Contracts;

/// <summary>A pressure that is about to be watched. StoppedAt: when the pump stopped; minutes count from there. Unit: in which the
/// gauge is read. Ambient and Fuel: temperatures at the stop, kept for who compares two runs. Session: label; the day where absent.</summary>
public sealed record NewLeakDown(
    string Check,
    DateTimeOffset StoppedAt,
    string Unit = "bar",
    string? Instrument = null,
    Measured? Ambient = null,
    Measured? Fuel = null,
    string? Session = null,
    string Showed = "unknown",
    string? Note = null);

/// <summary>One or more looks at the gauge, in any order.</summary>
public sealed record NewLeakReadings(IReadOnlyList<NewLeakReading> Readings);

/// <summary>Minutes since the stop, or the instant (At). Id: of the sender's making; sent again with the same figures it is taken
/// once, with others it is refused. Without one, time and pressure stand for it. Confirmed: an implausible value is right all the same.</summary>
public sealed record NewLeakReading(Measured Pressure, double? Minutes = null, DateTimeOffset? At = null, string? Id = null, bool Confirmed = false);

/// <summary>State: running or finished. Finding: the id of the finding that it became. Readings: how many stand.</summary>
public sealed record LeakDown(
    EntryHead Entry,
    string VehicleId,
    string ComplaintId,
    string Check,
    string Title,
    DateTimeOffset StoppedAt,
    string Unit,
    string? Instrument,
    Measured? Ambient,
    Measured? Fuel,
    string? Session,
    string Showed,
    string? Note,
    string State,
    string? Finding,
    int Readings,
    LeakImport? Import,
    IReadOnlyList<string> Cautions);

/// <summary>A look at the gauge; or, of a logger's file, the mean of so many samples with the lowest and the highest of them.
/// TakenBack: since when it does not count.</summary>
public sealed record LeakReading(
    string Id,
    double Minutes,
    Measured Pressure,
    double? Lowest,
    double? Highest,
    int Samples,
    DateTimeOffset RecordedAt,
    DateTimeOffset? TakenBack);

/// <summary>A logger's file: samples after the stop and before it, the size of the file and its SHA-256, and how it was read.</summary>
public sealed record LeakImport(DateTimeOffset RecordedAt, string Sha256, long Bytes, int Samples, int BeforeStop, int Readings, LeakFileForm Form);

/// <summary>Time and Value: a column's heading or its number from 1. TimeUnit: s, min, h, ms or instant. Stop: the time in the file
/// at which the pump stopped (a number in TimeUnit, or an instant). Decimal: point or comma. Delimiter: comma, semicolon, tab or space.
/// Skip: lines before the headings (or before the first row, without headings).</summary>
public sealed record LeakFileForm(
    string Time,
    string Value,
    string Unit,
    string TimeUnit,
    string? Stop,
    string Decimal,
    string Delimiter,
    bool Header,
    int Skip);

/// <summary>A leak-down with its readings in the order of time, and what they say so far (none: no reading counts yet).</summary>
public sealed record LeakDownView(LeakDown LeakDown, IReadOnlyList<LeakReading> Readings, LeakOutlook? Analysis);

/// <summary>What the readings say so far; pressures in Unit, probabilities 0..1. Holds: that the pressure is at least Limit at
/// LimitMinutes. Verdict: go-on, stop-fails or stop-holds; Wrong: that it is wrong; Says: the verdict as a sentence. LimitTau: the
/// shortest acceptable time constant, minutes. Tau: whatever the law; Laws: likeliest first. Levels: of leak level 0 to 3. Slip: that the readings fit no leak-down at all.</summary>
public sealed record LeakOutlook(
    double AsOfMinutes,
    int Looks,
    string Unit,
    double LimitMinutes,
    double Limit,
    string LimitSource,
    double LimitTau,
    double Holds,
    string Verdict,
    string Says,
    double Wrong,
    string CostOfWrong,
    ForecastAt AtLimit,
    IReadOnlyList<ForecastAt> Forecast,
    IReadOnlyList<LeakShape> Shapes,
    TauInterval Tau,
    IReadOnlyList<LeakLawShare> Laws,
    IReadOnlyList<double> Levels,
    double StoreLost,
    double Slip,
    string Figures = PlainFigures.Words);

/// <summary>Pressure at so many minutes: the middle and the band that holds 95 %. Good: what a tight section would show.</summary>
public sealed record ForecastAt(double Minutes, double Low, double Median, double High, double Good);

/// <summary>Shape: holds, steady-seep, hole, store-runs-empty, store-lost or slip.</summary>
public sealed record LeakShape(string Shape, string Words, double Probability);

/// <summary>Law: seep, orifice, collapse (the store runs empty) or settle (the store is lost). Tau: if that is the law; two laws that fall
/// alike may have time constants far apart.</summary>
public sealed record LeakLawShare(string Law, string Words, double Probability, TauInterval Tau);

/// <summary>Minutes to fall to 37 %: the middle and the interval that holds 95 %.</summary>
public sealed record TauInterval(double Median, double Low, double High)
{
    /// <summary>An interval wider than this says nothing yet.</summary>
    private const double Wide = 20;

    /// <summary>From so many minutes on half ones are not said.</summary>
    private const double Whole = 2;

    /// <summary>"falls to a third in 7 to 10 minutes"; or that nobody can say yet.</summary>
    public string Words() => Unknown ? "how fast it falls cannot be said yet" : $"falls to a third in {Span()}";

    /// <summary>"7 to 10 minutes".</summary>
    public string Span()
    {
        const string Unit = " minutes";
        var (low, high) = (PlainFigures.Minutes(Low < Whole ? Low : Math.Round(Low)), PlainFigures.Minutes(High < Whole ? High : Math.Ceiling(High)));
        return Unknown ? "not known yet" : low == high ? high : low.EndsWith(Unit, StringComparison.Ordinal) && high.EndsWith(Unit, StringComparison.Ordinal) ? $"{low[..^Unit.Length]} to {high}" : $"{low} to {high}";
    }

    private bool Unknown => Low < 0.02 || High / Low > Wide;
}
