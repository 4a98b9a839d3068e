using FuelHistory.Client.Forms;
using FuelHistory.Client.Screens;
using FuelHistory.Contracts;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class FacetTests
{
    [Fact]
    public void Facet_offers_only_what_goes_with_the_one_before_and_lets_go_what_does_not()
    {
        var facets = Three();
        facets.Pick(0, "dies");
        facets.Pick(1, "idle");
        facets.Pick(2, "restarts");
        Assert.Equal("Dies; at idle; restarts at once", facets.Shown);
        facets.Pick(0, "hard-start");
        Assert.Equal(["hard-start", null, null], facets.Picked);
        Assert.Equal(["cold", "hot"], facets.Offered(1).Select(thing => thing.Id));
        Assert.False(facets.Arises(2));
    }

    [Theory]
    [InlineData("dies/idle/restarts", "dies/idle/restarts")]
    [InlineData("dies//restarts", "dies//restarts")]
    [InlineData("Hard to start", "hard-start//")]
    public void Facets_are_written_in_order_with_slashes(string text, string state)
    {
        FacetField field = new("event", "What happens", "", Three());
        Assert.Null(field.Take(text));
        Assert.Equal(state, field.State);
    }

    [Fact]
    public void Facet_that_does_not_go_with_the_one_before_is_refused() => Assert.Contains("cold", Three().Take("dies/cold"), StringComparison.Ordinal);

    [Fact]
    public void Facet_field_of_a_form_opens_its_lists_one_after_the_other()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        FacetField field = new("event", "What happens", "", Three());
        host.Open(new FormScreen(host.Desk, new Form("Tell it", [field, VehicleForms.Note()], _ => throw new InvalidOperationException("not saved here"))));
        host.Press(Key.Enter);
        host.Type("dies");
        host.Press(Key.Enter);
        Assert.Contains("(left open)", host.Text, StringComparison.Ordinal);
        host.Press(Key.Enter);
        host.Type("restarts");
        host.Press(Key.Enter);
        Assert.Contains("Dies; restarts at once", host.Text, StringComparison.Ordinal);
        Assert.StartsWith("Tell it", host.Rows[0], StringComparison.Ordinal);
    }

    private static Facets Three() => new(
    [
        new("event", "What happens", "", _ => [new("hard-start", "Hard to start"), new("dies", "Dies")]),
        new("when", "When", "", before => before[0] is "dies" ? [new("idle", "at idle"), new("load", "under load")] : [new("cold", "cold"), new("hot", "hot")]),
        new("then", "Then", "", before => before[0] is "dies" ? [new("restarts", "restarts at once"), new("dead", "stays dead")] : []),
    ]);
}
