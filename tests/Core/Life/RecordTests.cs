using CsCheck;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Life;

/// <summary>What dated entries of a record do to the belief about a part, on the real fault model.</summary>
public sealed class RecordTests
{
    public static TheoryData<string> Parts => [.. Cars.Counted.Where(c => c.Modes.Any(m => m.Life.Shape > 1)).Select(c => c.Id)];

    private static readonly DateOnly Day = Cars.Day;

    [Theory]
    [MemberData(nameof(Parts))]
    public void Fitted_the_less_surely_we_know_the_less_it_counts(string part)
    {
        double[] bad = [.. new[] { Known.DidIt, Known.Invoice, Known.Told }.Select(k => Cars.Old.With(part, Day.AddYears(-2), k).Bad(part, null)), Cars.Old.Bad(part, null)];

        Assert.True(bad[0] < bad[1] && bad[1] < bad[2] && bad[2] < bad[3], string.Join(" < ", bad));
    }

    [Theory]
    [MemberData(nameof(Parts))]
    public void Fitted_told_is_the_mixture_of_done_and_not_done(string part)
    {
        // a complete record: else unknown parts may have come in up to the entry that fits one, and "done" would move them too
        CarRecord car = Cars.Old with { Complete = true };
        double told = ModelFile.Model.Told.Told;
        double[] perhaps = car.With(part, Day.AddYears(-2), Known.Told).States(part, null), done = car.With(part, Day.AddYears(-2)).States(part, null),
            not = car.With(part, Day.AddYears(-2), action: WorkAction.Inspected).States(part, null);                   // cuts the ageing at the same day

        Assert.All(perhaps.Select((p, i) => (p, (told * done[i]) + ((1 - told) * not[i]))), p => Assert.Equal(p.Item2, p.p, 1e-12));
    }

    [Theory]
    [MemberData(nameof(Parts))]
    public void Fitted_new_is_suspected_less_than_old_and_never_zero(string part)
    {
        double fresh = Cars.Old.With(part, Day.AddDays(-20)).Bad(part, null), old = Cars.Old.With(part, Day.AddYears(-25)).Bad(part, null);

        Assert.InRange(fresh, 1e-4, old / 1.5);
    }

    [Fact]
    public void Fitted_quality_counts()
    {
        double Bad(PartQuality quality) => Cars.Old.With("check-valve", Day.AddDays(-10), quality: quality).Bad("check-valve", null);

        Assert.True(Bad(PartQuality.New) < Bad(PartQuality.Rebuilt) && Bad(PartQuality.Rebuilt) < Bad(PartQuality.NewUnbranded) && Bad(PartQuality.NewUnbranded) < Bad(PartQuality.Used));
        Assert.Equal(0.03 / 2, Cars.Old.With("check-valve", Day).Bad("check-valve", null), 1e-12); // fitted today: half of d is bad now
    }

    [Fact]
    public void Fitted_pump_brings_its_check_valve()
    {
        Assert.Equal(Cars.Old.With("check-valve", Day.AddYears(-1)).Bad("check-valve", null), Cars.Old.With("pump", Day.AddYears(-1)).Bad("check-valve", null), 1e-12);
    }

    [Theory]
    [MemberData(nameof(Parts))]
    public void Ran_well_lately_lowers_suspicion_and_leaves_some(string part)
    {
        double known = Cars.Old.Bad(part, Day), longAgo = Cars.Old.Bad(part, Day.AddYears(-1)), unknown = Cars.Old.Bad(part, null);

        Assert.True(known > 0 && known < longAgo && longAgo < unknown, $"{known} < {longAgo} < {unknown}");
    }

    [Theory]
    [MemberData(nameof(Parts))]
    public void Ran_well_today_with_a_complete_record_is_bayes_with_the_unnoticed_shares(string part)
    {
        CarRecord car = Cars.Old with { Complete = true };
        double[] before = car.States(part, null), after = car.States(part, Day);
        double[] weights = [before[0], .. Cars.Part(part).Modes.Select((m, i) => before[i + 1] * m.Unnoticed)];

        Assert.All(weights.Select(w => w / weights.Sum()).Zip(after), p => Assert.Equal(p.First, p.Second, 1e-12));
    }

    [Theory]
    [InlineData("pump-trigger")]
    [InlineData("tank-cap")]
    public void Laid_up_where_standing_does_no_harm_changes_nothing(string part)
    {
        // the same 30 years of use, five more of standing
        CarRecord used = new() { FirstUse = Day.AddYears(-30) };
        CarRecord stood = new() { FirstUse = Day.AddYears(-35), LayUps = [new LayUpSpan("l", Day.AddYears(-5), Day)] };

        Assert.Equal(used.With(part, Day.AddYears(-29)).Bad(part, null), stood.With(part, Day.AddYears(-34)).Bad(part, null), 1e-3);
    }

    [Theory]
    [InlineData("accumulator")]
    [InlineData("pump")]
    [InlineData("supply-hoses")]
    public void Laid_up_counts_as_parked_and_less_than_use(string part)
    {
        DateOnly fitted = Day.AddYears(-20), parked = Day.AddYears(-5);
        double stood = (Cars.Old with { LayUps = [new LayUpSpan("l", parked, Day)] }).With(part, fitted).Bad(part, null);
        double driven = Cars.Old.With(part, fitted).Bad(part, null);
        double before = 1 - new LifePrior(ModelFile.Model, Cars.Old.With(part, fitted), parked, null).Of(Cars.Part(part))[0];

        Assert.True(before < stood && stood < driven, $"{before} < {stood} < {driven}");
    }

    [Fact]
    public void Used_part_of_a_stated_age_is_between_new_and_as_old()
    {
        double Bad(double? age, PartQuality quality) => new LifePrior(ModelFile.Model, Cars.Old with
        {
            Work = [new WorkFact("w", Day.AddYears(-3), WorkAction.Fitted, ["accumulator"], Known.DidIt, quality, default, age)],
        }, Day, null).Of(Cars.Part("accumulator"))[0];

        Assert.True(Bad(null, PartQuality.New) > Bad(5, PartQuality.Used) && Bad(5, PartQuality.Used) > Bad(20, PartQuality.Used));
    }

    /// <summary>An entry that says nothing must not move the answer, wherever it cuts the record. P(ok) is exact; how a step's failures are
    /// shared among modes depends on the step to the second order, and "ran well" lets that through to P(ok).</summary>
    [Fact]
    public void Competing_modes_do_not_depend_on_how_the_record_is_cut() =>
        Gen.Select(Gen.Int[0, 45], Gen.Int[1, 39 * 365], Gen.Int[1, 39 * 365], Gen.Bool, Gen.Bool).Sample((index, cut, fit, fitted, ran) =>
        {
            Component part = Cars.Counted.ElementAt(index);
            CarRecord car = fitted ? Cars.Old.With(part.Id, Cars.Old.FirstUse.AddDays(fit), Known.Told) : Cars.Old;
            DateOnly? ranWell = ran ? Day.AddDays(-30) : null;
            double[] plain = car.States(part.Id, ranWell), more = car.With(part.Id, Cars.Old.FirstUse.AddDays(cut), action: WorkAction.Inspected).States(part.Id, ranWell);

            Assert.Equal(plain[0], more[0], ran ? 1e-6 : 1e-12);
            Assert.All(plain.Zip(more), p => Assert.Equal(p.First, p.Second, 2e-5));
            Assert.Equal(1, more.Sum(), 1e-12);
        }, iter: 400);
}
