using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;

namespace FuelHistory.Tests.Core.LeakDown;

/// <summary>Densities of leak-downs of two looks by plain sums over fine grids, written from MODEL.md 6; shares nothing with the program but the limit.</summary>
internal sealed class BruteForce(LeakLimit limit, ReadingError gauge)
{
    private static readonly (double Rise, double Share)[] Soaks = [(0, 0.5), (0.05, 0.25), (0.1, 0.25)];

    /// <summary>Density at a level; runs share level, tau and law.</summary>
    public double Level(WatchedPressure[] runs, int level, bool lost, int steps = 120)
    {
        (double low, double high) = level switch { 0 => (1.0, 30.0), 1 => (1.0 / 3, 1.0), 2 => (1.0 / 30, 1.0 / 3), _ => (1.0 / 1000, 1.0 / 30) };
        double tauLimit = limit.Minutes / Math.Log(limit.From / limit.Low) / (lost ? 8 : 1), from = Math.Log(low * tauLimit), to = Math.Log(high * tauLimit);
        return Enumerable.Range(0, steps + 1).AsParallel().Sum(i =>
        {
            double weight = (i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2) / (3.0 * steps), tau = Math.Exp(from + ((to - from) * i / steps));
            double Law(Func<WatchedPressure, double> density) => runs.Aggregate(1.0, (p, run) => p * ((0.98 * density(run)) + (0.02 * Math.Pow(gauge.Range, -run.Bar.Length))));
            double plain = lost ? 0.4 / 3 : 1.0 / 3;
            return weight * ((plain * (Law(r => Straight(r, t => Math.Exp(-t / tau))) + Law(r => Straight(r, t => Math.Pow(Math.Max(0, 1 - (t / 2 / tau)), 2))) + Law(r => Collapse(r, tau))))
                + (lost ? 0.6 * Law(r => Settle(r, tau)) : 0));
        });
    }

    public double Settle(WatchedPressure run, double tau)
    {
        const int Steps = 40;
        double sum = 0;
        for (int i = 0; i < Steps; i++)
        {
            for (int j = 0; j < Steps; j++)
            {
                double f = 0.2 + (0.35 * (i + 0.5) / Steps), ts = limit.Running is null ? 0.3 + (0.9 * (j + 0.5) / Steps) : 1 + (2 * (j + 0.5) / Steps);
                sum += Straight(run, t => (f + ((1 - f) * Math.Exp(-t / ts))) * Math.Exp(-t / tau)) / Steps / Steps;
            }
        }

        return sum;
    }

    /// <summary>Hold pressure and the pressure of the empty store on a grid.</summary>
    public double Collapse(WatchedPressure run, double tau, int fine = 2)
    {
        int holds = 150 * fine, empties = 300 * fine;
        double sd = 0.15 * limit.From, sum = 0;
        for (int i = 0; i < holds; i++)
        {
            double z = -6.5 + (13 * (i + 0.5) / holds), hold = limit.From + (sd * z), share = 13.0 / holds * Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI);
            for (int j = 0; j < empties; j++)
            {
                double empty = 1 + (1.5 * (j + 0.5) / empties), when = Math.Max(0, tau * Math.Log(hold / empty));
                double a = Pressure(run.Minutes[0]), b = Pressure(run.Minutes[1]);
                foreach ((double rise, double weight) in Soaks)
                {
                    sum += share / empties * weight * Dropped(run, a * Soak(run.Minutes[0], rise), b * Soak(run.Minutes[1], rise), 0, 0, 0);
                }

                double Pressure(double t) => t <= when ? hold * Math.Exp(-t / tau) : hold * Math.Exp((-when / tau) - (10 * (t - when) / tau));
            }
        }

        return sum;
    }

    /// <summary>Normal hold pressure as part of the covariance of the two looks.</summary>
    private double Straight(WatchedPressure run, Func<double, double> law)
    {
        double variance = 0.15 * limit.From * 0.15 * limit.From, sum = 0;
        foreach ((double rise, double weight) in Soaks)
        {
            double a = law(run.Minutes[0]) * Soak(run.Minutes[0], rise), b = law(run.Minutes[1]) * Soak(run.Minutes[1], rise);
            sum += weight * Dropped(run, limit.From * a, limit.From * b, a * a * variance, a * b * variance, b * b * variance);
        }

        return sum;
    }

    /// <summary>With what is left at the looks of a drop from running pressure, if there is one.</summary>
    private double Dropped(WatchedPressure run, double a, double b, double aa, double ab, double bb)
    {
        double[] times = limit.Running is null ? [1] : [0.1, 0.25, 0.5];
        double height = (limit.Running ?? limit.From) - limit.From, variance = 0.5 * height * 0.5 * height;
        return times.Average(td =>
        {
            double c = Math.Exp(-run.Minutes[0] / td), d = Math.Exp(-run.Minutes[1] / td);
            return Pair(run.Bar[0] - a - (height * c), run.Bar[1] - b - (height * d), aa + (c * c * variance), ab + (c * d * variance), bb + (d * d * variance));
        });
    }

    private double Pair(double r, double s, double rr, double rs, double ss)
    {
        (rr, rs, ss) = (rr + gauge.SharedVariance + gauge.OwnVariance, rs + gauge.SharedVariance, ss + gauge.SharedVariance + gauge.OwnVariance);
        double det = (rr * ss) - (rs * rs);
        return Math.Exp(-0.5 * ((ss * r * r) - (2 * rs * r * s) + (rr * s * s)) / det) / (2 * Math.PI * Math.Sqrt(det));
    }

    private static double Soak(double t, double rise) => 1 + (rise * t / 12 * Math.Exp(1 - (t / 12)));
}
