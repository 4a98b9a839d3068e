using System.Net;
using System.Text.Json;

namespace FuelHistory.Tests.Host;

/// <summary>What must not be done is said first, and nothing that needs it is proposed, in the systems that ship.</summary>
public sealed class StopNoteTests : IDisposable
{
    private const string At = "2026-06-15T09:00:00Z", Later = "2026-06-15T10:00:00Z";

    private static readonly string[] Turning = ["cranking", "running", "road"];

    private readonly ApiHost host = new(realModels: true);

    [Theory]
    [InlineData("continuous-electro-hydraulic", "petrol-in-oil", "petrol-in-oil")]
    [InlineData("port-airflow", "petrol-in-oil", "petrol-in-oil")]
    [InlineData("carburettor", "fuel-smell", "fuel-smell")]
    [InlineData("diesel-mechanical", "wont-stop", "runaway")]
    [InlineData("diesel-mechanical", "runs-away", "runaway")]
    [InlineData("single-point", "fuel-smell", "fuel-smell")]
    [InlineData("diesel-mechanical", "diesel-in-oil", "diesel-in-oil")]
    public async Task Event_brings_the_note_and_no_check_that_turns_the_engine_until_it_is_absent(string system, string told, string note)
    {
        var complaint = await Complaint(system, told);
        var answer = (await Assess(complaint)).Body;

        var stop = Assert.Single(answer.GetProperty("stopNotes").EnumerateArray(), n => n.GetProperty("id").GetString() == note);
        Assert.Matches("[Dd]o not ", stop.GetProperty("text").GetString());
        Assert.EndsWith("present", stop.GetProperty("why").GetString(), StringComparison.Ordinal);
        Assert.NotEmpty(stop.GetProperty("until").GetString()!);
        var advice = await Advise(complaint);
        Assert.Equal(answer.GetProperty("stopNotes").GetRawText(), advice.GetProperty("stopNotes").GetRawText());
        Assert.DoesNotContain(Involved(system, advice), t => Turning.Contains(t));

        await Find(complaint, new { at = Later, @event = told, outcome = "absent", session = "later" });
        Assert.Empty((await Assess(complaint)).Body.GetProperty("stopNotes").EnumerateArray());
    }

    [Fact]
    public async Task Plunger_that_sticks_forbids_pump_and_starter_until_the_distributor_was_put_right()
    {
        var complaint = await Complaint("continuous-mechanical", "hard-start-hot");
        Assert.Contains(Involved("continuous-mechanical", await Advise(complaint)), t => t is "pressure");
        await Find(complaint, new { at = At, check = "plate-lift", outcome = "always" });
        var answer = (await Assess(complaint)).Body;

        Assert.Equal("plunger-open", answer.GetProperty("stopNotes")[0].GetProperty("id").GetString());
        Assert.DoesNotContain(Involved("continuous-mechanical", await Advise(complaint)), t => t is "pressure" or "cranking" or "running" or "road");

        var vehicle = (await host.Get($"/v1/complaints/{complaint}")).Member("vehicleId");
        await host.Post($"/v1/vehicles/{vehicle}/work", new { date = "2026-06-15", at = Later, action = "fitted", components = new[] { "distributor" } });
        Assert.Empty((await Assess(complaint)).Body.GetProperty("stopNotes").EnumerateArray());
    }

    [Fact]
    public async Task Throttle_that_hangs_is_said_and_ends_when_it_is_looked_at_again()
    {
        var complaint = await Complaint("port-manifold-pressure", "high-idle");
        await Find(complaint, new { at = At, check = "throttle-look", outcome = "hangs" });
        Assert.Equal("throttle-open", (await Assess(complaint)).Body.GetProperty("stopNotes")[0].GetProperty("id").GetString());

        await Find(complaint, new { at = Later, check = "throttle-look", outcome = "right" });
        Assert.Empty((await Assess(complaint)).Body.GetProperty("stopNotes").EnumerateArray());
    }

    [Fact]
    public async Task Leak_is_ended_where_it_was_seen_and_a_dry_place_elsewhere_does_not_clear_it()
    {
        var complaint = await Complaint("continuous-electro-hydraulic", "hard-start-hot");
        await Find(complaint, new { at = At, check = "wet-rear", outcome = "pump" });
        await Find(complaint, new { at = Later, check = "wet-front", outcome = "dry" });
        Assert.Equal("fuel-leak", (await Assess(complaint)).Body.GetProperty("stopNotes")[0].GetProperty("id").GetString());

        await Find(complaint, new { at = Later, check = "wet-rear", outcome = "dry", sure = false });
        Assert.NotEmpty((await Assess(complaint)).Body.GetProperty("stopNotes").EnumerateArray());
        await Find(complaint, new { at = "2026-06-15T11:00:00Z", check = "wet-rear", outcome = "dry" });
        Assert.Empty((await Assess(complaint)).Body.GetProperty("stopNotes").EnumerateArray());
    }

