using CsCheck;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;

namespace FuelHistory.Tests.Core.LeakDown;

/// <summary>The seep law against a fine grid over time constant and hold pressure that shares nothing with it.</summary>
public sealed class SeepLawTests
{
    private static readonly LeakLimit Limit = LeakLimit.For(3, [(10, 1.7)])!;

    private static readonly ReadingError Gauge = new(0.16 * 0.16 / 3, (0.02 * 0.02 / 12) + (0.03 * 0.03), 10, 10);

    public static TheoryData<int, bool> Cases => new() { { 0, false }, { 1, false }, { 2, false }, { 3, false }, { 0, true }, { 2, true } };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Likelihood_equals_the_grid_over_tau_and_hold(int level, bool lost) =>
        Gen.Select(Gen.Double[0.2, 3], Gen.Double[0.05, 1.02], Gen.Double[-0.3, 0.3]).Sample((first, kept, bias) =>
        {
            var run = new WatchedPressure([5, 10], [first, first * kept], Gauge);

            Assert.InRange(SeepLaw.Likelihood([run], bias, Limit, level, lost) / Grid([run], bias, level, lost), 1 - 1e-4, 1 + 1e-4);
        }, iter: 2);

    [Fact]
    public void Likelihood_of_two_runs_shares_the_leak_and_not_the_hold()
    {
        WatchedPressure[] runs = [new([10], [1.2], Gauge), new([10, 20], [1.1, 0.5], Gauge)];

        Assert.InRange(SeepLaw.Likelihood(runs, 0, Limit, 1, false) / Grid(runs, 0, 1, false), 1 - 1e-4, 1 + 1e-4);
    }

    [Fact]
    public void Likelihood_follows_the_closed_form_of_the_law()
    {
        // p0 exp(-t / tau): readings on the curve of a tau in the middle of its level tell for that level and no other
        foreach ((int level, double share) in new[] { (0, 5.0), (1, 0.6), (2, 0.1) })
        {
            double tau = share * Limit.ShortestTau;
            double[] minutes = [.. new[] { 0.2, 0.5, 1 }.Select(m => m * Math.Min(tau, 20))];
            var run = new WatchedPressure(minutes, [.. minutes.Select(t => 3 * Math.Exp(-t / tau))], Gauge);
            double[] all = [.. Enumerable.Range(0, 4).Select(l => SeepLaw.Likelihood([run], 0, Limit, l, false))];

            Assert.Equal(level, Array.IndexOf(all, all.Max()));
            Assert.True(all[level] > 0.6 * all.Sum(), string.Join(' ', all));
        }
    }

