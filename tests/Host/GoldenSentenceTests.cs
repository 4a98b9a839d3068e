using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Assessments;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Validation;
using Finding = FuelHistory.Contracts.Finding;
using OwnObservation = FuelHistory.Contracts.OwnObservation;

namespace FuelHistory.Tests.Host;

/// <summary>One sentence per kind of evidence and direction, as a mechanic would say it of the fuel accumulator.</summary>
public sealed class GoldenSentenceTests
{
    private const string Part = "accumulator";

    private static readonly FaultModel Model = FaultModelReader.Read(File.ReadAllText(Path.Combine(ApiHost.TestModels, "test", "model.json")));

    private static readonly DateTimeOffset At = new(2026, 6, 15, 10, 0, 0, TimeSpan.Zero);

    public static TheoryData<string, double, string> Findings => new()
    {
        { "reading", 5, "System pressure read 4.2 bar, which speaks clearly for it" },
        { "reading", 0.5, "System pressure read 4.2 bar, which speaks slightly against it" },
        { "failed-run", 30, "Residual pressure was down to 0.3 bar within 5 minutes, which speaks strongly for it" },
        { "held-run", 0.02, "Residual pressure stood at 2.6 bar after 20 minutes, which speaks strongly against it" },
        { "outcome", 12, "Plug faces showed \"wet\", which speaks strongly for it" },
        { "outcome", 0.4, "Plug faces showed \"wet\", which speaks slightly against it" },
        { "yes", 12, "Accumulator vent showed \"yes, fuel runs from the vent side\", which speaks strongly for it" },
        { "no", 0.2, "Accumulator vent showed \"no, dry\", which speaks clearly against it" },
        { "run-told", 4, "Residual pressure fell fast, which speaks clearly for it" },
        { "seen-bad", 900, "It was looked at and is bad (diaphragm ruptured), which speaks strongly for it" },
        { "other-bad", 0.2, "The fuel pump was looked at and is bad (worn), which speaks clearly against it" },
        { "seen-fine", 0.05, "It was looked at and is fine, which speaks strongly against it" },
        { "tested-bad", 4, "It was tested and is bad, which speaks clearly for it" },
        { "tested-fine", 0.25, "It was tested and is fine, which speaks clearly against it" },
        { "unsure", 2, "It was looked at and is bad (not sure), which speaks slightly for it" },
        { "ended", 25, "With another one in its place the trouble was over, which speaks strongly for it" },
        { "back", 60, "With another one in its place the trouble was over and came back with the old part, which speaks strongly for it" },
        { "stayed-away", 2, "With another one in its place the trouble was over and stayed away with the old part, which speaks slightly for it" },
        { "same", 0.08, "With another one in its place the trouble stayed the same, which speaks strongly against it" },
        { "better", 3.5, "With another one in its place the trouble got less, which speaks clearly for it" },
        { "worse", 0.6, "With another one in its place the trouble got worse, which speaks slightly against it" },
        { "other-ended", 0.1, "With another fuel pump the trouble was over, which speaks strongly against it" },
        { "bypassed", 8, "With it fed or bypassed directly the trouble was over, which speaks clearly for it" },
        { "unplugged", 0.5, "With the ignition unplugged the trouble stayed the same, which speaks slightly against it" },
        { "touched", 5, "When the ignition was moved, struck, warmed or cooled the trouble got less, which speaks clearly for it" },
        { "own-for", 5, "You noted \"it gurgles\", which speaks clearly for it" },
        { "own-against", 0.05, "You noted \"the pump whines\", which speaks strongly against it" },
        { "present", 3, "\"Starts badly when warm\" is there, which speaks clearly for it" },
        { "absent", 0.3, "\"Misfires\" is not there, which speaks clearly against it" },
    };

    [Theory]
    [MemberData(nameof(Findings))]
    public void Sentence_of_a_finding_says_what_was_found_and_which_way_it_speaks(string id, double factor, string sentence) =>
        Assert.Equal(sentence, Clauses().Sentence(new WhyFactor("finding", id, factor), Part));

