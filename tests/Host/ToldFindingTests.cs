using System.Net;

namespace FuelHistory.Tests.Host;

/// <summary>Events, trials and observations of one's own as they are entered over HTTP.</summary>
public sealed class ToldFindingTests : IDisposable
{
    private const string At = "2026-06-15T10:00:00Z";

    private readonly ApiHost host = new(realModels: true);

    [Theory]
    [InlineData("""{ "event": "hard-start", "outcome": "present", "when": ["cold"] }""", "Hard to start, cold, after a night: present")]
    [InlineData("""{ "event": "hard-start-cold", "outcome": "present" }""", "Hard to start")]
    [InlineData("""{ "trial": { "do": "another", "component": "pump-relay", "back": "came-back" }, "outcome": "ended" }""", "; with the old part back it came back")]
    [InlineData("""{ "own": { "direction": "for", "strength": "clearly", "component": "pump", "words": "hums and moves nothing" } }""", "hums and moves nothing")]
    public async Task Finding_is_kept_with_all_that_was_told(string members, string text)
    {
        var complaint = await Open();

        var made = await host.Post($"/v1/complaints/{complaint}/findings", $$"""{ "at": "{{At}}", {{members[1..]}}""");

        Assert.True(made.Status == HttpStatusCode.Created, made.Text);
        Assert.Contains(text, (await host.Get($"/v1/findings/{made.Id}")).Member("text"), StringComparison.OrdinalIgnoreCase);
        Assert.Equal("answered", (await host.Get($"/v1/complaints/{complaint}/assessment")).Member("outcome"));
    }

    [Theory]
    [InlineData("""{ "event": "hard-strat", "outcome": "present" }""", "/event unknown")]
    [InlineData("""{ "event": "hard-start", "outcome": "present", "when": ["overrun"] }""", "/when unknown")]
    [InlineData("""{ "trial": { "do": "another" }, "outcome": "ended" }""", "/trial required")]
    [InlineData("""{ "trial": { "do": "another", "component": "pump-relay", "back": "came-back" }, "outcome": "same" }""", "/trial/back unsuitable")]
    [InlineData("""{ "trial": { "do": "another", "component": "pump-relay" }, "outcome": "present" }""", "/outcome unknown")]
    [InlineData("""{ "own": { "direction": "for", "strength": "clearly", "component": "pump", "side": "ignition", "words": "x" } }""", "/own required")]
    [InlineData("""{ "own": { "direction": "for", "strength": "clearly", "side": "ignition", "words": "" } }""", "/own/words required")]
    [InlineData("""{ "event": "hard-start", "own": { "direction": "for", "strength": "clearly", "side": "ignition", "words": "x" } }""", " unsuitable")]
    public async Task Finding_that_cannot_be_meant_is_refused(string members, string fault)
    {
        var refused = await host.Post($"/v1/complaints/{await Open()}/findings", $$"""{ "at": "{{At}}", {{members[1..]}}""");

        Assert.Equal([fault], refused.Faults);
    }

    [Fact]
    public async Task Own_observation_for_what_another_speaks_against_is_refused_and_named()
    {
        var complaint = await Open();
        object Own(string direction) => new { at = At, own = new { direction, strength = "clearly", component = "pump", words = "sounds as ever" } };
        Assert.Equal(HttpStatusCode.Created, (await host.Post($"/v1/complaints/{complaint}/findings", Own("against"))).Status);

        var refused = await host.Post($"/v1/complaints/{complaint}/findings", Own("for"));

        Assert.Equal(["/own/direction unsuitable"], refused.Faults);
        Assert.Contains("sounds as ever", refused.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Recorded_finding_of_a_check_that_is_a_trial_now_is_said_as_that_trial()
    {
        var complaint = await Open();
        var made = await host.Post($"/v1/complaints/{complaint}/findings", new { at = At, check = "wet-rear", outcome = "dry" });
        using (var raw = host.Raw())
        using (var command = raw.CreateCommand())
        {
            // as an earlier release wrote it
            command.CommandText = "DROP TRIGGER finding_kept_update; UPDATE finding SET check_id = 'relay-swap', outcome = 'yes' WHERE check_id = 'wet-rear'";
            command.ExecuteNonQuery();
        }

        Assert.DoesNotContain("relay-swap", (await host.Get($"/v1/findings/{made.Id}")).Member("text"), StringComparison.Ordinal);
        Assert.Equal("answered", (await host.Get($"/v1/complaints/{complaint}/assessment")).Member("outcome"));
    }

    public void Dispose() => host.Dispose();

    private async Task<string> Open() => (await host.Post(
        $"/v1/vehicles/{await host.Vehicle("continuous-mechanical")}/complaints",
        new { title = "Starts badly", since = "2026-05", events = new[] { new { @event = "hard-start", answer = "present" } }, main = "hard-start", onset = "slowly" })).Id;
}
