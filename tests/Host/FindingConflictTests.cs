using System.Net;

namespace FuelHistory.Tests.Host;

/// <summary>Entries that contradict each other are refused and named; entries that only repeat each other are merged and said so.</summary>
public sealed class FindingConflictTests : IDisposable
{
    private const string At = "2026-06-15T10:00:00Z";

    private readonly ApiHost host = new(realModels: true);

    [Fact]
    public async Task Cold_only_yet_after_a_drive_is_refused_with_the_other_named_and_what_would_be_right()
    {
        var complaint = await Open("constant", new { @event = "hard-start", answer = "only", when = new[] { "cold" } });

        var refused = await Find(complaint, new { at = At, @event = "hard-start", outcome = "present", when = new[] { "hot-restart" } });

        Assert.Equal(["/event unsuitable"], refused.Faults);
        Assert.Matches("Hard to start, cold.*cannot both be right. Correct or void the one that is mistaken \\(id .+\\), or give yours a session of its own", refused.Detail);
    }

    [Theory]
    [InlineData("""{ "session": "next morning" }""")]
    [InlineData("""{ "at": "2026-06-14T10:00:00Z" }""")]
    [InlineData("""{ "sure": false }""")]
    [InlineData("""{ "when": ["cold"] }""")]
    public async Task Event_that_may_be_true_beside_the_other_is_taken(string members)
    {
        var complaint = await Open("constant", new { @event = "hard-start", answer = "only", when = new[] { "cold" } });
        var told = new Dictionary<string, object> { ["at"] = At, ["event"] = "hard-start", ["outcome"] = "present", ["when"] = new[] { "hot-restart" } };
        foreach (var member in System.Text.Json.JsonDocument.Parse(members).RootElement.EnumerateObject())
        {
            told[member.Name] = member.Value;
        }

        var made = await Find(complaint, told);

        Assert.True(made.Status == HttpStatusCode.Created, made.Text);
    }

    [Fact]
    public async Task Event_gone_after_work_of_the_same_day_is_no_contradiction()
    {
        var complaint = await Open("constant", new { @event = "hard-start", answer = "present" });
        var car = (await host.Get($"/v1/complaints/{complaint}")).Member("vehicleId");
        object gone = new { at = "2026-06-15T11:30:00Z", @event = "hard-start", outcome = "absent" };
        Assert.Equal(["/event unsuitable"], (await Find(complaint, gone)).Faults);
        await host.Post($"/v1/vehicles/{car}/work", new { date = "2026-06-15", at = "2026-06-15T10:30:00Z", action = "fitted", components = new[] { "accumulator" }, quality = "new" });

        Assert.Equal(HttpStatusCode.Created, (await Find(complaint, gone)).Status);
    }

    [Fact]
    public async Task Answers_of_one_opening_that_cannot_both_be_right_are_refused()
    {
        var refused = await Post("constant", "hard-start", new { @event = "hard-start", answer = "present", when = new[] { "cold" } }, new { @event = "hard-start", answer = "absent" });

        Assert.Equal(["/events/1/event unsuitable"], refused.Faults);
        Assert.Contains("cannot both be right", refused.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("runs-badly", "none of the events that are present")]
    [InlineData("idle-hunting", "hard-start")]
    public async Task Main_event_that_is_not_present_is_refused(string main, string said)
    {
        var refused = await Post("constant", main, new { @event = "hard-start", answer = "present" }, new { @event = "runs-badly", answer = "absent" });

        Assert.Contains(refused.Faults, f => f.StartsWith("/main ", StringComparison.Ordinal));
        Assert.True(refused.Detail.Contains(said, StringComparison.Ordinal) || refused.Detail.Contains("no event", StringComparison.Ordinal), refused.Detail);
    }

    [Fact]
    public async Task Findings_that_repeat_each_other_are_merged_and_said_so()
    {
        var complaint = await Open("constant", new { @event = "hard-start", answer = "present" });
        await Find(complaint, new { at = "2026-06-15T12:00:00Z", @event = "hard-start", outcome = "present", when = new[] { "cold" } });

        var notes = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body.GetProperty("notes").EnumerateArray().Select(n => n.GetString()!).ToList();

        Assert.Contains("\"Hard to start: present\" is said already by \"Hard to start, cold, after a night: present\"; together they count once.", notes);
    }

    [Theory]
    [InlineData("""{ "do": "another", "component": "propeller" }""", "/trial/component unknown")]
    [InlineData("""{ "do": "extra-fuel", "component": "pump" }""", "/trial/do unsuitable")]
    [InlineData("""{ "do": "touch", "component": "accumulator" }""", "/trial/component unsuitable")]
    [InlineData("""{ "trial": "relay-tap", "do": "touch", "component": "pump-relay" }""", "/trial unsuitable")]
    public async Task Trial_that_this_car_cannot_have_is_refused(string trial, string fault)
    {
        var complaint = await Open("constant", new { @event = "hard-start", answer = "present" });

        var refused = await Find(complaint, $$"""{ "at": "{{At}}", "trial": {{trial}}, "outcome": "ended" }""");

        Assert.Equal([fault], refused.Faults);
    }

    public void Dispose() => host.Dispose();

    private Task<Answer> Find(string complaint, object body) => host.Post($"/v1/complaints/{complaint}/findings", body);

    private async Task<string> Open(string course, params object[] events)
    {
        var made = await Post(course, null, events);
        Assert.True(made.Status == HttpStatusCode.Created, made.Text);
        return made.Id;
    }

    private async Task<Answer> Post(string course, string? main, params object[] events) =>
        await host.Post($"/v1/vehicles/{await host.Vehicle("continuous-mechanical")}/complaints", new { title = "Starts badly", since = "2026-05", course, at = At, main, events });
}
