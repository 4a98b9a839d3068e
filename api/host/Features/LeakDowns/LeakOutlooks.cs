using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Facts;
using FuelHistory.Host.Features.Instruments;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Features.Settings;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.LeakDowns;

/// <summary>What the readings of a leak-down say so far, in the unit of its gauge.</summary>
public sealed class LeakOutlooks(Cars cars, LimitStore limits, InstrumentStore instruments, SettingsStore settings)
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
        return report is null ? null : Of(report, leakDown.Unit, LimitWords.Judge(own, car.Model, check), settings.Newest(connection).Settings.Figures);
    }

    public static double Bar(Measured pressure) => Quantity.Pressure.Convert(pressure.Value, pressure.Unit, "bar");

    private static LeakOutlook Of(LeakReport r, string unit, string limitSource, string figures)
    {
        double In(double bar) => Quantity.Pressure.Convert(bar, "bar", unit);
        ForecastAt At(ForecastPoint p, double good) => new(p.Minutes, In(p.Low), In(p.Median), In(p.High), In(good));
        var goodAtLimit = Between(r.Forecast, r.Good, r.LimitMinutes);
        return new LeakOutlook(
            r.AsOfMinutes, r.Looks, unit, r.LimitMinutes, In(r.LimitBar), limitSource, r.LimitTau, r.Holds,
            r.Verdict switch { LeakVerdict.StopFails => "stop-fails", LeakVerdict.StopHolds => "stop-holds", _ => "go-on" },
            Says(r, In(r.LimitBar), unit, figures), r.Wrong, r.CostOfWrong, At(r.AtLimit, goodAtLimit), [.. r.Forecast.Zip(r.Good, At)],
            [.. r.Shapes.Select(s => new LeakShape(s.Id, s.Words, s.Probability))], Minutes(r.Tau), [.. r.Laws.Select(l => new LeakLawShare(l.Id, l.Words, l.Probability, Minutes(l.Tau)))], r.Levels, r.StoreLost, r.Slip, figures);
    }

    private static TauInterval Minutes(TimeConstant tau) => new(tau.Median, tau.Low, tau.High);

    private static string Says(LeakReport r, double limit, string unit, string figures)
    {
        var wanted = string.Create(CultureInfo.InvariantCulture, $"{limit:0.##} {unit} after {r.LimitMinutes:0.##} {(r.LimitMinutes == 1 ? "minute" : "minutes")}");
        string Chance(double p) => PlainFigures.Chance(p, figures);
        if (r.AsOfMinutes >= r.LimitMinutes)
        {
            return $"The time of the limit is over: {Chance(Math.Max(r.Holds, 1 - r.Holds))} that it {(r.Holds >= 0.5 ? "held" : "did not hold")} {wanted}.";
        }

        return r.Verdict switch
        {
            LeakVerdict.StopFails => $"{Upper(Chance(1 - r.Holds))} that it will be below {wanted}: you may stop.",
            LeakVerdict.StopHolds => $"{Upper(Chance(r.Holds))} that it will still have {wanted}: you may stop.",
            _ => $"Go on: {Chance(r.Holds)} that it will still have {wanted}.",
        };
    }

    private static string Upper(string text) => char.ToUpperInvariant(text[0]) + text[1..];

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
