using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Facts;
using FuelHistory.Host.Features.Instruments;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.LeakDowns;

/// <summary>What the readings of a leak-down say so far, in the unit of its gauge.</summary>
public sealed class LeakOutlooks(Cars cars, LimitStore limits, InstrumentStore instruments)
{
    /// <returns>Null while no reading stands.</returns>
    public LeakOutlook? Of(SqliteConnection connection, LeakDown leakDown, IReadOnlyList<LeakReading> readings)
    {
        var car = cars.Find(connection, leakDown.VehicleId)!;
        IReadOnlyList<LeakPoint> points = [.. readings.Where(r => r.TakenBack is null).Select(r => new LeakPoint(r.Minutes, Bar(r.Pressure)))];
        if (points.Count == 0 || car.Check(leakDown.Check) is not { } check)
        {
            return null;
        }

        var own = limits.InForce(connection, leakDown.VehicleId, leakDown.Check);
        var day = DateOnly.FromDateTime(leakDown.StoppedAt.DateTime);
        RecordFacts facts = new(car, day, new Dictionary<string, DateTimeOffset>());
        var gauge = leakDown.Instrument is { } id && instruments.Versions(connection, id) is [var newest, ..] ? RecordFacts.Of(newest) : null;
        var report = LeakAnalysis.Of(LeakWatch.Of(check, own is null ? null : facts.Of(own), gauge, day, points));
        return report is null ? null : Of(report, leakDown.Unit, LimitWords.Judge(own, car.Model, check));
    }

    public static double Bar(Measured pressure) => Quantity.Pressure.Convert(pressure.Value, pressure.Unit, "bar");

    private static LeakOutlook Of(LeakReport r, string unit, string limitSource)
    {
        double In(double bar) => Quantity.Pressure.Convert(bar, "bar", unit);
        ForecastAt At(ForecastPoint p, double good) => new(p.Minutes, In(p.Low), In(p.Median), In(p.High), In(good));
        var goodAtLimit = Between(r.Forecast, r.Good, r.LimitMinutes);
        return new LeakOutlook(
            r.AsOfMinutes, r.Looks, unit, r.LimitMinutes, In(r.LimitBar), limitSource, r.LimitTau, r.Holds,
            r.Verdict switch { LeakVerdict.StopFails => "stop-fails", LeakVerdict.StopHolds => "stop-holds", _ => "go-on" },
            Says(r, In(r.LimitBar), unit), r.Wrong, r.CostOfWrong, At(r.AtLimit, goodAtLimit), [.. r.Forecast.Zip(r.Good, At)],
            [.. r.Shapes.Select(s => new LeakShape(s.Id, s.Words, s.Probability))], Minutes(r.Tau), [.. r.Laws.Select(l => new LeakLawShare(l.Id, l.Words, l.Probability, Minutes(l.Tau)))], r.Levels, r.StoreLost, r.Slip);
    }

    private static TauInterval Minutes(TimeConstant tau) => new(tau.Median, tau.Low, tau.High);

    private static string Says(LeakReport r, double limit, string unit)
    {
        var wanted = string.Create(CultureInfo.InvariantCulture, $"{limit:0.##} {unit} at {r.LimitMinutes:0.##} min");
        if (r.AsOfMinutes >= r.LimitMinutes)
        {
            return string.Create(CultureInfo.InvariantCulture, $"The time of the limit is over: it {(r.Holds >= 0.5 ? "held" : "did not hold")} {wanted} ({Percent(Math.Max(r.Holds, 1 - r.Holds))} sure).");
        }

        return r.Verdict switch
        {
            LeakVerdict.StopFails => $"{Percent(1 - r.Holds)} sure that it will be below {wanted}: you may stop.",
            LeakVerdict.StopHolds => $"{Percent(r.Holds)} sure that it will still have {wanted}: you may stop.",
            _ => $"Go on: {Percent(r.Holds)} that it will still have {wanted}.",
        };
    }

    // never "100 %": nothing here is that sure
    private static string Percent(double p) => string.Create(CultureInfo.InvariantCulture, $"{Math.Clamp(Math.Floor(p * 1000) / 10, 0.1, 99.9):0.#} %");

    private static double Between(IReadOnlyList<ForecastPoint> times, IReadOnlyList<double> values, double minutes)
    {
        var next = 1;
        while (next < times.Count - 1 && times[next].Minutes < minutes)
        {
            next++;
        }

        var share = (minutes - times[next - 1].Minutes) / (times[next].Minutes - times[next - 1].Minutes);
        return values[next - 1] + (share * (values[next] - values[next - 1]));
    }
}
