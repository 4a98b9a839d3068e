using FuelHistory.Core.Readings;
using MathNet.Numerics.Integration;

namespace FuelHistory.Core.LeakDown;

/// <summary>What will be said of a leak-down not yet made, or made without figures: P(hold), P(slow), P(fast), P(steep-then-flat) at a
/// leak level (MODEL.md 6).</summary>
internal static class LeakOutcomes
{
    public static readonly string[] Names = ["hold", "slow", "fast", "steep-then-flat"];

    /// <summary>Below this, bar, at the limit's time a pressure has fallen fast.</summary>
    public const double FastBelow = 0.3;

    private const double Panel = 0.45;

    private static readonly (double X, double W)[] Eight = Points(8), Sixteen = Points(16);

    /// <summary>In the order of <see cref="Names"/>, the gauge's errors included.</summary>
    public static double[] Of(ReadingError error, double bias, LeakLimit limit, int level, bool storeLost)
    {
        double sd = Math.Sqrt(error.SharedVariance + error.OwnVariance);
        double hold = 0, slow = 0, flat = 0;
        foreach (LeakLaw law in LeakLaws.All.Where(l => LeakLaws.Weight(l, storeLost) > 0))
        {
            double weight = LeakLaws.Weight(law, storeLost);
            double above = weight * OverTau(limit, level, storeLost, tau => Above(law, limit, tau, limit.Low - bias, sd));
            double moving = Math.Max(above, weight * OverTau(limit, level, storeLost, tau => Above(law, limit, tau, FastBelow - bias, sd)));
            hold += above;
            slow += law == LeakLaw.Settle ? 0 : moving - above;
            flat += law == LeakLaw.Settle ? moving - above : 0;
        }

        return [hold, slow, Math.Max(0, 1 - hold - slow - flat), flat];
    }

    /// <summary>P(the reading at the limit's time is at least a pressure).</summary>
    private static double Above(LeakLaw law, LeakLimit limit, double tau, double bar, double sd)
    {
        double t = limit.Minutes, sum = 0;
        foreach ((double rise, double weight) in LeakLaws.Soaks)
        {
            double soak = LeakLaws.Soak(t, rise);
            sum += weight * (law switch
            {
                LeakLaw.Seep => Straight(soak * LeakLaws.Seep(t, tau)),
                LeakLaw.Orifice => Straight(soak * LeakLaws.Orifice(t, tau)),
                LeakLaw.Collapse => Collapse(limit, t / tau, bar / soak, sd / soak),
                _ => Mean(Eight, LeakLaws.KeptFrom, LeakLaws.KeptTo, f => Mean(Eight, limit.Settles.From, limit.Settles.To, ts => Straight(soak * LeakLaws.Settle(t, tau, f, ts)))),
            });
        }

        return sum;

        double Straight(double g) => NormalTail.Above((bar - (limit.From * g)) / Math.Sqrt((sd * sd) + (g * g * limit.HoldVariance)));
    }

    /// <summary>Over hold pressure and error by quadrature; over the pressure of the empty store in closed form.</summary>
    private static double Collapse(LeakLimit limit, double times, double bar, double sd)
    {
        double holdSd = Math.Sqrt(limit.HoldVariance);
        return Normal(Sixteen, z =>
        {
            double hold = Math.Max(1e-6, limit.From + (holdSd * z));
            return Normal(Eight, e => NotBelow(hold, times, bar - (sd * e)));
        });
    }

    /// <summary>P(pressure is at least y | hold pressure, time in time constants): the store must be empty at no more than a certain pressure.</summary>
    private static double NotBelow(double hold, double times, double y)
    {
        if (y <= hold * Math.Exp(-LeakLaws.Faster * times))
        {
            return 1;
        }

        // not empty yet: y is below the seep; empty at z on the way: z^-9 hold^10 exp(-10 t/tau) = y
        double seep = hold * Math.Exp(-times);
        return y > seep ? 0 : Math.Clamp((Math.Pow(seep / y, 1 / (LeakLaws.Faster - 1)) * seep) - LeakLaws.EmptyFrom, 0, LeakLaws.EmptyTo - LeakLaws.EmptyFrom) / (LeakLaws.EmptyTo - LeakLaws.EmptyFrom);
    }

    /// <summary>Mean over the level's log-uniform range.</summary>
    private static double OverTau(LeakLimit limit, int level, bool storeLost, Func<double, double> value)
    {
        (double shortest, double longest) = limit.TauRange(level, storeLost);
        double from = Math.Log(shortest), to = Math.Log(longest);
        int panels = (int)Math.Ceiling((to - from) / Panel);
        double width = (to - from) / panels;
        return Enumerable.Range(0, panels).Sum(k => Mean(Eight, from + (k * width), from + ((k + 1) * width), x => value(Math.Exp(x)))) / panels;
    }

    private static double Mean((double X, double W)[] rule, double from, double to, Func<double, double> value)
    {
        double sum = 0;
        foreach ((double x, double w) in rule)
        {
            sum += w / 2 * value(((from + to) / 2) + ((to - from) / 2 * x));
        }

        return sum;
    }

    /// <summary>Mean over a standard normal, five standard deviations either way.</summary>
    private static double Normal((double X, double W)[] rule, Func<double, double> value)
    {
        double sum = 0, weights = 0;
        foreach ((double x, double w) in rule)
        {
            double z = 5 * x, weight = w * Math.Exp(-0.5 * z * z);
            sum += weight * value(z);
            weights += weight;
        }

        return sum / weights;
    }

    private static (double X, double W)[] Points(int order)
    {
        var rule = new GaussLegendreRule(-1, 1, order);
        return [.. Enumerable.Range(0, order).Select(i => (rule.GetAbscissa(i), rule.GetWeight(i)))];
    }
}
