using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;
using FuelHistory.Tests.FaultModels;
using Reading = FuelHistory.Core.Readings.JointReadings.Reading;

namespace FuelHistory.Tests.Core.Readings;

/// <summary>A good reading never speaks for a fault, a bad one never against it, whatever the check (MODEL.md 5).</summary>
public sealed class MonotoneTests
{
    private const int Steps = 60;

    /// <summary>Every measuring check with a decent instrument, at the limit's every point.</summary>
    public static TheoryData<string, string> Checks
    {
        get
        {
            var all = new TheoryData<string, string>();
            foreach (string model in RealModels.Ids)
            {
                foreach (Check check in RealModels.Model(model).Checks.Where(c => c.Kind == CheckKind.Measurement))
                {
                    all.Add(model, check.Id);
                }
            }

            return all;
        }
    }

    [Theory]
    [MemberData(nameof(Checks))]
    public void Odds_of_every_bad_level_fall_inside_and_rise_outside(string model, string id)
    {
        (Check check, Condition condition) = Of(model, id);
        foreach (double? covariate in check.Covariate is null ? [null] : check.Limits!.Points.Select(p => p.At))
        {
            BandEdges bands = BandEdges.For(check, condition, null, covariate)!;
            foreach (int side in new[] { -1, 1 }.Where(s => s < 0 ? condition.Min < 0 : condition.Max > 0))
            {
                double limit = bands.Edges[side < 0 ? bands.Zero : bands.Zero + 1], far = bands.Edges[side < 0 ? bands.Zero + 1 : bands.Zero];
                Along(check, bands, side, limit, far, inside: true);
                Along(check, bands, side, limit, side < 0 ? bands.Edges[0] : bands.Top, inside: false);
            }
        }
    }

    /// <summary>From the limit, by half width, scatter and spread, on to the far end: ever less (more) odds, and odds below (above) 1.</summary>
    private static void Along(Check check, BandEdges bands, int side, double limit, double end, bool inside)
    {
        (_, double half) = Error(bands, check, limit);
        double start = limit + (Math.Sign(end - limit) * (half + check.Repeat + bands.Spread));
        if (Math.Sign(end - start) != Math.Sign(end - limit))
        {
            return;                                         // so narrow a band has no such place
        }

        for (int level = side < 0 ? 0 : bands.Zero + 1; level < (side < 0 ? bands.Zero : bands.Edges.Length - 1); level++)
        {
            double before = inside ? 1 : double.NegativeInfinity;
            for (int i = 0; i <= Steps; i++)
            {
                double x = start + ((end - start) * i / Steps), bad = Density(bands, check, x, level), good = Density(bands, check, x, bands.Zero);
                double slip = ReadingError.Slip / Error(bands, check, x).Error.Range;
                if (Math.Max(bad, good) < slip)
                {
                    break;
                }

                double odds = bad / good, outer = level == (side < 0 ? bands.Zero - 1 : bands.Zero + 1) ? 1 : 0;
                Assert.True(inside ? odds <= before * (1 + 1e-9) : odds >= before * (1 - 1e-9), $"{check.Id} level {level} at {x}: {odds} after {before}");
                Assert.True(inside ? odds < 1 : i > 0 || odds >= outer, $"{check.Id} level {level} at {x}: odds {odds}");
                before = odds;
            }
        }
    }

    [Theory]
    [InlineData("continuous-mechanical", "delivery-before-filter", 12.0, 1060)]
    [InlineData("continuous-mechanical", "dead-head", null, 5.4)]
    [InlineData("continuous-mechanical", "heater-ohms", null, 24)]
    public void Reading_inside_a_limit_of_one_side_speaks_against_the_fault(string model, string id, double? covariate, double x)
    {
        (Check check, Condition condition) = Of(model, id);
        BandEdges bands = BandEdges.For(check, condition, null, covariate)!;
        int bad = condition.Min < 0 ? bands.Zero - 1 : bands.Zero + 1;

        Assert.True(Density(bands, check, x, bad) < 0.6 * Density(bands, check, x, bands.Zero), $"{Density(bands, check, x, bad) / Density(bands, check, x, bands.Zero)}");
    }

    private static (Check, Condition) Of(string model, string id)
    {
        Check check = RealModels.Model(model).Checks.Single(c => c.Id == id);
        return (check, RealModels.Model(model).Conditions.Single(c => c.Id == check.Measures));
    }

    private static double Density(BandEdges bands, Check check, double x, int level)
    {
        (ReadingError error, _) = Error(bands, check, x);
        return JointReadings.Density([new Reading(0, x, error.SharedVariance, error.OwnVariance)], bands.Values(level), bands.Spread);
    }

    /// <summary>A checked instrument of class 1.6 that has the limits in the middle of its scale.</summary>
    private static (ReadingError Error, double Half) Error(BandEdges bands, Check check, double x)
    {
        double span = Math.Min(bands.Top, 2 * Math.Max(Math.Abs(bands.Edges[bands.Zero]), bands.Edges.Length - 2 == bands.Zero ? 0 : bands.Edges[bands.Zero + 1]));
        InstrumentFact gauge = new("gauge", span, 1.6, 0, null, null, new DateOnly(2025, 1, 1));
        return (ReadingError.Of(gauge, x, check.Repeat, bands.Top, new DateOnly(2025, 5, 1)), 1.6 * span / 100);
    }
}
