using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Life;

/// <summary>Half-known days against the plain sum over the days that each entry may have had (the oracle for spans).</summary>
public sealed class HalfKnownTests
{
    private const string Part = "accumulator";
    private static readonly DateOnly Day = Cars.Day;
    private static readonly CarRecord Complete = Cars.Old with { Complete = true };

    /// <summary>MODEL.md 2: the days of n equal parts, each in its middle, rounded down.</summary>
    private static IEnumerable<DateOnly> Days(DaySpan span, int n) =>
        Enumerable.Range(0, n).Select(j => span.From.AddDays((int)Math.Floor((2 * j + 1) * (span.To.DayNumber - span.From.DayNumber + 1) / (2.0 * n))));

    private static CarRecord Work(CarRecord car, DaySpan within, WorkAction action, DateOnly? day = null, LookResult? found = null) => car with
    {
        Work = [.. car.Work, new WorkFact($"w{car.Work.Count}", day ?? within.Middle, action, [Part], Known.DidIt, action == WorkAction.Fitted ? PartQuality.New : PartQuality.Unknown,
            new DateTimeOffset(2024, 1, 1, 0, 0, car.Work.Count, TimeSpan.Zero), Within: day is null ? within : null, Found: found)],
    };

    private static double[] States(CarRecord car) => car.States(Part, null);

    private static void Near(IEnumerable<double> expected, double[] actual) => Assert.All(expected.Zip(actual), p => Assert.Equal(p.First, p.Second, 1e-12));

    private static double[] Mean(IEnumerable<double[]> states)
    {
        double[][] all = [.. states];
        return [.. all[0].Select((_, i) => all.Average(s => s[i]))];
    }

    [Fact]
    public void Fitted_in_a_span_is_the_mean_over_eight_days()
    {
        DaySpan span = new(Day.AddYears(-25), Day.AddYears(-5));

        Near(Mean(Days(span, 8).Select(d => States(Work(Complete, span, WorkAction.Fitted, d)))), States(Work(Complete, span, WorkAction.Fitted)));
    }

    [Fact]
    public void Cleaned_in_a_span_is_the_mean_over_four_days_and_two_spans_over_all_pairs()
    {
        DaySpan fitted = new(Day.AddYears(-25), Day.AddYears(-15)), cleaned = new(Day.AddYears(-18), Day.AddYears(-2));
        double[] expected = Mean(Days(fitted, 8).SelectMany(f => Days(cleaned, 4).Select(c =>
            States(Work(Work(Complete, fitted, WorkAction.Fitted, f), cleaned, WorkAction.Cleaned, c)))));

        Near(expected, States(Work(Work(Complete, fitted, WorkAction.Fitted), cleaned, WorkAction.Cleaned)));
    }

    /// <summary>A look says how likely each fitting day was: the days weigh by what they let expect of it.</summary>
    [Fact]
    public void Fitted_in_a_span_and_looked_at_since_weighs_the_days_by_what_was_seen()
    {
        DaySpan span = new(Day.AddYears(-30), Day.AddYears(-4));
        DateOnly looked = Day.AddYears(-3);
        LookResult good = new(false, How: Look.Tested);
        Component part = Cars.Part(Part);
        double[] likelihood = PartLikelihood.Seen(part, good, []);
        var sum = new double[part.Modes.Count + 1];
        foreach (DateOnly fitted in Days(span, 8))
        {
            CarRecord car = Work(Complete, span, WorkAction.Fitted, fitted);
            double[] before = new LifePrior(ModelFile.Model, car, looked, null).Of(part);
            double weight = before.Zip(likelihood, (p, l) => p * l).Sum();
            double[] after = States(Work(car, default, WorkAction.Inspected, looked, good));
            for (int i = 0; i < sum.Length; i++)
            {
                sum[i] += weight * after[i];
            }
        }

        Near(sum.Select(s => s / sum.Sum()), States(Work(Work(Complete, span, WorkAction.Fitted), default, WorkAction.Inspected, looked, good)));
    }

    [Fact]
    public void Span_is_cut_at_first_use_and_at_the_day_of_the_prior()
    {
        DaySpan open = new(new DateOnly(1885, 1, 1), new DateOnly(2200, 1, 1)), cut = new(Complete.FirstUse, Day);

        CarRecord known = Work(Complete, cut, WorkAction.Fitted);

        Near(States(known), States(known with { Work = [known.Work[0] with { Within = open }] }));
    }

