using System.Net;

namespace FuelHistory.Tests.Host;

public sealed class SetAsideTests : IDisposable
{
    private readonly ApiHost host = new();

    [Theory]
    [InlineData("not-fitted")]
    [InlineData("no-tool")]
    public async Task Check_set_aside_for_good_is_not_proposed_under_any_complaint_until_voided(string reason)
    {
        var vehicle = await host.Vehicle();
        var (first, second) = (await host.Complaint(vehicle), await host.Complaint(vehicle));
        Assert.Contains("accumulator-vent", await Proposed(second));

        var entry = await host.Post($"/v1/complaints/{first}/set-aside", new { check = "accumulator-vent", reason, note = "seen" });
        Assert.Equal(HttpStatusCode.Created, entry.Status);
        Assert.Equal($"/v1/set-aside/{entry.Id}", entry.Headers.Location!.ToString());
        Assert.Equal("Accumulator vent", entry.Member("title"));
        host.Clock.Now = host.Clock.Now.AddDays(30);
        Assert.DoesNotContain("accumulator-vent", await Proposed(first));
        Assert.DoesNotContain("accumulator-vent", await Proposed(second));

        Assert.Equal(HttpStatusCode.OK, (await host.Post($"/v1/set-aside/{entry.Id}/void", new { reason = "bought one" })).Status);
        Assert.Contains("accumulator-vent", await Proposed(second));
        Assert.Empty((await host.Get($"/v1/complaints/{first}/set-aside")).Body.EnumerateArray());
        Assert.Equal(2, (await host.Get($"/v1/set-aside/{entry.Id}/versions")).Body.GetArrayLength());
        Assert.Equal("bought one", (await host.Get($"/v1/set-aside/{entry.Id}")).Body.GetProperty("entry").GetProperty("voidReason").GetString());
    }

    [Fact]
    public async Task Not_today_ends_with_the_day_or_with_the_day_that_is_given()
    {
        var complaint = await host.Complaint(await host.Vehicle());
        await host.Post($"/v1/complaints/{complaint}/set-aside", new { check = "accumulator-vent", reason = "not-today" });
        await host.Post($"/v1/complaints/{complaint}/set-aside", new { check = "leak-down-whole", reason = "not-today", until = "2026-06-17" });

        Assert.Equal(["2026-06-15", "2026-06-17"], (await host.Get($"/v1/complaints/{complaint}/set-aside")).Body.EnumerateArray().Select(s => s.GetProperty("until").GetString()!));
        Assert.Empty((await Proposed(complaint)).Intersect(["accumulator-vent", "leak-down-whole"]));
        host.Clock.Now = host.Clock.Now.AddDays(1);
        var next = await Proposed(complaint);
        Assert.Contains("accumulator-vent", next);
        Assert.DoesNotContain("leak-down-whole", next);
        host.Clock.Now = host.Clock.Now.AddDays(2);
        Assert.Contains("leak-down-whole", await Proposed(complaint));
    }

    [Fact]
    public async Task Trial_is_set_aside_like_a_check()
    {
        using ApiHost real = new(realModels: true);
        var complaint = (await real.Post($"/v1/vehicles/{await real.Vehicle("diesel-mechanical")}/complaints", new { title = "x", since = "2026-05", events = new[] { new { @event = "no-start", answer = "present" }, new { @event = "no-smoke-cranking", answer = "present" } } })).Id;
        Assert.Contains("stop-direct", (await real.Get($"/v1/complaints/{complaint}/advice")).Text, StringComparison.Ordinal);

        var entry = await real.Post($"/v1/complaints/{complaint}/set-aside", new { trial = "stop-direct", reason = "no-tool" });
        Assert.Equal("stop-direct", entry.Member("trial"));
        Assert.Contains("solenoid", entry.Member("title"), StringComparison.Ordinal);
        Assert.DoesNotContain("stop-direct", (await real.Get($"/v1/complaints/{complaint}/advice")).Text, StringComparison.Ordinal);
        Assert.Equal(["/check required"], (await real.Post($"/v1/complaints/{complaint}/set-aside", new { trial = "stop-direct", check = "stop-click", reason = "no-tool" })).Faults);
        Assert.Equal(["/check required"], (await real.Post($"/v1/complaints/{complaint}/set-aside", new { reason = "no-tool" })).Faults);
    }

    [Fact]
    public async Task Faults_are_all_told_at_once()
    {
        var complaint = await host.Complaint(await host.Vehicle());

        var answer = await host.Post($"/v1/complaints/{complaint}/set-aside", new { check = "accumulator-vnt", reason = "tired", until = "2026" });
        Assert.Equal(["/check unknown", "/reason unknown", "/until unsuitable"], answer.Faults);
        Assert.Contains("accumulator-vent", answer.Detail, StringComparison.Ordinal);
        Assert.Equal(["/until impossible-date"], (await host.Post($"/v1/complaints/{complaint}/set-aside", new { check = "plugs", reason = "not-today", until = "2026-06" })).Faults);
        Assert.Equal(["/until impossible-date"], (await host.Post($"/v1/complaints/{complaint}/set-aside", new { check = "plugs", reason = "not-today", until = "2026-06-14" })).Faults);
        Assert.Equal(HttpStatusCode.NotFound, (await host.Post("/v1/complaints/none/set-aside", new { check = "plugs", reason = "no-tool" })).Status);
    }

    [Fact]
    public async Task Record_says_what_was_set_aside_and_why()
    {
        var vehicle = await host.Vehicle();
        var complaint = await host.Complaint(vehicle);
        await host.Post($"/v1/complaints/{complaint}/set-aside", new { check = "plugs", reason = "no-tool", note = "key too wide" });

        var line = Assert.Single((await host.Get($"/v1/vehicles/{vehicle}/record")).Body.GetProperty("lines").EnumerateArray(), l => l.GetProperty("kind").GetString() == "set-aside");
        Assert.Equal("Plug faces set aside: no tool for it", line.GetProperty("text").GetString());
        Assert.Equal("key too wide", line.GetProperty("detail").GetString());
        Assert.Equal(complaint, line.GetProperty("complaintId").GetString());
    }

    public void Dispose() => host.Dispose();

    private async Task<IReadOnlyList<string>> Proposed(string complaint) =>
        [.. (await host.Get($"/v1/complaints/{complaint}/advice")).Body.GetProperty("nextChecks").EnumerateArray().Select(c => c.GetProperty("check").GetString()!)];
}
