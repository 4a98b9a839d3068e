using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;
using FuelHistory.Tests.Core.Assessment;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Life;

/// <summary>The sanity targets of MODEL.md 2 (engineering judgement) on the real fault models.</summary>
public sealed class LifeTargetsTests
{
    public static TheoryData<string> Models => RealModels.All;

    [Theory]
    [MemberData(nameof(Models))]
    public void Old_car_of_each_model_is_believable(string model)
    {
        IReadOnlyList<SanityFigure> figures = SanityTargets.Of(RealModels.Compiled(model), Cars.Day);

        Assert.Equal(2 + (2 * RealModels.Model(model).Cells.Count), figures.Count);
        Assert.Empty(figures.Where(f => !f.Met).Select(f => $"{f.What}: {f.Value:0.###}, not {f.Low} to {f.High}"));
    }

    /// <summary>Parts that age, as the target means; those that fail by chance or outlive the car come nearer to even odds.</summary>
    [Theory]
    [InlineData("accumulator")]
    [InlineData("check-valve")]
    [InlineData("pressure-regulator")]
    [InlineData("pump")]
    [InlineData("injectors")]
    [InlineData("supply-hoses")]
    [InlineData("warm-up-regulator")]
    [InlineData("distributor")]
    [InlineData("cold-start-valve")]
    [InlineData("air-valve")]
    [InlineData("intake-boot")]
    [InlineData("vacuum-hoses")]
    [InlineData("filter")]
    public void Two_similar_parts_suspicion_falls_on_the_older(string part)
    {
        (double after, double before) = Older(part);

        Assert.InRange(after, 1.5, 15);
        Assert.InRange(before, 5, 80);
    }

    /// <summary>One new part in fifty is bad; of what hardly ever wears a new one is no less suspect than one that worked for decades.</summary>
    [Theory]
    [InlineData("push-valve")]
    [InlineData("thermo-time-switch")]
    public void Two_similar_parts_that_hardly_wear_come_near_even_odds(string part)
    {
        (double after, double before) = Older(part);

        Assert.InRange(after, 0.3, 1.5);
        Assert.True(before > after, $"{before} {after}");
    }

    /// <summary>Odds to be bad of one of 25 years over those of one of a month: the car ran well before the new one was fitted, and after it.</summary>
    private static (double After, double Before) Older(string part)
    {
        DateOnly month = Cars.Day.AddDays(-30), long_ = Cars.Day.AddYears(-25);
        double after = Odds(long_, Cars.Day.AddDays(-60)) / Odds(month, Cars.Day.AddDays(-60));
        double before = Odds(long_, Cars.Day.AddDays(-15)) / Odds(month, Cars.Day.AddDays(-15));

        return (after, before);

        double Odds(DateOnly fitted, DateOnly ranWell)
        {
            double bad = Cars.Old.With(part, fitted).Bad(part, ranWell);
            return bad / (1 - bad);
        }
    }
}
