using System.Net;

namespace FuelHistory.Tests.Host;

/// <summary>Time as people know it: half-known dates, the order of entries, days that cannot be asked for.</summary>
public sealed class TimeTests : IDisposable
{
    private readonly ApiHost host = new();

    [Theory]
    [InlineData("1995-06-03")]
    [InlineData("1995-06")]
    [InlineData("1995")]
    [InlineData("1995~")]
    [InlineData("about 1995")]
    [InlineData("About  1995-06", "about 1995-06")]
    [InlineData("about 1995-06-03")]
    [InlineData("before 1995")]
    [InlineData("after 1995-06")]
    [InlineData("between 1990 and 1995-06-03")]
    [InlineData("Unknown", "unknown")]
    public async Task Date_half_known_is_read_back_as_entered_wherever_an_entry_has_one(string date, string? kept = null)
    {
        kept ??= date;
        var car = await host.Vehicle();
        var work = await host.Post($"/v1/vehicles/{car}/work", new { date, action = "fitted", components = new[] { "fuel-pump" }, quality = "new" });
        var odometer = await host.Post($"/v1/vehicles/{car}/odometer", new { date, reading = new { value = 90000, unit = "km" } });
        var layUp = await host.Post($"/v1/vehicles/{car}/lay-ups", new { from = date, to = "unknown" });
        var incident = await host.Post($"/v1/vehicles/{car}/incidents", new { date, kind = "ran-dry" });
        var complaint = await host.Post($"/v1/vehicles/{car}/complaints", new { title = "x", since = date, events = new[] { new { @event = "hard-hot-start", answer = "present" } } });

        Assert.Equal([kept, kept, kept, kept], [work.Member("date"), odometer.Member("date"), layUp.Member("from"), incident.Member("date")]);
        Assert.Equal(("unknown", kept), (layUp.Member("to"), complaint.Member("since")));
        var answer = await host.Get($"/v1/complaints/{complaint.Id}/assessment");
        Assert.Equal("answered", answer.Member("outcome"));
        Assert.Equal(HttpStatusCode.OK, (await host.Get($"/v1/vehicles/{car}/record")).Status);
        Assert.Equal(HttpStatusCode.OK, (await host.Get($"/v1/vehicles/{car}/report")).Status);
    }

    [Theory]
    [InlineData("about")]
    [InlineData("about the year 1995")]
    [InlineData("before 13")]
    [InlineData("between 1995 and 1990")]
    [InlineData("between 1995")]
    [InlineData("after 2026-06")]
    [InlineData("before 1981")]
    [InlineData("never")]
    public async Task Date_that_cannot_be_is_refused(string date)
    {
        var car = await host.Vehicle();
        var refused = await host.Post($"/v1/vehicles/{car}/work", new { date, action = "fitted", components = new[] { "fuel-pump" } });

        Assert.Equal(["/date impossible-date"], refused.Faults);
    }

    [Fact]
    public async Task Finding_entered_right_after_a_repair_counts_after_it()
    {
        // the clock stands: all of it is recorded in one millisecond, and bears one instant
        const string Now = "2026-06-15T12:00:00Z";
        var (car, complaint) = await Leaking();
        await host.Post($"/v1/vehicles/{car}/work", new { date = "2026-06-15", at = Now, action = "fitted", components = new[] { "accumulator", "check-valve", "regulator" }, quality = "new" });
        await host.Post($"/v1/complaints/{complaint}/findings", new { at = Now, component = "accumulator", outcome = "bad" });

        // what was seen is the new part, not the one that is gone
        Assert.True(await Bad(complaint, "accumulator") > 0.9, $"{await Bad(complaint, "accumulator")}");
    }

    [Fact]
    public async Task Finding_typed_to_the_minute_right_after_a_repair_without_an_instant_counts_after_it()
    {
        var (car, complaint) = await Leaking();
        host.Clock.Now = host.Clock.Now.AddSeconds(20);
        await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T12:00:20Z", @event = "hard-hot-start", outcome = "present" });
        host.Clock.Now = host.Clock.Now.AddSeconds(10);
        await host.Post($"/v1/vehicles/{car}/work", new { date = "2026-06-15", action = "fitted", components = new[] { "accumulator", "check-valve", "regulator" }, quality = "new" });
        host.Clock.Now = host.Clock.Now.AddSeconds(10);
        await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T12:00:00Z", @event = "hard-hot-start", outcome = "absent" });

        Assert.True((await host.Get($"/v1/complaints/{complaint}/assessment")).Body.GetProperty("resolved").GetDouble() > 0.9);
    }

    [Fact]
    public async Task Assessment_of_a_day_before_the_complaint_or_to_come_is_refused_by_name()
    {
        var (_, complaint) = await Leaking();
        async Task<string[]> Of(string day) => [.. (await host.Get($"/v1/complaints/{complaint}/assessment?asOf={day}")).Faults];

        Assert.Equal(["asOf before-complaint"], await Of("2026-04-30"));
        Assert.Equal(["asOf in-future"], await Of("2026-07-01"));
        Assert.Empty(await Of("2026-05-01"));
        Assert.Equal(["/asOf before-complaint"], (await host.Post($"/v1/complaints/{complaint}/assessment/what-if", new { asOf = "2026-04-30" })).Faults);
        Assert.Equal(["/asOf in-future"], (await host.Post($"/v1/complaints/{complaint}/assessment/what-if", new { asOf = "2026-07-01" })).Faults);
    }

