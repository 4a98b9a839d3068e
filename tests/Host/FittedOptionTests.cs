using System.Net;

namespace FuelHistory.Tests.Host;

/// <summary>What is fitted is a fact of the vehicle: kept, checked, and counted in the answer.</summary>
public sealed class FittedOptionTests : IDisposable
{
    private static readonly object None = new { accumulator = "none" };

    private readonly ApiHost host = new();

    [Fact]
    public async Task Options_are_kept_with_the_vehicle_through_versions_and_archiving()
    {
        var id = (await host.Post("/v1/vehicles", Body(None))).Id;
        Assert.Equal("none", (await host.Get($"/v1/vehicles/{id}")).Body.GetProperty("options").GetProperty("accumulator").GetString());
        await host.Put($"/v1/vehicles/{id}", Body(new { accumulator = "yes" }));
        Assert.Equal("yes", (await host.Get("/v1/vehicles")).Body[0].GetProperty("options").GetProperty("accumulator").GetString());
        await host.Post($"/v1/vehicles/{id}/archive", new { reason = "sold" });

        var versions = (await host.Get($"/v1/vehicles/{id}/versions")).Body.EnumerateArray().Select(v => v.GetProperty("options").GetProperty("accumulator").GetString());
        Assert.Equal(["yes", "yes", "none"], versions);
    }

