using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class LikelyScreenTests
{
    [Fact]
    public void Likely_opened_from_the_record_shows_ranking_reasons_and_next_check()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        var screen = Open(host);
        string[] wanted = ["Pressure regulator seal", "38 %", "41 %", "<1 %", "none of these about a tenth", "clearly", "for     Residual pressure", "Next check: Return shut", "12 min", "hazard high", "saves 45 EUR", "held (about three in five)", "Check first"];
        Assert.All(wanted, text => Assert.Contains(text, screen, StringComparison.Ordinal));
    }

    [Fact]
    public void Likely_with_another_component_marked_shows_its_reasons()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.CursorDown, Key.CursorDown);
        Assert.Contains("Why: Fuel pump", host.Text, StringComparison.Ordinal);
    }

    /// <summary>Nobody waits for a list before typing: q would leave the program, were it taken for a key.</summary>
    [Fact]
    public void Checks_narrowed_while_they_load_take_every_letter_as_text()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Type("k");
        host.Type("quinj");
        Assert.False(host.Ended);
        for (var i = 0; i < 5; i++) host.Press(Key.Backspace);
        host.Type("inj");
        var screen = host.WaitFor("Injector tips");
        Assert.Contains("Type to narrow: inj", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("Return shut", screen, StringComparison.Ordinal);
    }

    [Fact]
    public void Checks_entered_before_they_are_loaded_open_the_one_that_fits()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Type("k");
        host.Type("return");
        host.Press(Key.Enter);
        Assert.Contains("Fuel under pressure", host.WaitFor("CAUTION"), StringComparison.Ordinal);
    }

    [Fact]
    public void Causes_opened_from_likely_begin_with_the_marked_component()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.CursorDown, Key.F3);
        var screen = host.WaitFor("Fuel accumulator: diaphragm ruptured");
        Assert.Contains("Brought on by: Fuel pump", screen, StringComparison.Ordinal);
        Assert.True(screen.IndexOf("diaphragm ruptured", StringComparison.Ordinal) < screen.IndexOf("No power 60 %", StringComparison.Ordinal));
    }

    [Fact]
    public void Check_outcome_entered_from_likely_is_sent_and_returns_there()
    {
        using var server = Samples.Server().Post($"/v1/complaints/{Samples.ComplaintId}/findings", Samples.Finding);
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.Enter);
        var steps = host.WaitFor("CAUTION");
        Assert.Contains("1. Connect the gauge.", steps, StringComparison.Ordinal);
        host.Press(Key.Enter);
        host.WaitForForm("what did it show?");
        host.Press(Key.Tab, Key.CursorRight);
        Assert.Contains("< held >", host.Text, StringComparison.Ordinal);
        host.Press(Key.S.WithCtrl);
        Assert.Contains("Likely now:", host.WaitFor("Entered: Return shut: held"), StringComparison.Ordinal);
        var sent = server.Sent("POST", $"/v1/complaints/{Samples.ComplaintId}/findings").Single();
        Assert.Equal("return-shut", (string?)sent["check"]);
        Assert.Equal("hold", (string?)sent["outcome"]);
        Assert.Null(sent["reading"]);
    }

    [Fact]
    public void Plan_opened_by_its_key_lists_the_repairs()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        host.WaitFor("Check first");
        host.Type("p");
        Assert.Contains("about two in five that all is right then", host.WaitFor("Repair plan"), StringComparison.Ordinal);
    }

    internal static string Open(ScreenHost host)
    {
        host.WaitFor("Blue hatch");
        host.Press(Key.Enter);
        host.WaitFor("Fuel pump fitted");
        host.Press(Key.Enter);
        host.WaitFor("Pressure regulator seal");
        return host.WaitFor("Check first");
    }
}
