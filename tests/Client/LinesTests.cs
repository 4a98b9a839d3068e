using FuelHistory.Client.Lines;
using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;
using Xunit;

namespace FuelHistory.Tests.Client;

public sealed class LinesTests
{
    [Theory]
    [InlineData(60, 12)]
    [InlineData(80, 20)]
    [InlineData(132, 46)]
    public void Likely_at_any_size_fits_the_body_and_keeps_check_and_ranking(int width, int height)
    {
        var ranking = Enumerable.Range(0, 25).Select(n => Samples.Assessment.Ranking[0] with { Component = $"c{n}", Title = $"Component with a long name {n}" }).ToList();
        var lines = LikelyLines.Of(Samples.Assessment with { Ranking = ranking }, Samples.Advice, Samples.Complaint, 0, width, height, Signs.Plain);
        Assert.InRange(lines.Count, 1, height);
        Assert.All(lines, line => Assert.InRange(Cells.Width(line.Text), 0, width));
        var text = Text(lines);
        Assert.Contains("Next check: Return shut", text, StringComparison.Ordinal);
        Assert.Contains("Component with a", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(12)]
    [InlineData(24)]
    public void Likely_with_a_row_marked_shows_that_row(int row)
    {
        var ranking = Enumerable.Range(0, 25).Select(n => Samples.Assessment.Ranking[0] with { Component = $"c{n}", Title = $"Part {n}" }).ToList();
        var lines = LikelyLines.Of(Samples.Assessment with { Ranking = ranking }, Samples.Advice, Samples.Complaint, row, 80, 20, Signs.Plain);
        Assert.Contains(lines, line => line.Row == row && line.Text.Contains($"Part {row} ", StringComparison.Ordinal));
    }

    [Fact]
    public void Likely_of_a_contradiction_says_which_findings()
    {
        var lines = LikelyLines.Of(Samples.Assessment with { Outcome = "contradiction", Ranking = [], Contradicting = ["fin-1", "fin-2"], Notes = ["These cannot be true together: System pressure: 4.9 bar; Pump: silent."] }, null, Samples.Complaint, 0, 80, 20, Signs.Plain);
        Assert.Contains("cannot all be true", Text(lines), StringComparison.Ordinal);
        Assert.Contains("System pressure: 4.9 bar; Pump: silent", Text(lines), StringComparison.Ordinal);
        Assert.Contains("f opens what if", Text(lines), StringComparison.Ordinal);
        Assert.DoesNotContain("fin-1", Text(lines), StringComparison.Ordinal);
    }

    [Fact]
    public void Likely_says_in_words_what_is_not_exact_and_what_does_not_fit()
    {
        var lines = LikelyLines.Of(Samples.Assessment with { Exact = false, LeftOut = ["event x"], Disagreements = [new("conflict", "fin-1", 4, null, null, "The gauge disagrees.")] }, Samples.Advice, Samples.Complaint, 0, 80, 20, Signs.Plain);
        Assert.Contains("! Not exact; left out: event x", Text(lines), StringComparison.Ordinal);
        Assert.Contains("(+1 more: y)", Text(lines), StringComparison.Ordinal);
        var why = Text(WhyLines.Full(Samples.Assessment with { Disagreements = [new("conflict", "fin-1", 4, null, null, "The gauge disagrees.")] }, Samples.Assessment.Ranking[0], 80, Signs.Plain));
        Assert.Contains("The gauge disagrees.", why, StringComparison.Ordinal);
        Assert.Contains("clearly", why, StringComparison.Ordinal);
        Assert.DoesNotContain("x3.2", why, StringComparison.Ordinal);
    }

    [Fact]
    public void Why_parts_what_speaks_for_it_from_what_speaks_against_it()
    {
        var ranked = Samples.Assessment.Ranking[0] with { CausedBy = ["Fuel filter: torn"], Why = [new("finding", "a", "Held", 0.5, ""), new("finding", "b", "Fell fast", 3, ""), new("ran-well", null, "It ran well", 0.1, "")] };
        var text = Text(WhyLines.Full(Samples.Assessment, ranked, 80, Signs.Plain));
        Assert.Contains("That it is bad: before any finding about one in ten, now about two in five.", text, StringComparison.Ordinal);
        Assert.Matches(@"(?s)What speaks for it.*clearly +Fell fast.*What speaks against it.*strongly +It ran well
.*slightly +Held
.*Ask what caused it.*Fuel filter: torn", text);
    }

    [Fact]
    public void Why_shows_how_it_came_about_and_what_would_put_another_first()
    {
        var ranked = Samples.Assessment.Ranking[0] with { Sequence = [new("work", "w", "Pump fitted", 0.14), new("finding", "f", "Residual pressure", 0.41)] };
        var assessment = Samples.Assessment with { Flip = new("fin-1", "hold", 0.2, new("pump", "Fuel pump", 0), "Had it held, Fuel pump would lead."), Disagreements = [new("surprise", "f", 6, null, null, "Residual pressure: was not to be expected.")] };
        var text = Text(WhyLines.Full(assessment, ranked, 80, Signs.Plain));
        Assert.Matches(@"(?s)How we got here.* 10 % .*before any finding.* 14 % .*Pump fitted.* 41 % .*Residual pressure", text);
        Assert.Contains("Had it held, Fuel pump would lead.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Findings that do not fit", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Likely_tells_a_surprise_more_quietly_than_a_conflict()
    {
        Disagreement surprise = new("surprise", "f", 6, null, null, "Leads: was not to be expected."), conflict = new("conflict", "g", 4, null, null, "Gauge: does not fit.");
        var lines = LikelyLines.Of(Samples.Assessment with { Disagreements = [surprise, conflict] }, Samples.Advice, Samples.Complaint, 0, 80, 20, Signs.Plain);
        Assert.Equal(Role.Faint, lines.Single(line => line.Text.Contains("Leads: was not", StringComparison.Ordinal)).Spans[0].Role);
        Assert.Equal(Role.Warning, lines.Single(line => line.Text.Contains("! Gauge: does not fit.", StringComparison.Ordinal)).Spans[0].Role);
        Assert.InRange(lines.Count, 1, 20);
    }

    [Fact]
    public void Plan_says_costs_more_than_one_repair_and_what_to_ask_for()
    {
        var assessment = Samples.Assessment with { MoreThanOne = 0.18, Resolved = 0.2, Ranking = [Samples.Assessment.Ranking[0] with { CausedBy = ["Fuel filter: torn"] }] };
        string[] wanted = ["Check first: it saves 45 EUR.", "Expected cost 210 EUR, give or take", "a specialist instead 700 EUR", "More than one repair is needed for about a sixth of it", "Resolved by what was repaired: about one in six", "about two in five that all is right then", "together 80 EUR", "Ask what caused it: Fuel filter: torn"];
        var text = Text(PlanLines.Of(assessment, Samples.Advice, 80, Signs.Plain));
        Assert.All(wanted, part => Assert.Contains(part, text, StringComparison.Ordinal));
        Assert.DoesNotContain("More than one", Text(PlanLines.Of(Samples.Assessment, Samples.Advice, 80, Signs.Plain)), StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_says_how_often_work_helps_where_it_may_fail()
    {
        RepairStep clean = new("heater-feed", "Feed of the regulator and air valve heaters", "clean", 20, 1, 36, 0.6, 0.2, 0.2), fit = clean with { Action = "replace", Success = 1 };
        var text = Text(PlanLines.Of(Samples.Assessment, Samples.Advice with { Plan = Samples.Advice.Plan! with { Steps = [clean, fit] } }, 80, Signs.Plain));
        Assert.Contains("about three in five that it helps", text, StringComparison.Ordinal);
        Assert.Single(text.Split("that it helps").Skip(1));
    }

    [Fact]
    public void Plan_names_the_parts_of_a_step_and_the_look_before_it()
    {
        RepairStep tank = new("tank", "Tank", "clean", 270, 110, 395, 0.65, 0.7, 0.8) { With = [new("strainer", "Strainer", "clean"), new("filter", "Fuel filter", "replace")], LookFirst = "Fuel sample" };
        var text = Text(PlanLines.Of(Samples.Assessment, Samples.Advice with { Plan = Samples.Advice.Plan! with { Steps = [tank] } }, 80, Signs.Plain));
        string[] wanted = ["1. Tank: clean it", "with it Strainer: clean it", "with it Fuel filter: fit a new one", "Look first: Fuel sample", "together 395 EUR"];
        Assert.All(wanted, part => Assert.Contains(part, text, StringComparison.Ordinal));
        Assert.DoesNotContain("2. ", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_that_comes_first_whatever_it_saves_says_why()
    {
        NextCheck repeat = Samples.Advice.NextChecks[0] with { Saving = -40, Repeats = "fin-1", Why = "It failed before the repair (Residual pressure: 0.8 bar after 10 min); only this shows whether the repair helped." };
        Assert.Equal("repeats what failed", CheckLines.Saving(repeat, "EUR"));
        Assert.Equal("comes first", CheckLines.Saving(repeat with { Repeats = null }, "EUR"));
        Assert.Contains("It failed before the repair", Text(CheckLines.Of(Samples.SystemPressure, repeat, Samples.Model.Tools, 80, Signs.Plain)), StringComparison.Ordinal);
        Assert.Contains("It failed before the repair", Text(PlainLines.Likely(Samples.Assessment, Samples.Advice with { NextChecks = [repeat] }, Samples.Complaint, 80, Signs.Plain)), StringComparison.Ordinal);
    }

    [Fact]
    public void Check_shows_cautions_before_steps_and_the_source()
    {
        var text = Text(CheckLines.Of(Samples.SystemPressure, Samples.Advice.NextChecks[0], Samples.Model.Tools, 80, Signs.Plain));
        Assert.True(text.IndexOf("CAUTION", StringComparison.Ordinal) < text.IndexOf("1. Connect", StringComparison.Ordinal));
        Assert.Contains("Pressure gauge", text, StringComparison.Ordinal);
        Assert.Contains("4.7..5.5 bar", text, StringComparison.Ordinal);
        Assert.Contains("From: from memory", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Record_says_void_with_the_reason()
    {
        var text = Text(RecordLines.Of(Samples.Record, 80, Signs.Plain));
        Assert.Contains("VOID (wrong car): Injectors fitted (told)", text, StringComparison.Ordinal);
        Assert.Contains("2025-10", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Lines_in_ascii_are_ascii_whatever_the_server_says()
    {
        var vehicle = Samples.Vehicle with { Name = "Ätna 漢字\u001b[2J" };
        IEnumerable<Line> all =
        [
            .. VehicleLines.Of([vehicle], 80, Signs.Plain), .. RecordLines.Of(Samples.Record with { Vehicle = vehicle }, 80, Signs.Plain),
            .. LikelyLines.Of(Samples.Assessment, Samples.Advice, Samples.Complaint, 0, 80, 20, Signs.Plain), .. PlanLines.Of(Samples.Assessment, Samples.Advice with { Currency = "€" }, 80, Signs.Plain), .. WhatIfLines.Of([], 0, Samples.WhatIf, false, 80, 20, Signs.Plain),
            .. HeaderLines.Of(vehicle.Name, new ServerState(), true, true, 80, Signs.Plain), .. InstrumentLines.Of([Samples.Gauge with { Name = "Gerät" }], 80, Signs.Plain),
        ];
        Assert.All(all, line => Assert.All(line.Text, letter => Assert.InRange(letter, ' ', '~')));
    }

    [Fact]
    public void Limit_reads_as_a_sentence_of_its_figures()
    {
        Limit limit = new(Samples.Head("lim-1"), Samples.VehicleId, "residual", "bar", "manual, page 24", null, null, 5, [new LimitPoint(Minutes: 10, Low: 2)], null);
        Assert.Equal("residual: from 5 bar, after 10 min at least 2 bar (own entry: manual, page 24)", PlainLines.Limit(limit, Signs.Plain));
    }

    private static string Text(IEnumerable<Line> lines) => string.Join('\n', lines.Select(line => line.Text));
}