    [Fact]
    public async Task Unknown_option_and_choice_are_refused_with_what_would_be_right()
    {
        var answer = await host.Post("/v1/vehicles", Body(new { acumulator = "yes", accumulator = "maybe" }));

        Assert.Equal(["/options/acumulator unknown", "/options/accumulator unknown"], answer.Faults);
        Assert.Contains("Did you mean accumulator", answer.Detail, StringComparison.Ordinal);
        Assert.Contains("none, yes", answer.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Absent_part_is_not_ranked_not_checked_and_takes_no_entries()
    {
        var id = (await host.Post("/v1/vehicles", Body(None))).Id;
        var complaint = await host.Complaint(id);
        var answer = await host.Get($"/v1/complaints/{complaint}/assessment");
        var advice = await host.Get($"/v1/complaints/{complaint}/advice");

        Assert.NotEmpty(advice.Body.GetProperty("nextChecks").EnumerateArray());
        Assert.DoesNotContain("accumulator", advice.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("accumulator", answer.Text, StringComparison.Ordinal);
        Assert.Contains("check-valve", answer.Text, StringComparison.Ordinal);
        Assert.Equal(["/components/0 not-fitted"], (await host.Post($"/v1/vehicles/{id}/work", Work())).Faults);
        Assert.Equal(["/component not-fitted"], (await Find(complaint, new { at = "2026-06-15T10:00:00Z", component = "accumulator", outcome = "bad" })).Faults);
        var refused = await Find(complaint, new { at = "2026-06-15T10:00:00Z", check = "accumulator-vent", outcome = "yes" });
        Assert.Equal(["/check not-fitted"], refused.Faults);
        Assert.Contains("Accumulator: none", refused.Detail, StringComparison.Ordinal);
        var closing = new { at = "2026-06-15T11:00:00Z", result = "resolved", causes = new[] { new { component = "accumulator" } }, provedBy = Array.Empty<string>() };
        Assert.Equal(["/causes/0/component not-fitted"], (await host.Post($"/v1/complaints/{complaint}/close", closing)).Faults);
        Assert.Equal(["/work/0/components/0 not-fitted"], (await host.Post($"/v1/complaints/{complaint}/assessment/what-if", new { work = new[] { Work() } })).Faults);
    }

    [Fact]
    public async Task Trial_and_own_observation_on_an_absent_part_are_refused_with_the_option_named()
    {
        var id = (await host.Post("/v1/vehicles", Body(None))).Id;
        var complaint = await host.Complaint(id);

        var tried = await Find(complaint, new { at = "2026-06-15T10:00:00Z", trial = new { @do = "another", component = "accumulator" }, outcome = "same" });
        Assert.Equal(["/trial/component not-fitted"], tried.Faults);
        Assert.Contains("Accumulator is \"none\"", tried.Detail, StringComparison.Ordinal);
        var own = new { direction = "for", strength = "clearly", words = "it hisses", component = "accumulator" };
        Assert.Equal(["/own/component not-fitted"], (await Find(complaint, new { at = "2026-06-15T10:00:00Z", own })).Faults);
    }

    [Fact]
    public async Task Trial_of_the_model_on_an_absent_part_is_not_proposed_and_refused()
    {
        using ApiHost real = new(realModels: true);
        var id = (await real.Post("/v1/vehicles", new { name = "x", year = "1985", system = "diesel-mechanical", options = new Dictionary<string, string> { ["stop-solenoid"] = "none" } })).Id;
        var complaint = (await real.Post($"/v1/vehicles/{id}/complaints", new { title = "x", since = "2026-05", events = new[] { new { @event = "no-start", answer = "present" }, new { @event = "no-smoke-cranking", answer = "present" } } })).Id;
        var known = (await real.Post($"/v1/vehicles/{await real.Vehicle("diesel-mechanical")}/complaints", new { title = "x", since = "2026-05", events = new[] { new { @event = "no-start", answer = "present" }, new { @event = "no-smoke-cranking", answer = "present" } } })).Id;

        Assert.Contains("stop-direct", (await real.Get($"/v1/complaints/{known}/advice")).Text, StringComparison.Ordinal);
        Assert.DoesNotContain("stop-direct", (await real.Get($"/v1/complaints/{complaint}/advice")).Text, StringComparison.Ordinal);
        var refused = await real.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T10:00:00Z", trial = new { trial = "stop-direct" }, outcome = "ended" });
        Assert.Equal(["/trial/trial not-fitted"], refused.Faults);
        Assert.Contains("none", refused.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Option_that_is_not_known_changes_nothing()
    {
        var (with, without) = ((await host.Post("/v1/vehicles", Body(new { accumulator = "yes" }))).Id, await host.Vehicle());
        var (a, b) = (await Bad(with), await Bad(without));

        Assert.Equal(b, a);
    }

    [Fact]
    public async Task Choice_against_what_is_recorded_is_refused_until_the_entry_is_void()
    {
        var id = await host.Vehicle();
        var work = (await host.Post($"/v1/vehicles/{id}/work", Work())).Id;
        var complaint = await host.Complaint(id);
        var finding = (await Find(complaint, new { at = "2026-06-15T10:00:00Z", check = "accumulator-vent", outcome = "no" })).Id;
        Assert.Equal(["/options/accumulator unsuitable", "/options unsuitable"], (await host.Put($"/v1/vehicles/{id}", Body(None))).Faults);

        await host.Post($"/v1/work/{work}/void", new { reason = "another car" });
        await host.Post($"/v1/findings/{finding}/void", new { reason = "another car" });
        Assert.Equal(HttpStatusCode.OK, (await host.Put($"/v1/vehicles/{id}", Body(None))).Status);
    }

    [Fact]
    public async Task Fault_model_lists_its_options_with_their_choices()
    {
        var option = (await host.Get("/v1/fault-models/test-circuit")).Body.GetProperty("options")[0];

        Assert.Equal("Is there a fuel accumulator?", option.GetProperty("ask").GetString());
        Assert.Equal(["yes", "none"], option.GetProperty("choices").EnumerateArray().Select(c => c.GetProperty("id").GetString()!));
    }

    public void Dispose() => host.Dispose();

    private static object Body(object options) => new { name = "Blue hatchback", year = "1981", system = "test-circuit", options };

    private static object Work() => new { date = "2020", action = "fitted", components = new[] { "accumulator" } };

    private Task<Answer> Find(string complaint, object finding) => host.Post($"/v1/complaints/{complaint}/findings", finding);

    private async Task<string> Bad(string vehicle) =>
        string.Join(' ', (await host.Get($"/v1/complaints/{await host.Complaint(vehicle)}/assessment")).Body.GetProperty("ranking").EnumerateArray().Select(r => r.GetProperty("bad").GetRawText()));
}
