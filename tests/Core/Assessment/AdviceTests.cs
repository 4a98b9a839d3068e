using FuelHistory.Core.Assessment;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Readings;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>What is foreseen of checks must average to what is believed today; and behaviour that common practice demands of advice.</summary>
public class AdviceTests
{
    private static readonly RealCase Complaint = new RealCase().Present("hard-start-hot", "hot-catches-and-dies").Read("system-pressure", 4.9).Watched("leak-down-whole", (10, 0.8));

    /// <summary>The law of total probability (sum over the outcomes of P(outcome) P(fault | outcome) = P(fault)) for every check not yet made: P(bad)
    /// and what a part explains alike, measured values in their cells.</summary>
    [Fact]
    public void Foreseen_outcomes_of_every_check_average_to_what_is_believed_today()
    {
        Situation situation = Complaint.Situation();
        ModelIndex index = situation.Index;
        Ranking today = Ranking.Of(situation)!;
        int part = index.Part("pressure-regulator");
        Foreseen[] checks = [.. Foreseeable(Complaint)];
        Assert.InRange(checks.Count(c => c.Bands is not null), 10, 100);
        var book = new OutcomeBook(situation, checks, Enumerable.Range(0, checks.Length).ToHashSet());
        for (int k = 0; k < checks.Length; k++)
        {
            double[] p = book.Of(k, null)!;
            Assert.Equal(1, p.Sum(), 1e-9);
            var suspect = new Suspect(part, 0, 0, new Relief(new Repair(false, part), [situation.Items[0]]), situation);
            double relieved = p.Select((q, cell) => q <= 0 ? 0 : today.Relieved(0, suspect.Relief.Repair) * book.Of(k, suspect)![cell]).Sum();
            Assert.Equal(today.Explains(part, 0), relieved, 1e-9);
        }
    }

    /// <summary>The same with every outcome entered as a finding, so that P(bad) after it is computed anew.</summary>
    [Theory]
    [InlineData("control-warm")]
    [InlineData("pump-voltage")]
    [InlineData("bleed-recover")]
    [InlineData("injector-tips")]
    public void Foreseen_outcomes_entered_one_by_one_average_to_todays_ranking(string check)
    {
        Situation situation = Complaint.Situation();
        Foreseen foreseen = Foreseeable(Complaint).Single(c => c.Check.Source.Id == check);
        Ranking today = Ranking.Of(situation)!;
        double[] bad = new double[today.States.Length], explains = new double[today.States.Length];
        using Foresight plain = situation.Foresee(null, foreseen.Conditions(situation.Index), []);
        double[] p = plain.Outcomes(foreseen);
        Assert.InRange(p.Length, 2, 40);
        for (int cell = 0; cell < p.Length; cell++)
        {
            Ranking then = Ranking.Of(situation.With(evidence: [.. situation.Evidence, new Shown(foreseen, cell)]))!;
            Assert.Equal(p[cell], Math.Exp(then.LogWeight - today.LogWeight), 1e-9);
            for (int i = 0; i < bad.Length; i++)
            {
                bad[i] += p[cell] * then.Bad(i);
                explains[i] += p[cell] * (i == situation.Index.Part("pressure-regulator") ? then.Explains(i) : 0);
            }
        }

        Assert.All(Enumerable.Range(0, bad.Length), i => Assert.Equal(today.Bad(i), bad[i], 1e-9));
        Assert.Equal(today.Explains(situation.Index.Part("pressure-regulator")), explains[situation.Index.Part("pressure-regulator")], 1e-9);
    }

    [Fact]
    public void Measured_values_are_foreseen_in_15_to_31_cells_of_about_equal_probability()
    {
        Situation situation = Complaint.Situation();
        Foreseen voltage = Foreseeable(Complaint).Single(c => c.Check.Source.Id == "pump-voltage");
        using Foresight plain = situation.Foresee(null, voltage.Conditions(situation.Index), []);
        double[] p = plain.Outcomes(voltage);
        Assert.InRange(p.Length, 15, 31);
        Assert.All(p, q => Assert.InRange(q, 0, 0.11));
    }

