using FuelHistory.Core.Readings;
using MathNet.Numerics.Integration;

namespace FuelHistory.Core.LeakDown;

/// <summary>One watched pressure: minutes since the stop and bar, with the gauge's errors.</summary>
internal sealed record WatchedPressure(double[] Minutes, double[] Bar, ReadingError Error);

/// <summary>Leak-down by the seep law: p = p0 exp(-t / tau), with heat soak on top (MODEL.md 6). Hold pressure and gauge error are
/// integrated in closed form, tau over its level's range by quadrature to better than 1e-4.</summary>
internal static class SeepLaw
{
    /// <summary>Before the regulator has shut, readings say nothing about leaks.</summary>
    public const double SettlingMinutes = 0.25;

    /// <summary>Below this, bar, a pressure has fallen "fast".</summary>
    public const double FastBelow = 0.3;

    /// <summary>Widest panel of the quadrature, in units of ln(tau).</summary>
    private const double Panel = 0.3;

    private static readonly (double Rise, double Weight)[] Soak = [(0, 0.5), (0.05, 0.25), (0.10, 0.25)];

    private static readonly GaussLegendreRule Rule = new(-1, 1, 8);

    /// <summary>Density of the watched pressures at a leak level (0..3); repeats of one section in one stretch share the leak.</summary>
    public static double Likelihood(IReadOnlyList<WatchedPressure> runs, double bias, LeakLimit limit, int level, bool storeLost) =>
        OverTau(limit, level, storeLost, tau =>
        {
            double product = 1;
            foreach (WatchedPressure run in runs)
            {
                double slipped = ReadingError.Slip * Math.Pow(run.Error.Range, -run.Bar.Length);
                product *= slipped + ((1 - ReadingError.Slip) * Soak.Sum(s => s.Weight * Density(run, bias, limit, tau, s.Rise)));
            }

            return product;
        });

    /// <summary>P(hold), P(slow), P(fast): what is read at the limit's time, the gauge's errors included.</summary>
    public static double[] Outcomes(ReadingError error, double bias, LeakLimit limit, int level, bool storeLost)
    {
        double hold = Above(limit.Low), moving = Above(FastBelow);
        return [hold, Math.Max(0, moving - hold), Math.Max(0, 1 - Math.Max(moving, hold))];

        double Above(double pressure) => OverTau(limit, level, storeLost, tau => Soak.Sum(s =>
        {
            double shape = Shape(limit.Minutes, tau, s.Rise);
            double sd = Math.Sqrt(error.SharedVariance + error.OwnVariance + (shape * shape * limit.HoldVariance));
            return s.Weight * NormalTail.Above((pressure - bias - (limit.From * shape)) / sd);
        }));
    }

    /// <summary>Mean over the level's log-uniform range of tau.</summary>
    private static double OverTau(LeakLimit limit, int level, bool storeLost, Func<double, double> value)
    {
        (double shortest, double longest) = limit.TauRange(level, storeLost);
        double from = Math.Log(shortest), to = Math.Log(longest), sum = 0;
        int panels = (int)Math.Ceiling((to - from) / Panel);
        double half = (to - from) / panels / 2;
        for (int k = 0; k < panels; k++)
        {
            double middle = from + (((2 * k) + 1) * half);
            for (int i = 0; i < Rule.Order; i++)
            {
                sum += Rule.GetWeight(i) * value(Math.Exp(middle + (half * Rule.GetAbscissa(i))));
            }
        }

        return sum * half / (to - from);
    }

    private static double Shape(double minutes, double tau, double rise) =>
        Math.Exp(-minutes / tau) * (1 + (rise * (minutes / 12) * Math.Exp(1 - (minutes / 12))));

    /// <summary>The readings are normal: mean from x g, own errors, plus the gauge's shared error along 1 and the hold pressure's along g.
    /// The two shared ones are taken out by the matrix determinant lemma; p0 is truncated above 0.</summary>
    private static double Density(WatchedPressure run, double bias, LeakLimit limit, double tau, double rise)
    {
        double own = run.Error.OwnVariance, shared = run.Error.SharedVariance, hold = limit.HoldVariance;
        double s1 = 0, sg = 0, sgg = 0, s1r = 0, sgr = 0, srr = 0;
        int n = run.Bar.Length;
        for (int i = 0; i < n; i++)
        {
            double g = Shape(run.Minutes[i], tau, rise), r = run.Bar[i] - bias - (limit.From * g);
            s1 += 1;
            sg += g;
            sgg += g * g;
            s1r += r;
            sgr += g * r;
            srr += r * r;
        }

        // M = C^-1 + U' D^-1 U with U = [1, g], C = diag(shared, hold), D = own x I
        double a = (1 / shared) + (s1 / own), b = sg / own, c = (1 / hold) + (sgg / own);
        double det = (a * c) - (b * b), u = s1r / own, v = sgr / own;
        double quad = (srr / own) - (((c * u * u) - (2 * b * u * v) + (a * v * v)) / det);
        double logDet = (n * Math.Log(own)) + Math.Log(shared) + Math.Log(hold) + Math.Log(det);

        // p0 given the readings: normal again; its share above 0 against the prior's
        double mean = limit.From + (((a * v) - (b * u)) / det), sd = Math.Sqrt(a / det);
        double above = NormalTail.Above(-mean / sd) / NormalTail.Above(-limit.From / Math.Sqrt(hold));
        return Math.Exp(-0.5 * (quad + logDet + (n * Math.Log(2 * Math.PI)))) * above;
    }
}