    public static TheoryData<string, string, double, string> Entries => new()
    {
        { "work", "new-told", 0.3, "By what was told a new one was fitted last year, which speaks clearly against it" },
        { "work", "used", 1.5, "A used one was fitted three years ago, which speaks slightly for it" },
        { "work", "half-known", 0.8, "Another one was fitted between 1990 and 1995, which speaks slightly against it" },
        { "work", "nobody-knows", 0.8, "Something was done to fuel accumulator at a time that nobody knows, which speaks slightly against it" },
        { "work", "looked", 0.3, "It was looked at last year and was fine, which speaks clearly against it" },
        { "incident", "dry", 3, "Tank ran dry last year, which speaks clearly for it" },
        { "lay-up", "stood", 1.4, "The car stood for a long time, which speaks slightly for it" },
        { "ran-well", "", 0.2, "The car ran well before this began, which speaks clearly against it" },
        { "drove", "", 0.6, "The car still drove before this began, which speaks slightly against it" },
        { "complaint", "earlier", 2, "An earlier complaint left a finding of it, which speaks slightly for it" },
        { "finding", "onset", 4, "The trouble came about after work was done, which speaks clearly for it" },
        { "finding", "onset", 0.25, "The trouble came about after work was done, which speaks clearly against it" },
    };

    [Theory]
    [MemberData(nameof(Entries))]
    public void Sentence_of_a_record_entry_says_when_and_which_way_it_speaks(string kind, string id, double factor, string sentence) =>
        Assert.Equal(sentence, Clauses().Sentence(new WhyFactor(kind, id, factor), Part));

    [Fact]
    public void Sentence_of_a_part_that_came_with_another_names_that_one() => Assert.Equal(
        "By an invoice it came with a new fuel pump last year, which speaks clearly against it", Clauses().Sentence(new WhyFactor("work", "pump", 0.2), "check-valve"));

    [Fact]
    public void Sentence_of_a_repair_in_vain_says_that_it_is_there_all_the_same() => Assert.Equal(
        "A new one was fitted this year and \"Starts badly when warm\" is there all the same, which speaks strongly against it",
        Clauses().Sentence(new WhyFactor("finding", "present-after", 0.05), "regulator"));

    [Fact]
    public void Suspect_that_was_renewed_is_set_beside_the_one_of_which_nothing_is_known()
    {
        var leader = Ranked(Part, 0.45, 0.4, new WhyFactor("finding", "failed-run", 8));
        var newer = Ranked("check-valve", 0.1, 0.08, new WhyFactor("finding", "failed-run", 6), new WhyFactor("work", "pump", 0.2));

        Assert.Equal(
            "By an invoice it came with a new fuel pump last year, so it is less likely than the fuel accumulator, of which nothing is known: about one in ten that it is bad; "
                + "it would explain \"Starts badly when warm\" and the pressure that did not hold.",
            Suspect(newer, "words", [.. Work.Where(w => !w.Components.Contains(Part))], leader, newer));
    }

    [Theory]
    [InlineData("words", "about one in two that it is bad")]
    [InlineData("percent", "a 45 % chance that it is bad")]
    [InlineData("odds", "odds of 1 to 1.2 that it is bad")]
    public void Suspect_has_its_strongest_reason_first_and_the_chance_as_the_settings_want_it(string figures, string chance)
    {
        var leader = Ranked(Part, 0.45, 0.4, new WhyFactor("finding", "no", 0.1), new WhyFactor("finding", "failed-run", 8), new WhyFactor("finding", "present", 3));

        Assert.Equal(
            $"Residual pressure was down to 0.3 bar within 5 minutes, which speaks clearly for the fuel accumulator, although accumulator vent showed \"no, dry\": {chance}; "
                + "it would explain \"Starts badly when warm\" and the pressure that did not hold.",
            Suspect(leader, figures, leader));
    }

