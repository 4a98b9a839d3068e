using FuelHistory.Client.Forms;
using FuelHistory.Contracts;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

/// <summary>What happens, when, and what then: each list offers only what goes with the ones before it.</summary>
[Collection(OneScreenAtATime.Name)]
public sealed class FacetTests
{
    private static readonly EventView Dies = new("dies", "Dies", "Does it die?", "driving",
        [new("idle", "at idle"), new("load", "under load")], [new("restarts", "restarts at once"), new("dead", "stays dead")],
    [
        new("dies-idle-restarts", "idle", "restarts", "Dies at idle, restarts at once", "Does it?"),
        new("dies-idle-dead", "idle", "dead", "Dies at idle, stays dead", "Does it?"),
        new("dies-load-dead", "load", "dead", "Dies under load, stays dead", "Does it?"),
    ]);

    private static FaultModelView Model => Samples.Model with { Events = [.. Samples.Model.Events, Dies] };

    [Fact]
    public void Facets_before_an_event_is_picked_are_those_of_all_events() =>
        Assert.Equal(["hot", "bumps", "idle", "load"], Events.When(Model, null).Select(each => each.Id));

    [Fact]
    public void Facets_of_an_event_are_its_own() => Assert.Equal(["idle", "load"], Events.When(Model, "dies").Select(each => each.Id));

    [Theory]
    [InlineData("", "restarts,dead")]
    [InlineData("load", "dead")]
    [InlineData("idle,load", "restarts,dead")]
    public void What_follows_is_offered_as_far_as_it_goes_with_the_times_named(string when, string then) =>
        Assert.Equal(then, string.Join(',', Events.Then(Model, "dies", Ids(when)).Select(each => each.Id)));

    [Fact]
    public void Facet_that_does_not_go_with_another_event_is_let_go()
    {
        var form = FindingForms.Event(Data());
        form.With("event", "dies").With("when", "idle").With("then", "restarts");
        Assert.Equal(["idle"], Pick(form, "when").Ids);
        form.With("when", "load");
        Assert.Empty(Pick(form, "then").Ids);
        form.With("event", "cuts-out");
        Assert.Equal((false, true), (Pick(form, "when").NotAsked, Pick(form, "then").NotAsked));
        Assert.Equal(("", ""), (Pick(form, "when").Shown, Pick(form, "when").State));
    }

    [Fact]
    public void Event_picked_by_its_cell_leaves_nothing_to_name()
    {
        var form = FindingForms.Event(Data());
        form.With("event", "dies-load-dead");
        Assert.Equal((true, true), (Pick(form, "when").NotAsked, Pick(form, "then").NotAsked));
    }

    [Fact]
    public void Event_form_narrows_its_lists_and_sends_what_was_picked()
    {
        var path = $"/v1/complaints/{Samples.ComplaintId}/findings";
        using var server = Samples.Server().Get($"/v1/fault-models/{Samples.ModelId}", Model).Post(path, Samples.Finding);
        using ScreenHost host = new(server.Address);
        LikelyScreenTests.Open(host);
        host.Type("s");
        host.WaitForForm("Say what the car does");
        host.Press(Key.Enter);
        host.Type("dies, whenever");
        host.Press(Key.Enter, Key.Enter);
        Assert.Contains("2 of 2", host.Text, StringComparison.Ordinal);
        host.Type("load");
        host.Press(Key.Enter, Key.Tab, Key.Enter);
        Assert.Contains("1 of 1", host.Text, StringComparison.Ordinal);
        host.Press(Key.Enter, Key.Tab, Key.CursorRight, Key.S.WithCtrl);
        host.WaitUntil(() => server.Count("POST", path) > 0, "the event sent");
        var sent = server.Sent("POST", path).Single();
        Assert.Equal(("dies", "load", "dead"), ((string?)sent["event"], (string?)sent["when"]![0], (string?)sent["then"]![0]));
    }

    private static string[] Ids(string text) => text.Split(',', StringSplitOptions.RemoveEmptyEntries);

    private static FormData Data() => FormData.Empty(null!, TimeProvider.System) with { Model = Model };

    private static PickField Pick(Form form, string name) => form.Fields.OfType<PickField>().Single(field => field.Name == name);
}
