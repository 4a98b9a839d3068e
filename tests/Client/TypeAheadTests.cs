using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

/// <summary>Nobody waits for lists before typing: a key pressed meanwhile does its work in what is loading, and nowhere else.</summary>
[Collection(OneScreenAtATime.Name)]
public sealed class TypeAheadTests
{
    [Fact]
    public void Form_while_its_lists_load_is_open_and_shows_what_is_typed()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        host.Type("aQuick qx?");
        host.Press(Key.Tab);
        host.Type("1981");
        Assert.StartsWith("Add a vehicle", host.Rows[0], StringComparison.Ordinal);
        Assert.Matches("Name +Quick qx\\?", host.Text);
        Assert.Matches("Year +1981", host.Text);
        Assert.Contains("Ctrl+T help", host.Footer, StringComparison.Ordinal);
        Assert.DoesNotContain("? help", host.Footer, StringComparison.Ordinal);
        Assert.False(host.Ended);
        var loaded = host.WaitForForm("Add a vehicle");
        Assert.Matches("Name +Quick qx\\?", loaded);
        Assert.Matches("Year +1981", loaded);
    }

    [Fact]
    public void Form_typed_and_saved_before_it_is_loaded_sends_every_key_in_its_order()
    {
        using var server = Samples.Server().Post("/v1/vehicles", Samples.Vehicle);
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        host.Type("aOld fox");
        host.Press(Key.Backspace, Key.Tab);
        host.Type("about 1981");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("Added: Blue hatch");
        var sent = server.Sent("POST", "/v1/vehicles").Single();
        Assert.Equal("Old fo", (string?)sent["name"]);
        Assert.Equal("1981~", (string?)sent["year"]);
    }

    /// <summary>From the record over a check and its form to the reading, without one pause.</summary>
    [Fact]
    public void Keys_over_several_screens_that_load_reach_the_one_they_are_meant_for()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Type("r");
        host.Type("control");
        host.Press(Key.Enter, Key.Enter);
        host.Type("1,4");
        var form = host.WaitForForm("what did it show?");
        Assert.Matches("Reading +1,4", form);
    }

    [Fact]
    public void Pick_list_of_a_form_that_loads_is_narrowed_by_what_was_typed()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Type("w2025");
        host.Press(Key.Tab, Key.Tab, Key.Enter);
        host.Type("fuel acc");
        host.Press(Key.Enter, Key.Tab);
        var form = host.WaitForForm("Enter work");
        Assert.Matches("To what +Fuel accumulator", form);
        Assert.Matches("Date +2025", form);
    }

    [Fact]
    public void Escape_from_a_form_that_loads_asks_once_before_what_was_typed_is_lost()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        host.Type("ahalf");
        host.Press(Key.Esc);
        Assert.Contains("Add a vehicle", host.Rows[0], StringComparison.Ordinal);
        host.Press(Key.Esc);
        Assert.StartsWith("Vehicles", host.Rows[0], StringComparison.Ordinal);
        host.Type("g");
        Assert.StartsWith("Gauges", host.Rows[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Form_refused_by_the_server_says_why_and_runs_no_key_below()
    {
        using var server = Samples.Server().Refuse("GET", "/v1/settings", 500, new("about:blank", "Broken", 500, "The settings cannot be read.", "broken", "t", null));
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        host.Type("a");
        host.WaitFor("The settings cannot be read.");
        host.Type("q");
        Assert.False(host.Ended);
        host.Press(Key.Esc);
        Assert.StartsWith("Vehicles", host.Rows[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Text_pasted_into_a_form_that_loads_is_kept()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        host.Type("a");
        host.Paste("pasted\nname");
        var form = host.WaitForForm("Add a vehicle");
        Assert.True(form.Contains("pasted", StringComparison.Ordinal), form);
    }

    /// <summary>The ranking is there before the advice is; what needs the advice is kept, and what is meant for the form behind it too.</summary>
    [Fact]
    public void Keys_for_the_next_check_before_the_advice_is_there_reach_its_form()
    {
        using var server = Samples.Server().Answer("GET", $"/v1/complaints/{Samples.ComplaintId}/advice", 200, StubServer.Json(Samples.Advice), after: TimeSpan.FromSeconds(1));
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Press(Key.Enter);
        host.WaitFor("Pressure regulator seal");
        Assert.DoesNotContain("Check first", host.Text, StringComparison.Ordinal);
        host.Press(Key.Enter, Key.Enter);
        host.Type("10: 0.8");
        Assert.Matches("Pressures +10: 0.8", host.WaitForForm("what did it show?"));
    }
}
