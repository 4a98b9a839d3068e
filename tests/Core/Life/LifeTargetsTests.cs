using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;
using FuelHistory.Tests.Core.Assessment;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Life;

/// <summary>The sanity targets of MODEL.md 2 (engineering judgement) on the real fault model.</summary>
public sealed class LifeTargetsTests
{
    public static TheoryData<string> Symptoms => [.. ModelFile.Model.Symptoms.Select(s => s.Id)];

    /// <summary>The car with every symptom at once: a stock from which one at a time is taken.</summary>
    private static readonly Situation All = new RealCase { Car = Cars.Old }.Present([.. ModelFile.Model.Symptoms.Select(s => s.Id)]).Situation();

    [Fact]
    public void Old_car_in_regular_use_has_about_one_bad_part()
    {
        var life = new LifePrior(ModelFile.Model, Cars.Old, Cars.Day, Cars.Day);

        Assert.InRange(Cars.Counted.Sum(c => 1 - life.Of(c)[0]), 0.4, 1.2);
    }

    [Fact]
    public void Car_laid_up_for_five_years_often_has_more_than_one_bad_part()
    {
        DateOnly parked = Cars.Day.AddYears(-5);
        var life = new LifePrior(ModelFile.Model, Cars.Old with { LayUps = [new LayUpSpan("l", parked, Cars.Day)] }, Cars.Day, parked);

        // components are independent before any finding, so the chances of none and of exactly one follow part by part
        double none = 1, one = 0;
        foreach (Component c in Cars.Counted)
        {
            double ok = life.Of(c)[0];
            (none, one) = (none * ok, (one * ok) + (none * (1 - ok)));
        }

        Assert.InRange(1 - none - one, 0.25, 0.60);
    }

    [Theory]
    [MemberData(nameof(Symptoms))]
    public void One_clear_symptom_adds_about_one_bad_part(string symptom)
    {
        SymptomEvidence asked = All.Evidence.OfType<SymptomEvidence>().Single(e => e.Symptom.Source.Id == symptom);
        Situation situation = All.With(evidence: [asked]);
        double[][] states = situation.States(out double log)!;
        double background = asked.Symptom.Source.Background;

        double bad = Cars.Counted.Sum(c => 1 - states[situation.Index.Part(c.Id)][0]);
        Assert.InRange(bad, 1.2, 2.2);

        // P(no modelled component that can cause it is bad): "ok" entered on all of them
        bool[] causes = Ancestors.Of(situation.Index, [asked.Symptom]);
        Evidence[] ok = [.. situation.Index.Parts.Where(p => causes[p.Index] && !p.Source.Instrument && p.Id != ModelIndex.Elsewhere)
            .Select(p => new SeenEvidence("", 0, p.Index, false, [1, .. p.Source.Modes.Select(_ => 0.0)], []))];
        double none = Math.Exp(situation.With(evidence: [asked, .. ok]).LogWeight() - log);

        // broad symptoms have a background of 0.015 and more, narrow ones 0.003 and less (MODEL.md 4); between them the wider limits hold
        Assert.InRange(none, background >= 0.015 ? 0.05 : 0.01, background <= 0.003 ? 0.15 : 0.35);
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
