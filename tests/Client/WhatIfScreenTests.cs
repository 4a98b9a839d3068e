using FuelHistory.Contracts;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class WhatIfScreenTests
{
    private const string WhatIf = "/v1/complaints/" + Samples.ComplaintId + "/assessment/what-if", Findings = "/v1/complaints/" + Samples.ComplaintId + "/findings";

    [Fact]
    public void What_if_lists_what_counts_and_says_that_nothing_is_stored()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        var screen = Open(host);
        string[] wanted = ["Nothing here is stored", "[on ] 2026-06-01 finding Residual pressure: 0.8 bar", "[on ] 2025-10    work    Fuel pump fitted"];
        Assert.All(wanted, text => Assert.Contains(text, screen, StringComparison.Ordinal));
        // void, and of another complaint
        Assert.DoesNotContain("Injectors fitted", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("none loose", screen, StringComparison.Ordinal);
    }

    [Fact]
    public void Switched_off_entry_is_left_out_and_the_effect_is_shown()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.CursorDown, Key.Space);
        host.WaitUntil(() => server.Count("POST", WhatIf) == 2 && host.Desk.Top.Pending == 0, "the effect");
        Assert.Contains("[off] 2025-10    work", host.Text, StringComparison.Ordinal);
        Assert.Contains("First: Pressure regulator seal 38 % → Fuel accumulator 70 %", host.Text, StringComparison.Ordinal);
        Assert.Contains("Expected cost 210 EUR → 165 EUR", host.Text, StringComparison.Ordinal);
        Assert.Matches(@"Fuel accumulator +22 % → +70 %  up", host.Text);
        Assert.Equal(["wrk-1"], server.Sent("POST", WhatIf)[1]["leaveOut"]!.AsArray().Select(id => (string?)id));
        host.Press(Key.Space);
        host.WaitUntil(() => server.Count("POST", WhatIf) == 3 && host.Desk.Top.Pending == 0, "all counted again");
        Assert.Empty(server.Sent("POST", WhatIf)[2]["leaveOut"]!.AsArray());
        Assert.Equal(0, server.Count("POST", Findings));
    }

    [Fact]
    public void Tried_outcome_begins_with_the_advised_check_and_goes_on_to_its_form()
    {
        using var server = Samples.Server().Post(Findings, Samples.Finding);
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Type("v");
        Assert.Contains("▸ Check: Return shut", host.WaitFor("Type to narrow"), StringComparison.Ordinal);
        host.Press(Key.Enter);
        Assert.Contains("held (about three in five): Pressure regulator seal 80 %", host.WaitFor("3 of 3"), StringComparison.Ordinal);
        host.Press(Key.CursorDown, Key.CursorDown, Key.Enter);
        host.WaitFor("tried   Return shut: fell fast");
        host.WaitUntil(() => host.Desk.Top.Pending == 0, "the effect");
        var tried = Assert.Single(server.Sent("POST", WhatIf)[^1]["findings"]!.AsArray())!;
        Assert.Equal(("return-shut", "fast"), ((string?)tried["check"], (string?)tried["outcome"]));
        Assert.Equal(0, server.Count("POST", Findings));

        host.Press(Key.Enter);
        host.WaitFor("CAUTION");
        host.Press(Key.Enter);
        Assert.Contains("< fell fast >", host.WaitForForm("what did it show?"), StringComparison.Ordinal);
        host.Press(Key.S.WithCtrl);
        Assert.Contains("Likely now:", host.WaitFor("Entered:"), StringComparison.Ordinal);
        Assert.Equal("fast", (string?)server.Sent("POST", Findings).Single()["outcome"]);
    }

    [Fact]
    public void Tried_again_with_another_outcome_takes_the_place_of_the_first()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        foreach (var outcome in (Key[][])[[Key.Enter], [Key.CursorDown, Key.Enter]])
        {
            host.Type("v");
            host.WaitFor("Type to narrow");
            host.Press(Key.Enter);
            host.WaitFor("3 of 3");
            host.Press(outcome);
        }
        host.WaitFor("tried   Return shut: fell slowly");
        Assert.DoesNotContain("Return shut: held", host.Text, StringComparison.Ordinal);
        host.Type("z");
        Assert.DoesNotContain("tried ", host.Text, StringComparison.Ordinal);
        Assert.Contains("z does nothing now", Pressed(host, "z"), StringComparison.Ordinal);
    }

    [Fact]
    public void Tried_part_is_work_and_tried_reading_refused_is_told_at_its_field()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        Try(host, "fuel pump fitted");
        host.WaitFor("tried   Fuel pump fitted");
        host.WaitUntil(() => host.Desk.Top.Pending == 0, "the effect");
        var work = Assert.Single(server.Sent("POST", WhatIf)[^1]["work"]!.AsArray())!;
        Assert.Equal(("fitted", "pump", "new"), ((string?)work["action"], (string?)work["components"]![0], (string?)work["quality"]));

        server.Refuse("POST", WhatIf, 422, Samples.Invalid(new Fault("/findings/0/reading/value", Problems.Implausible, "145 bar is far above.")));
        Try(host, "system pressure");
        host.WaitFor("Try, nothing is stored: System pressure");
        host.Type("145");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("! 145 bar is far above.");
        server.Answer("POST", WhatIf, 200, StubServer.Json(Samples.WhatIf));
        host.Press(Key.Y.WithCtrl);
        host.WaitFor("tried   System pressure: 145 bar");
        host.WaitUntil(() => host.Desk.Top.Pending == 0, "the effect");
        Assert.True((bool)server.Sent("POST", WhatIf)[^1]["findings"]![0]!["confirmed"]!);
    }

    [Fact]
    public void Newer_switch_supersedes_an_older_answer_and_keys_go_on()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        server.Answer("POST", WhatIf, 200, StubServer.Json(Samples.WhatIf with { CostAfter = 999 }), after: TimeSpan.FromSeconds(2));
        host.Press(Key.Space);
        host.WaitUntil(() => true, "nothing to wait for");
        host.Press(Key.CursorDown);
        Assert.Contains("▸ [on ] 2025-10", host.Text, StringComparison.Ordinal);
        server.Answer("POST", WhatIf, 200, StubServer.Json(Samples.WhatIf with { CostAfter = 77 }));
        host.Press(Key.Space);
        host.WaitFor("210 EUR → 77 EUR");
        host.WaitUntil(() => host.Desk.Top.Pending == 0, "the older call to end");
        Assert.Contains("210 EUR → 77 EUR", host.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("NOT UP TO DATE", host.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Findings_that_do_not_fit_stand_first_and_are_named()
    {
        var assessment = Samples.Assessment with { Disagreements = [new("conflict", "wrk-1", 4, "fin-1", null, "The pump does not fit. Check the gauge.")] };
        using var server = Samples.Server().Get($"/v1/complaints/{Samples.ComplaintId}/assessment", assessment)
            .Get($"/v1/vehicles/{Samples.VehicleId}/record", Samples.Record with { Lines = [.. Samples.Record.Lines.Prepend(Samples.Record.Lines[1] with { Id = "fin-2", Text = "Leads: one loose" })] });
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        host.Press(Key.Enter);
        host.WaitFor("Fuel pump fitted");
        host.Press(Key.CursorDown, Key.Enter);
        Assert.Contains("! The pump does not fit. Check the gauge.", host.WaitFor("Pressure regulator seal"), StringComparison.Ordinal);
        host.Type("f");
        Assert.Contains("▸ [on ] 2026-06-01 finding ! does not fit: Residual pressure", host.WaitFor("one loose"), StringComparison.Ordinal);
    }

    [Fact]
    public void Contradiction_leads_to_its_findings_each_of_which_can_be_left_out()
    {
        var none = Samples.Assessment with { Outcome = "contradiction", Ranking = [], Contradicting = ["wrk-1", "fin-1"], Notes = ["These cannot be true together: Residual pressure; Fuel pump."] };
        using var server = Samples.Server().Get($"/v1/complaints/{Samples.ComplaintId}/assessment", none)
            .Answer("POST", WhatIf, 200, StubServer.Json(Samples.WhatIf with { Assessment = none, Changes = [], OutcomeBefore = "contradiction", LeaderBefore = null }));
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Press(Key.Enter);
        host.WaitFor("These cannot be true together: Residual pressure; Fuel pump.");
        host.Type("f");
        host.WaitFor("! These cannot be true together");
        Assert.Contains("▸ [on ] 2026-06-01 finding ! does not fit: Residual pressure", host.Text, StringComparison.Ordinal);
        Assert.Contains("work    ! does not fit: Fuel pump fitted", host.Text, StringComparison.Ordinal);
        server.Answer("POST", WhatIf, 200, StubServer.Json(Samples.WhatIf with { OutcomeBefore = "contradiction", LeaderBefore = null, CostBefore = null }));
        host.Press(Key.Space);
        Assert.Contains("First: none → Fuel accumulator 70 %", host.WaitFor("Expected cost none → 165 EUR"), StringComparison.Ordinal);
    }

    private static string Open(ScreenHost host)
    {
        LikelyScreenTests.Open(host);
        host.Type("f");
        host.WaitFor("This is the record as it is");
        return host.WaitUntil(() => host.Desk.Top.Pending == 0, "the effect");
    }

    private static void Try(ScreenHost host, string what)
    {
        host.Type("v");
        host.WaitFor("Type to narrow");
        host.Type(what);
        host.Press(Key.Enter);
    }

    private static string Pressed(ScreenHost host, string key)
    {
        host.Type(key);
        return host.Text;
    }
}