    /// <summary>A part cleaned during the search depends on what it was before, also where no finding since then asks for it.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Foreseen_look_at_a_part_just_cleaned_agrees_with_making_it(bool opened)
    {
        RealCase start = new RealCase().Present("hard-start-hot");
        start = opened ? start.Opened("throttle", "bad", "hangs-open") : start;
        RealCase cleaned = start.Work("throttle", RealCase.Day, Known.DidIt, action: WorkAction.Cleaned) with { Now = start.Now.AddHours(1) };
        cleaned = cleaned.Present("hard-start-hot");
        Situation situation = cleaned.Situation();
        Foreseen[] checks = [.. Foreseeable(cleaned).Where(c => c.Check.Source.Id == "throttle-look")];
        double[] look = new OutcomeBook(situation, checks, new HashSet<int> { 0 }).Of(0, null)!;
        string[] outcomes = checks[0].Check.OutcomeIds;
        double today = situation.LogWeight();
        Assert.All(outcomes.Zip(look), o => Assert.Equal(Math.Exp(cleaned.Saw("throttle-look", o.First).Situation().LogWeight() - today), o.Second, 1e-9));
        Assert.InRange(look[Array.IndexOf(outcomes, "hangs")], opened ? 0.04 : 0.01, opened ? 0.4 : 0.04);
    }

    /// <summary>Common practice: who has the proof in hand repairs, and measures afterwards.</summary>
    [Fact]
    public void Proved_part_leaves_no_check_with_positive_saving()
    {
        RealCase proved = Complaint.Watched("leak-down-return-shut", (10, 2.7)).Opened("pressure-regulator", "bad", "leaks-at-rest");
        Assert.Equal("pressure-regulator", proved.Answer().Ranking[0].Component);
        Assert.All(proved.Advice().NextChecks, c => Assert.False(c.Pays || c.Saving > 0, $"{c.Check} {c.Saving}"));
    }

    [Fact]
    public void Hook_up_shared_by_checks_that_pay_is_charged_in_shares_and_named()
    {
        AdviceAnswered answer = new RealCase().Present("hard-start-hot", "hot-catches-and-dies").Advice();
        CheckAdvice[] sharing = [.. answer.NextChecks.Where(c => c.SameSetup.Count > 0)];
        Assert.NotEmpty(sharing);
        string[] payers = [.. sharing.SelectMany(c => c.SameSetup).Distinct()];
        Assert.All(payers, p => Assert.Equal(payers.Except([p]).Order(), answer.NextChecks.Single(c => c.Check == p).SameSetup.Order()));
        Assert.All(sharing, c => Assert.True(c.SetupMinutes > 0 && c.Minutes > c.SetupMinutes));

        // once it is there it costs nothing more
        AdviceAnswered after = new RealCase().Present("hard-start-hot", "hot-catches-and-dies").Read("system-pressure", 5).Advice();
        string setup = RealCase.Compiled.Index.Check("system-pressure").Source.Setup!;
        Assert.All(after.NextChecks.Where(c => !c.Trial && RealCase.Compiled.Index.Check(c.Check).Source.Setup == setup), c => Assert.Equal(0, c.SetupMinutes));
    }

    [Fact]
    public void Old_reading_still_counts_for_untouched_parts_after_a_repair()
    {
        RealCase with = Complaint.Saw("accumulator-vent", "yes").Fitted("check-valve").Watched("leak-down-whole", (10, 0.8)), without = with.Without(with.Car.Findings.Single(f => f.Check == "accumulator-vent").Id);
        double seen = with.Bad()["accumulator"], unseen = without.Bad()["accumulator"];
        Assert.True(seen / (1 - seen) > 1.3 * unseen / (1 - unseen), $"{unseen} to {seen}");
    }

    private static IEnumerable<Foreseen> Foreseeable(RealCase car)
    {
        Investigation investigation = Investigation.From(car.Model.Index, car.Input());
        var evidence = new EvidenceList(car.Model.Index, investigation);
        HashSet<string?> done = [.. investigation.Findings.Select(f => f.Check)];
        return [.. car.Model.Index.Checks.Where(c => !done.Contains(c.Source.Id)).Select(c => CheckAdvisor.Foresee(c, evidence, investigation)).OfType<Foreseen>()];
    }

    /// <summary>A foreseen cell as a finding: the gauge sound and tight, the fault acting, chance drawn afresh.</summary>
    private sealed record Shown(Foreseen Foreseen, int Cell) : Evidence([])
    {
        public override IEnumerable<(int, int)> Asked(ModelIndex index) => Foreseen.Conditions(index).Select(c => (0, c));

        public override Evidence? AfterFirst() => null;

        public override IEnumerable<Otherwise> Otherwise() => [];

        public override void Enter(EvidenceCircuit circuit, Omitted? without)
        {
            if (Foreseen.Bands is null)
            {
                Foreseen.Check.Gate!.Enter(circuit.Circuit, 0, Cell, true, -1, null, true, -1);
                return;
            }

            Node node = circuit.Circuit.Condition(0, Foreseen.Check.Condition);
            int min = circuit.Circuit.Index.Conditions[Foreseen.Check.Condition].Min;
            ReadingCells cells = Foreseen.Cells([]);
            circuit.Circuit.Network.Add([node.Variable], at => cells.At(Cell, node.Levels[at[0]] - min));
        }
    }
}