    [Fact]
    public void Suspect_that_fell_has_the_strongest_reason_against_it_first()
    {
        var fallen = Ranked(Part, 0.02, 0.01, new WhyFactor("finding", "present", 3), new WhyFactor("finding", "held-run", 0.02));

        Assert.StartsWith("Residual pressure stood at 2.6 bar after 20 minutes, which speaks strongly against the fuel accumulator: about one in fifty that it is bad", Suspect(fallen, "words", fallen), StringComparison.Ordinal);
    }

    [Fact]
    public void Suspect_of_age_only_says_that_nothing_tells_of_it()
    {
        var old = Ranked("ignition", 0.2, 0);

        Assert.StartsWith("Nothing found tells of it either way, and nothing is recorded of a new one: about one in six that it is bad", Suspect(old, "words", old), StringComparison.Ordinal);
    }

    [Fact]
    public void Suspect_is_not_told_from_others_by_the_car_having_run_well()
    {
        var held = Ranked(Part, 0.02, 0, new WhyFactor("ran-well", "", 0.001), new WhyFactor("finding", "present", 0.4)) with { Relieves = [0, 0, 0] };
        var old = Ranked("ignition", 0.06, 0, new WhyFactor("ran-well", "", 0.001)) with { Relieves = [0, 0, 0] };

        Assert.Equal("\"Starts badly when warm\" is there, which speaks slightly against the fuel accumulator: about one in fifty that it is bad.", Suspect(held, "words", held));
        Assert.Equal(
            "Nothing found tells of it either way, and nothing is recorded of a new one: about one in twenty that it is bad; nothing in this model links it to \"Starts badly when warm\" and the pressure that did not hold.",
            Suspect(old, "words", old));
    }

    [Fact]
    public void Suspect_that_was_seen_bad_needs_no_chance_and_says_what_it_leaves()
    {
        var seen = Ranked(Part, 0.99, 0.6, new WhyFactor("finding", "seen-bad", 900)) with { Relieves = [0, 0.9, 0.98] };

        Assert.Equal(
            "It was looked at and is bad (diaphragm ruptured): it explains the pressure that did not hold; nothing in this model links it to \"Starts badly when warm\".",
            Suspect(seen, "words", seen));
    }

    private static string Suspect(RankedFault fault, string figures, params RankedFault[] ranking) => Suspect(fault, figures, Work, ranking);

    private static string Suspect(RankedFault fault, string figures, IReadOnlyList<Work> work, params RankedFault[] ranking)
    {
        AnswerTexts texts = new(Gathered(figures) with { Work = work });
        Answered answered = new()
        {
            Ranking = ranking,
            Items = Items,
            Resolved = 0,
            NoneOfThese = 0,
            MoreThanOne = 0,
            LogEvidence = 0,
            AllHealthy = 0,
            Stretches = 1,
            Misfits = [],
            Flip = null,
            Asks = [],
            Notes = [],
        };
        return new SuspectSentences(texts, answered, new ReasonClauses(texts, Items)).Of(fault);
    }

    private static ReasonClauses Clauses() => new(new AnswerTexts(Gathered("words")), Items);

    private static IReadOnlyList<RankedItem> Items =>
    [
        new(ItemKind.Event, "hard-hot-start", "Starts badly when warm", ["present"], 0.5, 0),
        new(ItemKind.Check, "leak-down-whole", "Residual pressure", ["failed-run"], 0.25, 0),
        new(ItemKind.Part, Part, "Fuel accumulator", ["seen-bad"], 0.25, 0),
    ];

    private static RankedFault Ranked(string component, double bad, double explains, params WhyFactor[] why) => new(
        component, Model.Components.First(c => c.Id == component).Title, bad, explains, explains, 0.1, [new("m", "of some kind", bad)], why, [], [], "")
    {
        Relieves = [bad * 0.8, bad * 0.9, 0],
    };

