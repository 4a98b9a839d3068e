using System.Globalization;
using System.Net;
using System.Text.Json;

namespace FuelHistory.Tests.Host;

public sealed class LeakDownTests : IDisposable
{
    private const string Stop = "2026-06-15T10:00:00+02:00";
    private readonly ApiHost host = new();

    [Fact]
    public async Task Leak_down_watched_reading_by_reading_forecasts_and_finishes_as_one_finding()
    {
        var (complaint, run) = await Begin();
        Answer last = await host.Get($"/v1/leak-downs/{run}");
        Assert.Equal(JsonValueKind.Null, last.Body.GetProperty("analysis").ValueKind);
        foreach (var (minutes, bar) in new[] { (0.5, 2.8), (1, 2.4), (2, 1.8), (3, 1.3), (4, 1.0) })
        {
            last = await Add(run, Reading(minutes, bar));
        }

        var analysis = last.Body.GetProperty("analysis");
        Assert.Equal("stop-fails", analysis.GetProperty("verdict").GetString());
        Assert.EndsWith(" that it will be below 1.7 bar after 10 minutes: you may stop.", analysis.GetProperty("says").GetString(), StringComparison.Ordinal);
        Assert.InRange(analysis.GetProperty("tau").GetProperty("median").GetDouble(), 2.5, 5);
        Assert.Equal("steady-seep", analysis.GetProperty("shapes")[0].GetProperty("shape").GetString());
        Assert.DoesNotContain((await host.Get($"/v1/complaints/{complaint}/findings")).Body.EnumerateArray(), f => f.GetProperty("check").ValueKind != JsonValueKind.Null);

        var done = await host.Post($"/v1/leak-downs/{run}/finish");
        Assert.Equal("finished", done.Member("state"));
        Assert.Equal(2, done.Version);
        var finding = await host.Get($"/v1/findings/{done.Member("finding")}");
        Assert.Equal(5, finding.Body.GetProperty("points").GetArrayLength());
        Assert.Equal("2026-06-15T10:04:00.000+02:00", finding.Member("at"));
        Assert.Equal(HttpStatusCode.OK, (await host.Post($"/v1/leak-downs/{run}/finish")).Status);
        Assert.Equal("closed", (await Add(run, Reading(5, 0.8))).Code);
    }

    [Fact]
    public async Task Readings_sent_again_or_out_of_order_are_each_taken_once()
    {
        var (_, run) = await Begin();
        object[] three = [Reading(2, 2.0, "b"), Reading(1, 2.4, "a"), Reading(3, 1.7)];

        await Add(run, three);
        var again = await Add(run, [.. three, Reading(0.5, 2.7, "c")]);

        Assert.Equal([0.5, 1, 2, 3], Minutes(again));
        Assert.Equal(again.Text, (await host.Get($"/v1/leak-downs/{run}")).Text);
    }

    [Fact]
    public async Task Reading_known_with_other_figures_is_refused_and_nothing_of_the_request_is_stored()
    {
        var (_, run) = await Begin();
        await Add(run, Reading(1, 2.4, "a"));

        var refused = await Add(run, Reading(2, 2.0, "b"), Reading(1, 2.3, "a"), Reading(1, 2.2), Reading(3, -1), Reading(2000, 1), new { pressure = new { value = 1, unit = "bar" } });

        Assert.Equal(["/readings/1 differs", "/readings/2 differs", "/readings/3/pressure/value out-of-range", "/readings/4/minutes out-of-range", "/readings/5 unsuitable"], refused.Faults);
        var there = await host.Get($"/v1/leak-downs/{run}");
        Assert.Equal([1], Minutes(there));
    }

    [Fact]
    public async Task Reading_taken_back_stays_readable_and_a_late_repeat_does_not_bring_it_back()
    {
        var (_, run) = await Begin();
        await Add(run, Reading(1, 2.4, "a"), Reading(2, 20, "slip", confirmed: true));

        var undone = await host.Post($"/v1/leak-downs/{run}/readings/slip/take-back");
        await host.Post($"/v1/leak-downs/{run}/readings/slip/take-back");
        var late = await Add(run, Reading(2, 20, "slip", confirmed: true), Reading(2, 2.0, "right"));

        Assert.NotEqual(JsonValueKind.Null, undone.Body.GetProperty("readings")[1].GetProperty("takenBack").ValueKind);
        Assert.Equal([1, 2], Minutes(late));
        Assert.Equal(3, late.Body.GetProperty("readings").GetArrayLength());
        Assert.Equal("not-found", (await host.Post($"/v1/leak-downs/{run}/readings/none/take-back")).Code);
    }

    [Fact]
    public async Task Reading_may_give_its_instant_instead_of_minutes()
    {
        var (_, run) = await Begin();

        var answer = await Add(run, new { at = "2026-06-15T08:02:30Z", pressure = new { value = 30, unit = "psi" } });

        Assert.Equal([2.5], Minutes(answer));
        Assert.Equal(["/readings/0/at out-of-range"], (await Add(run, new { at = "2026-06-15T07:59:00Z", pressure = new { value = 2, unit = "bar" } })).Faults);
    }