    [Fact]
    public async Task Answer_without_any_danger_has_no_note()
    {
        var complaint = await Complaint("single-point", "hard-start-hot");

        Assert.Empty((await Assess(complaint)).Body.GetProperty("stopNotes").EnumerateArray());
    }

    [Fact]
    public async Task Trial_that_needs_the_engine_running_is_proposed_again_once_the_note_has_ended()
    {
        var complaint = await Complaint("continuous-electro-hydraulic", "rough-idle-warm");
        Assert.Contains(Trials("continuous-electro-hydraulic", await Advise(complaint)), t => t.Contains("running"));

        await Find(complaint, new { at = At, @event = "petrol-in-oil", outcome = "present" });
        Assert.DoesNotContain(Trials("continuous-electro-hydraulic", await Advise(complaint)), t => t.Contains("running"));

        await Find(complaint, new { at = Later, @event = "petrol-in-oil", outcome = "absent", session = "later" });
        Assert.Contains(Trials("continuous-electro-hydraulic", await Advise(complaint)), t => t.Contains("running"));
    }

    [Fact]
    public async Task Danger_found_under_another_open_complaint_is_said_under_this_one_too()
    {
        var first = await Complaint("port-airflow", "petrol-in-oil");
        var vehicle = (await host.Get($"/v1/complaints/{first}")).Member("vehicleId");
        var second = (await host.Post($"/v1/vehicles/{vehicle}/complaints", new { title = "y", since = "2026-05", at = At, events = new[] { new { @event = "hard-start-hot", answer = "present" } } })).Id;

        Assert.Equal("petrol-in-oil", (await Assess(second)).Body.GetProperty("stopNotes")[0].GetProperty("id").GetString());
    }

    public void Dispose() => host.Dispose();

    private async Task<string> Complaint(string system, string told) =>
        (await host.Post($"/v1/vehicles/{await host.Vehicle(system)}/complaints",
            new { title = "x", since = "2026-05", at = "2026-06-15T08:00:00Z", events = new[] { new { @event = told, answer = "present" } } })).Id;

    private async Task Find(string complaint, object finding) =>
        Assert.Equal(HttpStatusCode.Created, (await host.Post($"/v1/complaints/{complaint}/findings", finding)).Status);

    private Task<Answer> Assess(string complaint) => host.Get($"/v1/complaints/{complaint}/assessment");

    private async Task<JsonElement> Advise(string complaint) => (await host.Get($"/v1/complaints/{complaint}/advice")).Body;

    /// <summary>Tags of all checks, trials and repairs that are proposed, as the file has them.</summary>
    private static IReadOnlyList<string> Involved(string system, JsonElement advice)
    {
        var model = FaultModels.ModelFile.Composed(system).Read();
        HashSet<string> proposed = [.. advice.GetProperty("nextChecks").EnumerateArray().Select(c => c.GetProperty("check").GetString()!)];
        Assert.NotEmpty(proposed);
        var steps = advice.GetProperty("plan").GetProperty("steps").EnumerateArray().Select(s => (s.GetProperty("component").GetString(), s.GetProperty("action").GetString())).ToHashSet();
        return
        [
            .. model.Checks.Where(c => proposed.Contains(c.Id)).SelectMany(c => c.Involves), .. model.Trials.Where(t => proposed.Contains(t.Id)).SelectMany(t => t.Involves),
            .. model.Components.SelectMany(c => c.Work.Where(w => steps.Contains((c.Id, w.Action))).SelectMany(w => w.Involves)),
        ];
    }

    /// <summary>What each proposed trial involves.</summary>
    private static IReadOnlyList<IReadOnlyList<string>> Trials(string system, JsonElement advice)
    {
        HashSet<string> proposed = [.. advice.GetProperty("nextChecks").EnumerateArray().Where(c => c.GetProperty("trial").GetBoolean()).Select(c => c.GetProperty("check").GetString()!)];
        return [.. FaultModels.ModelFile.Composed(system).Read().Trials.Where(t => proposed.Contains(t.Id)).Select(t => t.Involves)];
    }
}
