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
    [InlineData("push-valve")]
    [InlineData("pump")]
    [InlineData("injectors")]
    [InlineData("supply-hoses")]
    [InlineData("warm-up-regulator")]
    [InlineData("distributor")]
    [InlineData("cold-start-valve")]
    [InlineData("air-valve")]
    [InlineData("thermo-time-switch")]
    [InlineData("intake-boot")]
    [InlineData("vacuum-hoses")]
    [InlineData("filter")]
    public void Two_similar_parts_suspicion_falls_on_the_older(string part)
    {
        DateOnly month = Cars.Day.AddDays(-30), long_ = Cars.Day.AddYears(-25);
        double after = Odds(long_, Cars.Day.AddDays(-60)) / Odds(month, Cars.Day.AddDays(-60));
        double before = Odds(long_, Cars.Day.AddDays(-15)) / Odds(month, Cars.Day.AddDays(-15));

        Assert.InRange(after, 1.5, 15);
        Assert.InRange(before, 5, 80);

        double Odds(DateOnly fitted, DateOnly ranWell)
        {
            double bad = Cars.Old.With(part, fitted).Bad(part, ranWell);
            return bad / (1 - bad);
        }
    }
}