    [Fact]
    public async Task Complaint_closed_before_it_began_or_in_the_future_is_refused()
    {
        var (_, complaint) = await Leaking();
        async Task<Answer> Close(string at) => await host.Post($"/v1/complaints/{complaint}/close", new { at, result = "given-up", causes = Array.Empty<object>(), provedBy = Array.Empty<string>() });

        var early = await Close("2026-04-30T12:00:00Z");
        Assert.Equal(["/at impossible-date"], early.Faults);
        Assert.Contains("before the complaint began", early.Text, StringComparison.Ordinal);
        Assert.Equal(["/at impossible-date"], (await Close("2026-06-16T12:00:00Z")).Faults);
    }

    [Fact]
    public async Task Work_across_a_finding_asks_before_or_after()
    {
        var (car, complaint) = await Leaking();
        await host.Post($"/v1/vehicles/{car}/work", new { date = "between 2026-05 and 2026-06", action = "cleaned", components = new[] { "regulator" } });
        host.Clock.Now = host.Clock.Now.AddDays(10);

        var asks = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body.GetProperty("asks");
        Assert.Contains("before or after", Assert.Single(asks.EnumerateArray()).GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Inspection_with_a_result_moves_its_part_and_says_how()
    {
        var (car, complaint) = await Leaking();
        double before = await Bad(complaint, "accumulator");
        var look = await host.Post($"/v1/vehicles/{car}/work", new { date = "2026-06-15", action = "inspected", components = new[] { "accumulator" }, outcome = "bad", mode = "ruptured", sure = false });

        Assert.Equal(("bad", "ruptured", "False"), (look.Member("outcome"), look.Member("mode"), look.Member("sure")));
        Assert.True(await Bad(complaint, "accumulator") > 2 * before);
        Assert.Contains("Fuel accumulator inspected: bad, diaphragm ruptured (not sure)", (await host.Get($"/v1/vehicles/{car}/record")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Inspection_that_does_not_fit_is_refused_with_all_faults()
    {
        var car = await host.Vehicle();
        async Task<string[]> Of(object work) => [.. (await host.Post($"/v1/vehicles/{car}/work", work)).Faults];

        Assert.Equal(["/outcome unsuitable"], await Of(new { date = "2026", action = "cleaned", components = new[] { "regulator" }, outcome = "bad" }));
        Assert.Equal(["/components unsuitable"], await Of(new { date = "2026", action = "inspected", components = new[] { "regulator", "ignition" }, outcome = "good" }));
        Assert.Equal(["/mode unsuitable"], await Of(new { date = "2026", action = "inspected", components = new[] { "regulator" }, outcome = "good", mode = "seal-leaks" }));
        Assert.Equal(["/mode unknown"], await Of(new { date = "2026", action = "inspected", components = new[] { "regulator" }, outcome = "bad", mode = "ruptured" }));
        Assert.Equal(["/mode unsuitable", "/how unsuitable", "/sure unsuitable"], await Of(new { date = "2026", action = "inspected", components = new[] { "regulator" }, mode = "x", how = "seen", sure = false }));
        Assert.Equal(["/outcome unknown", "/how unknown"], await Of(new { date = "2026", action = "inspected", components = new[] { "regulator" }, outcome = "fine", how = "smelled" }));
    }

    [Fact]
    public async Task Part_tested_counts_for_less_than_seen_and_how_belongs_to_parts()
    {
        var (_, complaint) = await Leaking();
        object Part(string how) => new { at = "2026-06-15T11:00:00Z", component = "accumulator", outcome = "good", how };
        var tested = await host.Post($"/v1/complaints/{complaint}/findings", Part("tested"));

        Assert.Equal(("tested", "Fuel accumulator tested: good"), (tested.Member("how"), tested.Member("text")));
        Assert.Equal(["/how unknown"], (await host.Post($"/v1/complaints/{complaint}/findings", Part("smelled"))).Faults);
        Assert.Equal(["/how unsuitable"], (await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T11:00:00Z", @event = "misfire", outcome = "absent", how = "seen" })).Faults);
    }

    [Fact]
    public async Task Work_of_unknown_kind_is_taken_and_said()
    {
        var car = await host.Vehicle();
        var made = await host.Post($"/v1/vehicles/{car}/work", new { date = "unknown", action = "unknown", components = new[] { "regulator" }, known = "told" });

        Assert.Equal(HttpStatusCode.Created, made.Status);
        Assert.Contains("System pressure regulator: something done, nobody knows what (only told)", (await host.Get($"/v1/vehicles/{car}/record")).Text, StringComparison.Ordinal);
    }

    public void Dispose() => host.Dispose();

    private async Task<(string Car, string Complaint)> Leaking()
    {
        var car = await host.Vehicle();
        return (car, await host.Complaint(car));
    }

    private async Task<double> Bad(string complaint, string part) =>
        (await host.Get($"/v1/complaints/{complaint}/assessment")).Body.GetProperty("ranking").EnumerateArray().Single(r => r.GetProperty("component").GetString() == part).GetProperty("bad").GetDouble();
}
