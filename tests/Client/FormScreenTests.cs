using FuelHistory.Contracts;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class FormScreenTests
{
    private const string Findings = "/v1/complaints/" + Samples.ComplaintId + "/findings";

    [Fact]
    public void Form_refused_shows_every_fault_at_its_field_and_keeps_the_text()
    {
        using var server = Samples.Server().Refuse("POST", "/v1/vehicles", 422, Samples.Invalid(
            new Fault("/name", Problems.Required, "A vehicle needs a name."), new Fault("/year", Problems.ImpossibleDate, "1781 is before the first car."), new Fault("/wheels", Problems.Unknown, "There are no wheels.")));
        using ScreenHost host = new(server.Address);
        OpenVehicleForm(host);
        host.Press(Key.Tab);
        host.Type("1781");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("! A vehicle needs a name.");
        Assert.Contains("! 1781 is before the first car.", host.Text, StringComparison.Ordinal);
        Assert.Contains("! There are no wheels.", host.Text, StringComparison.Ordinal);
        Assert.Matches(@"Year +1781", host.Text);
        Assert.Contains("3 things are to be put right", host.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Form_left_with_text_asks_and_escape_stays()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        OpenVehicleForm(host);
        host.Type("half");
        host.Press(Key.Esc);
        Assert.Contains("Not saved. y leaves it, n stays.", host.Text, StringComparison.Ordinal);
        host.Press(Key.Esc);
        Assert.Contains("half", host.Text, StringComparison.Ordinal);
        host.Press(Key.Q.WithCtrl);
        Assert.False(host.Ended);
        host.Type("y");
        Assert.True(host.Ended);
    }

    [Fact]
    public void Letters_while_text_is_typed_do_nothing_else()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        OpenVehicleForm(host);
        host.Type("awcrsolimxdpkyeqgt?");
        Assert.Contains("awcrsolimxdpkyeqgt?", host.Text, StringComparison.Ordinal);
        Assert.Contains("Add a vehicle", host.Rows[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Reading_called_implausible_can_be_confirmed()
    {
        using var server = Samples.Server().Refuse("POST", Findings, 422, Samples.Invalid(new Fault("/reading/value", Problems.Implausible, "145 bar is far above; 14.5?")));
        using ScreenHost host = new(server.Address);
        OpenReading(host, "System pressure");
        host.Type("145 bar");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("! 145 bar is far above");
        Assert.Contains("Ctrl+Y it is right", host.Footer, StringComparison.Ordinal);
        server.Post(Findings, Samples.Finding);
        host.Press(Key.Y.WithCtrl);
        host.WaitFor("Entered:");
        Assert.Equal([false, true], server.Sent("POST", Findings).Select(body => (bool)body["confirmed"]!));
        Assert.All(server.Sent("POST", Findings), body => Assert.Equal(145, (double)body["reading"]!["value"]!));
    }

    [Fact]
    public void Reading_with_covariate_and_gauge_is_sent_with_both()
    {
        using var server = Samples.Server().Post(Findings, Samples.Finding);
        using ScreenHost host = new(server.Address);
        OpenReading(host, "Control pressure");
        host.Type("1,4");
        host.Press(Key.Tab, Key.Enter);
        host.WaitFor("Red case gauge");
        host.Press(Key.Enter);
        host.Type("20 °C");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("Entered:");
        var sent = server.Sent("POST", Findings).Single();
        Assert.Equal(1.4, (double)sent["reading"]!["value"]!);
        Assert.Equal("bar", (string?)sent["reading"]!["unit"]);
        Assert.Equal("ins-1", (string?)sent["instrument"]);
        Assert.Equal(20, (double)sent["conditions"]!["ambient"]!["value"]!);
    }

    [Fact]
    public void Complaint_events_are_picked_from_the_questions_as_present_or_absent()
    {
        using var server = Samples.Server().Post($"/v1/vehicles/{Samples.VehicleId}/complaints", Samples.Complaint);
        using ScreenHost host = new(server.Address);
        OpenRecord(host);
        host.Type("c");
        host.WaitForForm("Open a complaint");
        host.Type("bad restart");
        host.Press(Key.Tab);
        host.Type("2026-05");
        host.Press(Key.Tab, Key.Tab, Key.Tab, Key.Enter);
        host.WaitFor("does it crank for long?");
        host.Press(Key.Enter, Key.CursorDown, Key.Enter, Key.Enter);
        Assert.Contains("[present] Restarts badly when hot", host.Text, StringComparison.Ordinal);
        Assert.Contains("[absent ] Cranks long when cold", host.Text, StringComparison.Ordinal);
        host.Press(Key.Tab, Key.S.WithCtrl);
        host.WaitFor("Opened:");
        var sent = server.Sent("POST", $"/v1/vehicles/{Samples.VehicleId}/complaints").Single();
        Assert.Equal(["hot-restart=present", "long-crank-cold=absent"], sent["events"]!.AsArray().Select(each => $"{each!["event"]}={each["answer"]}"));
    }

    [Fact]
    public void Void_needs_a_typed_y()
    {
        var path = "/v1/work/wrk-1/void";
        using var server = Samples.Server().Post(path, new { });
        using ScreenHost host = new(server.Address);
        OpenRecord(host);
        host.Press(Key.CursorDown, Key.CursorDown, Key.CursorDown);
        host.Type("x");
        host.WaitForForm("Void this work");
        host.Type("entered twice");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("y is not typed");
        Assert.Equal(0, server.Count("POST", path));
        host.Type("y");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("Voided:");
        Assert.Equal("entered twice", (string?)server.Sent("POST", path).Single()["reason"]);
    }

    [Fact]
    public void Paste_with_line_breaks_presses_no_keys()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        OpenVehicleForm(host);
        host.Paste("one\ntwo\nqqq");
        Assert.Contains("Add a vehicle", host.Rows[0], StringComparison.Ordinal);
        Assert.Contains("one", host.Text, StringComparison.Ordinal);
    }

    internal static void OpenRecord(ScreenHost host)
    {
        host.WaitFor("Blue hatch");
        host.Press(Key.Enter);
        host.WaitFor("Fuel pump fitted");
    }

    private static void OpenVehicleForm(ScreenHost host)
    {
        host.WaitFor("Blue hatch");
        host.Type("a");
        host.WaitForForm("Add a vehicle");
    }

    private static void OpenReading(ScreenHost host, string check)
    {
        OpenRecord(host);
        host.Type("r");
        host.WaitFor(check);
        while (!host.Rows.Any(row => row.StartsWith('▸') && row.Contains(check, StringComparison.Ordinal))) host.Press(Key.CursorDown);
        host.Press(Key.Enter);
        host.WaitFor("CAUTION");
        host.Press(Key.Enter);
        host.WaitForForm("what did it show?");
    }
}
