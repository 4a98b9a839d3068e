using FuelHistory.Core.Readings;

namespace FuelHistory.Core.LeakDown;

/// <summary>What a falling pressure says while it is watched: forecast, whether one may stop, shape, time constant, leak levels. Pure.</summary>
public static class LeakAnalysis
{
    /// <summary>Stop where the outcome is as sure as this.</summary>
    private const double Sure = 0.02;

    private const int Times = 41;

    /// <summary>The forecast reaches this many times the limit's minutes.</summary>
    private const double Beyond = 1.5;

    /// <summary>Null where the limit has no usable point.</summary>
    public static LeakReport? Of(LeakWatch watch)
    {
        if (watch.Limit is not LeakLimit limit)
        {
            return null;
        }

        // 1. the points so far, as looks
        (double Minutes, double Bar)[] points = [.. watch.Points.Where(p => p.Minutes <= watch.AsOfMinutes).OrderBy(p => p.Minutes).Select(p => (p.Minutes, p.Bar))];
        double highest = points.Where(p => p.Minutes > Looks.SettlingMinutes).Select(p => p.Bar).DefaultIfEmpty(limit.From).Max();
        WatchedPressure run = Looks.Of(points, watch.Error(limit, highest));

        // 2. everything that could have fallen so, weighed
        LeakPosterior posterior = LeakPosterior.Of(run, limit, watch.Prior);
        double asOf = double.IsFinite(watch.AsOfMinutes) ? watch.AsOfMinutes : points.Select(p => p.Minutes).LastOrDefault();
        return Report(posterior, limit, asOf, run.Minutes.Length);
    }

    /// <summary>Of the forecast, in minutes.</summary>
    internal static double[] TimesOf(LeakLimit limit) => [.. Enumerable.Range(0, Times).Select(i => i * Beyond * limit.Minutes / (Times - 1))];

    private static LeakReport Report(LeakPosterior posterior, LeakLimit limit, double asOf, int looks)
    {
        double[] times = TimesOf(limit);
        LeakCurves curves = posterior.Curves();
        double holds = curves.AtLeast(limit.Low, limit.Minutes);
        LeakVerdict verdict = holds < Sure ? LeakVerdict.StopFails : holds > 1 - Sure ? LeakVerdict.StopHolds : LeakVerdict.GoOn;
        (TimeConstant tau, IReadOnlyList<LawShare> laws) = posterior.Tau();
        double wrong = Math.Min(holds, 1 - holds);
        return new LeakReport
        {
            AsOfMinutes = asOf,
            Looks = looks,
            LimitMinutes = limit.Minutes,
            LimitBar = limit.Low,
            LimitTau = limit.ShortestTau,
            Holds = holds,
            Verdict = verdict,
            Wrong = wrong,
            CostOfWrong = LeakWords.Cost(verdict, wrong),
            AtLimit = curves.Band(limit.Minutes),
            Forecast = [.. times.Select(curves.Band)],
            Good = GoodCurve.Of(limit),
            Shapes = posterior.Shapes(asOf),
            Tau = tau,
            Laws = laws,
            Levels = posterior.Levels,
            StoreLost = posterior.StoreLost,
            Slip = posterior.Slip,
        };
    }
}

/// <summary>A tight section with a sound store, before anything is known of this car.</summary>
internal static class GoodCurve
{
    private static readonly Memo<LeakLimit, IReadOnlyList<double>> Drawn = new(200);

    /// <summary>At the times of the forecast; every look at one run asks for the same.</summary>
    public static IReadOnlyList<double> Of(LeakLimit limit) => Drawn.Of(limit, () =>
    {
        LeakCurves curves = LeakPosterior.Before(limit, new LeakPrior([1, 0, 0, 0], [0, 0, 0, 0]), new ReadingError(0, 1e-4, 1, 1)).Curves();
        return [.. LeakAnalysis.TimesOf(limit).Select(t => curves.Band(t).Median)];
    });
}