    [Fact]
    public void Likelihood_ten_readings_of_one_leak_down_do_not_count_ten_times()
    {
        // all within half a minute around the limit's time: one look at the gauge, written down ten times
        double Ratio(int n, double bar)
        {
            double[] minutes = [.. Enumerable.Range(0, n).Select(i => 10 + (0.05 * i))];
            var run = new WatchedPressure(minutes, [.. minutes.Select(_ => bar)], Gauge);
            return SeepLaw.Likelihood([run], 0, Limit, 1, false) / SeepLaw.Likelihood([run], 0, Limit, 0, false);
        }

        Assert.True(Ratio(1, 1.2) > 2);
        Assert.InRange(Math.Log(Ratio(10, 1.2)) / Math.Log(Ratio(1, 1.2)), 0.7, 1.5);
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Outcomes_sum_to_one_and_follow_the_level(int level, bool lost)
    {
        double[] outcomes = SeepLaw.Outcomes(Gauge, 0, Limit, level, lost);

        Assert.Equal(1, outcomes.Sum(), 1e-4);
        Assert.All(outcomes, p => Assert.InRange(p, 0, 1));
        Assert.True(level == 3 || outcomes[2] < SeepLaw.Outcomes(Gauge, 0, Limit, level + 1, lost)[2], "a larger leak falls fast more often");
        Assert.True(level == 0 || outcomes[0] < SeepLaw.Outcomes(Gauge, 0, Limit, level - 1, lost)[0], "a smaller leak holds more often");
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Outcomes_equal_the_grid(int level, bool lost)
    {
        double[] expected = new double[3];
        double sd = Math.Sqrt(Gauge.SharedVariance + Gauge.OwnVariance);
        Walk(level, lost, 100, (weight, tau) =>
        {
            foreach ((double rise, double share) in Soak)
            {
                Hold((p, w) =>
                {
                    double x = p * Shape(Limit.Minutes, tau, rise);
                    double hold = Above((Limit.Low - x) / sd), moving = Above((0.3 - x) / sd);
                    expected[0] += weight * share * w * hold;
                    expected[1] += weight * share * w * (moving - hold);
                    expected[2] += weight * share * w * (1 - moving);
                });
            }
        });

        // the program lets the hold pressure run below 0 here, where the normal curve (15 %) has nothing left
        Assert.All(expected.Zip(SeepLaw.Outcomes(Gauge, 0, Limit, level, lost)), p => Assert.Equal(p.First, p.Second, 2e-4));
    }

    private static readonly (double Rise, double Share)[] Soak = [(0, 0.5), (0.05, 0.25), (0.1, 0.25)];

    private static double Shape(double t, double tau, double rise) => Math.Exp(-t / tau) * (1 + (rise * t / 12 * Math.Exp(1 - (t / 12))));

    /// <summary>Readings normal given tau, hold and heat soak; the gauge's shared error on a grid of its own for runs of more than one reading.</summary>
    private static double Grid(WatchedPressure[] runs, double bias, int level, bool lost)
    {
        double sum = 0;
        Walk(level, lost, 300, (weight, tau) =>
        {
            double product = 1;
            foreach (WatchedPressure run in runs)
            {
                double density = 0;
                foreach ((double rise, double share) in Soak)
                {
                    Hold((p0, w) => density += share * w * Shared([.. run.Minutes.Select((t, i) => run.Bar[i] - bias - (p0 * Shape(t, tau, rise)))]));
                }

                product *= (0.98 * density) + (0.02 * Math.Pow(10, -run.Bar.Length));
            }

            sum += weight * product;
        });
        return sum;
    }

    /// <summary>Density of residuals with one error shared by all: two-dimensional normal written out; one reading has the plain sum.</summary>
    private static double Shared(double[] r)
    {
        double s = Gauge.SharedVariance, e = Gauge.OwnVariance, v = s + e;
        if (r.Length == 1)
        {
            return Math.Exp(-r[0] * r[0] / (2 * v)) / Math.Sqrt(2 * Math.PI * v);
        }

        double rho = s / v, q = ((r[0] * r[0]) - (2 * rho * r[0] * r[1]) + (r[1] * r[1])) / (v * (1 - (rho * rho)));
        return Math.Exp(-q / 2) / (2 * Math.PI * v * Math.Sqrt(1 - (rho * rho)));
    }

    /// <summary>ln(tau) over the level's range, weights of Simpson's rule, which sum to 1.</summary>
    private static void Walk(int level, bool lost, int steps, Action<double, double> at)
    {
        (double low, double high) = level switch { 0 => (1.0, 30.0), 1 => (1.0 / 3, 1.0), 2 => (1.0 / 30, 1.0 / 3), _ => (1.0 / 1000, 1.0 / 30) };
        double limit = 10 / Math.Log(3 / 1.7) / (lost ? 8 : 1), from = Math.Log(low * limit), to = Math.Log(high * limit);
        for (int i = 0; i <= steps; i++)
        {
            at((i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2) / (3.0 * steps), Math.Exp(from + ((to - from) * i / steps)));
        }
    }

    /// <summary>Hold pressure, normal around 3 bar with 15 %, above 0; weights sum to 1.</summary>
    private static void Hold(Action<double, double> at)
    {
        const double Sd = 0.45;
        const int Steps = 160;
        double low = Math.Max(0, 3 - (7 * Sd)), high = 3 + (7 * Sd), h = (high - low) / Steps;
        for (int i = 0; i < Steps; i++)
        {
            double p = low + ((i + 0.5) * h);
            at(p, h * Math.Exp(-(p - 3) * (p - 3) / (2 * Sd * Sd)) / (Sd * Math.Sqrt(2 * Math.PI)));
        }
    }

    /// <summary>P(Z above z) by Simpson's rule; the program uses erfc.</summary>
    private static double Above(double z)
    {
        if (Math.Abs(z) > 9)
        {
            return z > 0 ? 0 : 1;
        }

        const int Steps = 60;
        double h = z / Steps, sum = 1 + Math.Exp(-z * z / 2);
        for (int i = 1; i < Steps; i++)
        {
            double x = i * h;
            sum += (i % 2 == 1 ? 4 : 2) * Math.Exp(-x * x / 2);
        }

        return 0.5 - (sum * h / 3 / Math.Sqrt(2 * Math.PI));
    }
}
