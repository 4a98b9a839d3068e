using FuelHistory.Core.Assessment;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Why the answer is what it is: sequence, flips, and findings that do not fit, each against its own definition.</summary>
public class AccountTests
{
    private static readonly RealCase Complaint = new RealCase().Present("hard-start-hot", "hot-catches-and-dies").Absent("no-start").Read("system-pressure", 4.9).Watched("leak-down-whole", (10, 0.8)).Saw("bleed-recover", "no");

    [Fact]
    public void Sequence_every_step_is_the_belief_by_the_findings_up_to_it()
    {
        RankedFault leader = Complaint.Answer().Ranking[0];
        Assert.NotEmpty(leader.Sequence);
        Assert.All(leader.Sequence, step =>
        {
            string[] later = [.. Complaint.Car.Findings.Select(f => f.Id).SkipWhile(id => id != step.Id).Skip(1)];
            RealCase then = later.Aggregate(Complaint, (c, id) => c.Without(id));
            Assert.Equal(then.Bad()[leader.Component], step.Bad, 1e-9);
        });
    }

    /// <summary>What a driver tells at once has one instant; it stays in the order told, whatever the entries are called.</summary>
    [Theory]
    [InlineData("z", "a")]
    [InlineData("a", "z")]
    public void Sequence_of_answers_with_one_instant_is_in_the_order_told(string first, string second)
    {
        RealCase told = new RealCase().Present("hard-start-hot", "hot-catches-and-dies");
        Observation[] both = [.. told.Car.Findings.Zip([first, second], (f, id) => f with { Id = id, At = told.Now, RecordedAt = told.Now })];
        RankedFault leader = (told with { Car = told.Car with { Findings = both } }).Answer().Ranking[0];
        Assert.Equal([first, second], leader.Sequence.Select(s => s.Id));
    }

    [Fact]
    public void Sequence_a_part_that_was_fitted_falls_at_the_work()
    {
        RankedFault regulator = Complaint.Fitted("pressure-regulator").Watched("leak-down-whole", (10, 0.9)).Answer().Of("pressure-regulator");
        int at = regulator.Sequence.ToList().FindIndex(s => s.Kind == "work");
        Assert.True(at > 0);
        Assert.True(regulator.Sequence[at].Bad < 0.05 && regulator.Sequence[at].Bad < regulator.Sequence[at - 1].Bad / 5);
    }

    /// <summary>Against all other outcomes of all findings, each computed in full.</summary>
    [Fact]
    public void Flip_is_the_likeliest_other_outcome_that_changes_the_leader()
    {
        Answered answer = Complaint.Answer();
        Situation situation = Complaint.Situation();
        double all = situation.LogWeight();
        (string Finding, double P)[] changing = [.. situation.Evidence.SelectMany(e => e.Otherwise().Select(o => (Item: e, Other: o))).Select(c =>
        {
            Situation then = situation.With(evidence: [.. situation.Evidence.Select(e => ReferenceEquals(e, c.Item) ? c.Other.Instead : e)]);
            double rest = situation.LogWeight(without: new Omitted(c.Other.Finding));
            return (c.Other.Finding, P: Math.Exp(then.LogWeight() - rest) * c.Other.Width, Leader: Leader(then));
        }).Where(c => c.Leader != answer.Ranking[0].Component).Select(c => (c.Finding, c.P))];
        Assert.NotEmpty(changing);
        Assert.NotNull(answer.Flip);
        Assert.Equal(changing.MaxBy(c => c.P).Finding, answer.Flip.Finding);
        Assert.Equal(changing.Max(c => c.P), answer.Flip.Probability, 1e-9);
        Assert.True(all < 0);
    }

    [Fact]
    public void Conflict_between_two_leak_downs_is_named_with_its_partner_and_its_bits()
    {
        // the whole circuit cannot hold while a part of it falls fast: a gauge or a hook-up is wrong
        RealCase odd = new RealCase().Present("hard-start-hot").Saw("leak-down-whole", "hold").Saw("leak-down-cold-start-blanked", "fast");
        Misfit[] misfits = [.. odd.Answer().Misfits.Where(m => m.Kind == MisfitKind.Conflict)];
        Assert.Equal("f2", Assert.Single(misfits).With);
        double alone = odd.Without("f0").Without("f2").Situation().LogWeight(), all = odd.Situation().LogWeight(), rest = odd.Without("f1").Situation().LogWeight();
        Assert.Equal((alone - (all - rest)) / Math.Log(2), misfits.Single(m => m.Finding == "f1").Bits, 1e-6);
    }

    [Fact]
    public void Rare_finding_that_nothing_speaks_against_is_a_surprise_and_no_conflict()
    {
        // a blown fuse under a pressure as it should be: somebody may have bridged it, the gauge may slip, neither speaks against the other
        RealCase odd = new RealCase().Present("hard-start-hot").Saw("fuse-look", "blown").Read("system-pressure", 5.1);
        Misfit misfit = Assert.Single(odd.Answer().Misfits, m => m.Finding == "f1");
        Assert.Equal((MisfitKind.Surprise, null), (misfit.Kind, misfit.With));
        Assert.Equal((odd.Without("f1").Situation().LogWeight() - odd.Situation().LogWeight()) / Math.Log(2), misfit.Bits, 1e-6);
    }

    [Fact]
    public void Conflict_between_two_readings_of_one_value_is_named()
    {
        Misfit[] misfits = [.. new RealCase().Present("hard-start-hot").Read("system-pressure", 5.1).Read("system-pressure", 2.1).Answer().Misfits];
        Assert.Contains(misfits, m => m is { Kind: MisfitKind.Conflict, Finding: "f2", With: "f1" });
    }

    /// <summary>Two findings that fit only if one fault is there: the conflict names it.</summary>
    [Fact]
    public void Conflict_that_a_fault_of_the_model_explains_names_the_fault()
    {
        Situation situation = Complaint.Situation();
        Ranking ranking = Ranking.Of(situation)!;
        Assert.All(Complaint.Answer().Misfits.Where(m => m.ExplainedBy is not null), m =>
        {
            string[] fault = m.ExplainedBy!.Split('.');
            PartIndex part = situation.Index.Parts[situation.Index.Part(fault[0])];
            int mode = part.Source.Modes.ToList().FindIndex(x => x.Id == fault[1]) + 1;
            Assert.True(ranking.States[part.Index][mode] > 0.1);
        });
    }

    [Fact]
    public void Spread_of_a_plan_is_that_of_its_three_ways_to_end()
    {
        // resolved already 0.1; after 100 another 0.5; after 50 more another 0.2; else the specialist for 700
        double[] cost = [0, 100, 150, 850], p = [0.1, 0.5, 0.2, 0.2];
        double mean = cost.Zip(p, (c, q) => c * q).Sum(), square = cost.Zip(p, (c, q) => c * c * q).Sum();
        var plan = new Planned([new(0, "replace", 0, 0, 100, 1), new(1, "replace", 0, 0, 50, 1)], [new(0.6, 0.6), new(0.8, 0.8)], 0);
        Assert.Equal(Math.Sqrt(square - (mean * mean)), RepairPlanner.Spread(new Relieved(0.1, 0.1), plan, 700), 1e-9);
    }

    private static string Leader(Situation situation)
    {
        Ranking ranking = Ranking.Of(situation)!;
        return situation.Index.Parts.Where(p => !p.Source.Instrument).MaxBy(p => ranking.Explains(p.Index))!.Id;
    }
}