    private static Gathered Gathered(string figures)
    {
        Vehicle vehicle = new(Head("car"), "Blue", "1981", Model.Id, "km", null, null, false, null, false);
        Complaint complaint = new(Head("complaint"), "car", "Restarts badly", "2026-05", "constant", false, At, null, null, Onset: "since-work");
        CarRecord record = new() { FirstUse = new DateOnly(1981, 6, 1) };
        AssessmentInput input = new(record, new ComplaintFact("complaint", new DateOnly(2026, 5, 1), false, false), new DateOnly(2026, 6, 15));
        return new Gathered(new Car(vehicle, Model), new ModelInUse(new CompiledModel(Model), null), complaint, input, All, Work, [], [new(Head("dry"), "car", "2025-08", "ran-dry", null)], "EUR", figures);
    }

    private static IReadOnlyList<Work> Work =>
    [
        Done("new-told", "2025-03", Part, "told", "new"), Done("used", "2023", Part, "seen", "used"), Done("half-known", "between 1990 and 1995", "ignition", "seen", "unknown") with { Components = [Part] },
        Done("nobody-knows", "unknown", Part, "seen", "unknown") with { Action = "unknown" }, Done("looked", "2025", Part, "did-it", "unknown") with { Action = "inspected", Outcome = "good" },
        Done("pump", "2025-03", "fuel-pump", "invoice", "new"), Done("regulator", "2026-06-10", "regulator", "did-it", "new"),
    ];

    private static Work Done(string id, string date, string part, string known, string quality) =>
        new(Head(id), "car", date, "fitted", [part], known, null, quality, null, null, null, null, null, "unknown", null);

    private static IReadOnlyList<Finding> All =>
    [
        Found("reading") with { Check = "system-pressure", Reading = new(4.2, "bar") },
        Found("failed-run") with { Check = "leak-down-whole", Points = [new(0.5, new(2.1, "bar")), new(5, new(0.3, "bar"))] },
        Found("held-run") with { Check = "leak-down-whole", Points = [new(20, new(2.6, "bar"))] },
        Found("run-told", "fast") with { Check = "leak-down-whole" },
        Found("outcome", "wet") with { Check = "plugs" }, Found("yes", "yes") with { Check = "accumulator-vent" }, Found("no", "no") with { Check = "accumulator-vent" },
        Found("seen-bad", "bad") with { Component = Part, Mode = "ruptured" }, Found("seen-fine", "good") with { Component = Part, How = "seen" },
        Found("other-bad", "bad") with { Component = "fuel-pump", Mode = "worn" },
        Found("tested-bad", "bad") with { Component = Part, How = "tested" }, Found("tested-fine", "good") with { Component = Part, How = "tested" },
        Found("unsure", "bad") with { Component = Part, Sure = false },
        Tried("ended", "ended"), Tried("back", "ended", back: "came-back"), Tried("stayed-away", "ended", back: "stayed-away"), Tried("same", "same"), Tried("better", "better"), Tried("worse", "worse"),
        Tried("other-ended", "ended", part: "fuel-pump"), Tried("bypassed", "ended", "bypass"), Tried("unplugged", "same", "unplug", "ignition"), Tried("touched", "better", "touch", "ignition"),
        Found("own-for") with { Own = new OwnObservation("for", "clearly", "it gurgles", Part) }, Found("own-against") with { Own = new OwnObservation("against", "strongly", "the pump whines", Part) },
        Found("present", "present") with { Event = "hard-hot-start" }, Found("present-after", "present") with { Event = "hard-hot-start" }, Found("absent", "absent") with { Event = "misfire" },
    ];

    private static Finding Tried(string id, string outcome, string done = "another", string part = Part, string? back = null) =>
        Found(id, outcome) with { Trial = new TrialDone(null, done, part, "new", back) };

    private static Finding Found(string id, string? outcome = null) =>
        new(Head(id), "car", "complaint", At, null, null, null, null, outcome, true, null, null, null, null, null, "unknown", null, id);

    private static EntryHead Head(string id) => new(id, 1, At);
}