    [Fact]
    public async Task Running_leak_down_counts_only_where_it_is_tried()
    {
        var (complaint, run) = await Begin();
        var before = await host.Get($"/v1/complaints/{complaint}/assessment?reasons=all");
        await Add(run, Reading(1, 1.2), Reading(2, 0.6), Reading(4, 0.2));

        var tried = await host.Get($"/v1/leak-downs/{run}/assessment");

        Assert.Equal(before.ETag, (await host.Get($"/v1/complaints/{complaint}/assessment?reasons=all")).ETag);
        Assert.Single(tried.Body.GetProperty("tried").EnumerateArray());
        Assert.NotEmpty(tried.Body.GetProperty("changes").EnumerateArray());
        await host.Post($"/v1/leak-downs/{run}/finish");
        var after = await host.Get($"/v1/complaints/{complaint}/assessment?reasons=all");
        Assert.Equal(Bad(tried.Body.GetProperty("assessment")), Bad(after.Body));
        Assert.Empty((await host.Get($"/v1/leak-downs/{run}/assessment?reasons=all")).Body.GetProperty("tried").EnumerateArray());
    }

    [Fact]
    public async Task Void_takes_the_finding_along()
    {
        var (complaint, run) = await Begin();
        await Add(run, Reading(1, 1.2));
        var finding = (await host.Post($"/v1/leak-downs/{run}/finish")).Member("finding");

        Assert.Equal(HttpStatusCode.PreconditionFailed, (await host.Send(HttpMethod.Post, $"/v1/leak-downs/{run}/void", new { reason = "hose off" }, ("If-Match", "\"1\""))).Status);
        var gone = await host.Post($"/v1/leak-downs/{run}/void", new { reason = "hose off" });

        Assert.Equal(3, gone.Version);
        Assert.Equal("hose off", (await host.Get($"/v1/findings/{finding}")).Body.GetProperty("entry").GetProperty("voidReason").GetString());
        Assert.Equal(0, (await host.Get($"/v1/complaints/{complaint}/leak-downs")).Body.GetArrayLength());
        Assert.Equal("closed", (await host.Post($"/v1/leak-downs/{run}/finish")).Code);
    }

    [Fact]
    public async Task Correction_makes_a_version_and_keeps_the_readings()
    {
        var (_, run) = await Begin();
        await Add(run, Reading(1, 2.4));

        var corrected = await host.Put($"/v1/leak-downs/{run}", new { check = "leak-down-whole", stoppedAt = Stop, instrument = await host.Gauge(), unit = "psi", ambient = new { value = 18, unit = "°C" } }, "\"1\"");

        Assert.Equal(2, corrected.Version);
        Assert.Equal(1, corrected.Body.GetProperty("readings").GetInt32());
        Assert.Equal("psi", (await host.Get($"/v1/leak-downs/{run}")).Body.GetProperty("analysis").GetProperty("unit").GetString());
        Assert.Equal(2, (await host.Get($"/v1/leak-downs/{run}/versions")).Body.GetArrayLength());
    }

    [Theory]
    [InlineData("""{ "check": "plugs", "stoppedAt": "2026-06-15T10:00:00+02:00" }""", "/check unknown")]
    [InlineData("""{ "check": "leak-down-whole", "stoppedAt": "2026-06-16T10:00:00+02:00" }""", "/stoppedAt impossible-date")]
    [InlineData("""{ "check": "leak-down-whole", "stoppedAt": "2026-06-15T10:00:00+02:00", "unit": "V" }""", "/unit wrong-unit")]
    [InlineData("""{ "check": "leak-down-whole", "stoppedAt": "2026-06-15T10:00:00+02:00", "fuel": { "value": 400, "unit": "°C" } }""", "/fuel out-of-range")]
    [InlineData("""{ "check": "leak-down-whole", "stoppedAt": "2026-06-15T10:00:00+02:00", "instrument": "none" }""", "/instrument unknown")]
    public async Task Leak_down_that_cannot_be_begun_is_refused(string body, string fault)
    {
        var complaint = await host.Complaint(await host.Vehicle());

        Assert.Equal([fault], (await host.Post($"/v1/complaints/{complaint}/leak-downs", body)).Faults);
    }

    [Fact]
    public async Task Finish_without_a_reading_is_refused()
    {
        var (_, run) = await Begin();

        Assert.Equal(["/readings required"], (await host.Post($"/v1/leak-downs/{run}/finish")).Faults);
    }

    [Fact]
    public async Task Unchanged_leak_down_costs_a_304_and_carries_its_cautions()
    {
        var (_, run) = await Begin();
        var first = await Add(run, Reading(1, 2.4));

        Assert.Equal(HttpStatusCode.NotModified, (await host.Get($"/v1/leak-downs/{run}", first.ETag)).Status);
        Assert.NotEmpty(first.Body.GetProperty("leakDown").GetProperty("cautions").EnumerateArray());
        Assert.NotEqual(first.ETag, (await Add(run, Reading(2, 2.0))).ETag);
    }

    public void Dispose() => host.Dispose();

    private static object Reading(double minutes, double bar, string? id = null, bool confirmed = false) => new { minutes, pressure = new { value = bar, unit = "bar" }, id, confirmed };

    private static double[] Minutes(Answer answer) =>
        [.. answer.Body.GetProperty("readings").EnumerateArray().Where(r => r.GetProperty("takenBack").ValueKind == JsonValueKind.Null).Select(r => r.GetProperty("minutes").GetDouble())];

    private static string[] Bad(JsonElement assessment) =>
        [.. assessment.GetProperty("ranking").EnumerateArray().Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.GetProperty("component").GetString()} {r.GetProperty("bad").GetDouble():0.000000}"))];

    private async Task<(string Complaint, string Run)> Begin()
    {
        var complaint = await host.Complaint(await host.Vehicle());
        return (complaint, (await host.Post($"/v1/complaints/{complaint}/leak-downs", new { check = "leak-down-whole", stoppedAt = Stop })).Id);
    }

    private Task<Answer> Add(string run, params object[] readings) => host.Post($"/v1/leak-downs/{run}/readings", new { readings });
}