    [Fact]
    public void Year_counts_by_its_middle_day()
    {
        DaySpan year = new(new DateOnly(2008, 1, 1), new DateOnly(2008, 12, 31));

        Assert.Equal(States(Work(Complete, year, WorkAction.Fitted, year.Middle)), States(Work(Complete, year, WorkAction.Fitted)));
    }

    [Fact]
    public void Three_spans_are_the_mean_over_four_days_each()
    {
        DaySpan[] spans = [.. new[] { 30, 22, 12 }.Select(years => new DaySpan(Day.AddYears(-years), Day.AddYears(9 - years)))];
        CarRecord At(DateOnly[] days) => spans.Zip(days).Aggregate(Complete, (car, s) => Work(car, s.First, WorkAction.Cleaned, s.Second));
        double[] expected = Mean(Days(spans[0], 4).SelectMany(a => Days(spans[1], 4).SelectMany(b => Days(spans[2], 4).Select(c => States(At([a, b, c]))))));

        Near(expected, States(spans.Aggregate(Complete, (car, s) => Work(car, s, WorkAction.Cleaned))));
    }

    [Fact]
    public void More_than_three_spans_count_by_their_middles_and_say_so()
    {
        DaySpan[] spans = [.. Enumerable.Range(1, 4).Select(i => new DaySpan(Day.AddYears(-6 * i), Day.AddYears((-6 * i) + 4)))];
        CarRecord half = spans.Aggregate(Complete, (car, s) => Work(car, s, WorkAction.Cleaned)), middles = spans.Aggregate(Complete, (car, s) => Work(car, s, WorkAction.Cleaned, s.Middle));

        Assert.Equal(States(middles), States(half));
        Assert.Equal([Part], new LifePrior(ModelFile.Model, half, Day, null).ByMiddleDays().Select(c => c.Id));
        Assert.Empty(new LifePrior(ModelFile.Model, half with { Work = [.. half.Work.Take(3)] }, Day, null).ByMiddleDays());
    }

    [Fact]
    public void Laid_up_until_nobody_knows_when_lies_between_the_shortest_and_the_longest()
    {
        DateOnly from = Day.AddYears(-20);
        double Used(LayUpSpan layUp) => new LifePrior(ModelFile.Model, Cars.Old with { LayUps = [layUp] }, Day, null).ExposureAt(Day).UsedYears;
        double unknown = Used(new("l", from, from.AddYears(10), ToWithin: new DaySpan(from, Day)));

        Assert.Equal(30, unknown, 0.05);
        Assert.Equal(20, Used(new("l", from, null)), 0.05);
        double neither = Used(new("l", from, Day, new DaySpan(from, Day), new DaySpan(from, Day)));
        Assert.InRange(neither, 30.5, 38);
    }

    [Fact]
    public void Unknown_work_lies_between_fitted_and_nothing()
    {
        DateOnly day = Day.AddYears(-2);
        double Bad(WorkAction action) => 1 - States(Work(Complete, default, action, day))[0];

        Assert.True(Bad(WorkAction.Fitted) < Bad(WorkAction.Unknown) && Bad(WorkAction.Unknown) < Bad(WorkAction.Inspected));
        Assert.Equal((Bad(WorkAction.Inspected) + 1 - new LifePrior(ModelFile.Model, Work(Complete, default, WorkAction.Fitted, day) with
        {
            Work = [Work(Complete, default, WorkAction.Fitted, day).Work[0] with { Quality = PartQuality.Unknown }],
        }, Day, null).Of(Cars.Part(Part))[0]) / 2, Bad(WorkAction.Unknown), 1e-12);
    }

    [Fact]
    public void Inspected_good_clears_what_eyes_see_and_tested_quarters_the_odds()
    {
        double Odds(LookResult? look)
        {
            double bad = 1 - States(look is null ? Complete : Work(Complete, default, WorkAction.Inspected, Day, look))[0];
            return bad / (1 - bad);
        }

        Assert.Equal(4, Odds(null) / Odds(new LookResult(false, How: Look.Tested)), 1e-9);
        Assert.True(Odds(new LookResult(false)) < Odds(null));
        Assert.True(Odds(new LookResult(true)) > 15 * Odds(null));
    }
}
