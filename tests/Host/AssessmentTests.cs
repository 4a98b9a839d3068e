using System.Net;

namespace FuelHistory.Tests.Host;

public sealed class AssessmentTests : IDisposable
{
    private readonly ApiHost host = new();

    [Fact]
    public async Task Assessment_ranks_components_with_reasons_checks_and_plan()
    {
        var complaint = await Search();
        var body = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body;

        Assert.Equal("answered", body.GetProperty("outcome").GetString());
        Assert.Equal("2026-06-15", body.GetProperty("asOf").GetString());
        var ranking = body.GetProperty("ranking").EnumerateArray().ToList();
        Assert.Equal(ranking.Select(r => r.GetProperty("explains").GetDouble()).OrderDescending(), ranking.Select(r => r.GetProperty("explains").GetDouble()));
        Assert.All(ranking, r => Assert.InRange(r.GetProperty("bad").GetDouble(), 0, 1));
        Assert.Contains(ranking[0].GetProperty("why").EnumerateArray(), w => w.GetProperty("text").GetString() == "Residual pressure: 0.8 bar after 10 min" && w.GetProperty("factor").GetDouble() > 1);
        var advice = (await host.Get($"/v1/complaints/{complaint}/advice")).Body;
        Assert.NotEmpty(advice.GetProperty("nextChecks").EnumerateArray());
        Assert.True(advice.GetProperty("plan").GetProperty("advice").GetString()!.Length > 20);
    }

    [Fact]
    public async Task Assessment_unchanged_is_not_sent_again_and_any_entry_makes_it_new()
    {
        var complaint = await Search();
        var path = $"/v1/complaints/{complaint}/assessment";
        var first = await host.Get(path);

        Assert.Equal(HttpStatusCode.NotModified, (await host.Get(path, first.ETag)).Status);
        Assert.Equal(first.Text, (await host.Get(path)).Text);
        await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T11:00:00Z", check = "accumulator-vent", outcome = "yes" });
        var second = await host.Get(path, first.ETag);
        Assert.Equal(HttpStatusCode.OK, second.Status);
        Assert.True(Bad(second, "accumulator") > 2 * Bad(first, "accumulator"));
        Assert.Equal(HttpStatusCode.OK, (await host.Put("/v1/settings", new { currency = "GBP", labourRate = 90, toolsAtHand = (string[]?)null, units = new { }, locale = "en" })).Status);
        var third = await host.Get(path, second.ETag);
        Assert.Equal("GBP", third.Member("currency"));
    }

    [Fact]
    public async Task Assessment_of_an_earlier_day_leaves_out_what_was_found_later()
    {
        var complaint = await Search();
        var before = await host.Get($"/v1/complaints/{complaint}/assessment");
        host.Clock.Now = new DateTimeOffset(2026, 6, 20, 12, 0, 0, TimeSpan.Zero);
        await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-20T11:00:00Z", check = "accumulator-vent", outcome = "yes" });

        var asOf = await host.Get($"/v1/complaints/{complaint}/assessment?asOf=2026-06-15");

        Assert.Equal(before.Text, asOf.Text);
        Assert.NotEqual(before.Text, (await host.Get($"/v1/complaints/{complaint}/assessment?asOf=2026-06-20")).Text);
    }

    [Fact]
    public async Task Assessment_as_it_was_known_undoes_corrections_and_voids()
    {
        var complaint = await Search();
        var finding = (await host.Get($"/v1/complaints/{complaint}/findings")).Body[0].GetProperty("entry").GetProperty("id").GetString();
        var before = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body.GetProperty("ranking").ToString();
        host.Clock.Now += TimeSpan.FromMinutes(10);
        await host.Post($"/v1/findings/{finding}/void", new { reason = "asked wrongly" });

        Assert.NotEqual(before, (await host.Get($"/v1/complaints/{complaint}/assessment")).Body.GetProperty("ranking").ToString());
        var then = await host.Get($"/v1/complaints/{complaint}/assessment?knownAt=2026-06-15T14:05:00%2B02:00");
        Assert.Equal(before, then.Body.GetProperty("ranking").ToString());
        Assert.Equal(HttpStatusCode.NotFound, (await host.Get($"/v1/complaints/{complaint}/assessment?knownAt=2026-06-14T00:00:00Z")).Status);
    }

    [Fact]
    public async Task Assessment_does_not_depend_on_the_unit_of_a_reading()
    {
        async Task<double[]> Bad(double value, string unit)
        {
            var complaint = await host.Complaint(await host.Vehicle());
            await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T10:00:00Z", check = "system-pressure", reading = new { value, unit } });
            return [.. (await host.Get($"/v1/complaints/{complaint}/assessment")).Body.GetProperty("ranking").EnumerateArray().OrderBy(r => r.GetProperty("component").GetString()).Select(r => r.GetProperty("bad").GetDouble())];
        }

        var bar = await Bad(4.2, "bar");
        Assert.All(bar.Zip(await Bad(420, "kPa")), b => Assert.Equal(b.First, b.Second, 1e-9));
        Assert.Contains(bar.Zip(await Bad(5.0, "bar")), b => Math.Abs(b.First - b.Second) > 1e-3);
    }

    [Fact]
    public async Task Assessment_of_nothing_or_on_no_day_is_refused()
    {
        var complaint = await Search();

        Assert.Equal(["asOf impossible-date", "knownAt impossible-date"], (await host.Get($"/v1/complaints/{complaint}/assessment?asOf=2026-06&knownAt=2026-06-15T10:00:00")).Faults);
        Assert.Equal(["asOf impossible-date"], (await host.Get($"/v1/complaints/{complaint}/assessment?asOf=yesterday")).Faults);
        Assert.Equal("not-found", (await host.Get("/v1/complaints/none/assessment")).Code);
        await host.Post($"/v1/complaints/{complaint}/void", new { reason = "wrong car" });
        Assert.Equal("closed", (await host.Get($"/v1/complaints/{complaint}/assessment")).Code);
    }

    [Fact]
    public async Task Assessment_a_confirmed_reading_beyond_the_range_counts_as_the_outermost_level()
    {
        async Task<double> Stuck(double? value)
        {
            var complaint = await host.Complaint(await host.Vehicle());
            if (value is not null)
            {
                await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T10:00:00Z", check = "system-pressure", reading = new { value, unit = "bar" }, confirmed = true });
            }

            var ranking = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body.GetProperty("ranking").EnumerateArray();
            return ranking.Single(r => r.GetProperty("component").GetString() == "regulator").GetProperty("modes").EnumerateArray()
                .Single(m => m.GetProperty("mode").GetString() == "stuck-high").GetProperty("probability").GetDouble();
        }

        var without = await Stuck(null);
        var beyond = await Stuck(14.5);
        Assert.True(beyond > 3 * without, $"{without} {beyond}");
        Assert.Equal(await Stuck(10), beyond, 1e-9);
    }

    [Fact]
    public async Task Assessment_names_the_pressure_run_that_it_sets_aside()
    {
        var complaint = await host.Complaint(await host.Vehicle());
        object P(double minutes, double value) => new { minutes, pressure = new { value, unit = "bar" } };
        var made = await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T10:00:00Z", check = "leak-down-whole", points = new[] { P(2, 0.4), P(5, 4.8), P(10, 0.6), P(15, 4.9) }, instrument = await host.Gauge() });
        var aside = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body.GetProperty("slips").EnumerateArray().Single();

        Assert.EndsWith(aside.GetProperty("finding").GetString()!, made.Headers.Location!.ToString(), StringComparison.Ordinal);
        Assert.True(aside.GetProperty("probability").GetDouble() > 0.5);
        Assert.Contains("taken for a slip", aside.GetProperty("sentence").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Assessment_takes_a_measurement_without_a_figure()
    {
        var complaint = await host.Complaint(await host.Vehicle());
        var path = $"/v1/complaints/{complaint}/assessment";
        var before = Bad(await host.Get(path), "fuel-pump");
        var made = await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T10:00:00Z", check = "system-pressure", outcome = "below" });

        Assert.Equal(HttpStatusCode.Created, made.Status);
        Assert.Equal("System pressure: below the limits", (await host.Get(made.Headers.Location!.ToString())).Member("text"));
        Assert.True(Bad(await host.Get(path), "fuel-pump") > 2 * before);
    }

    public void Dispose() => host.Dispose();

    private static double Bad(Answer answer, string component) => answer.Body.GetProperty("ranking").EnumerateArray()
        .Single(r => r.GetProperty("component").GetString() == component).GetProperty("bad").GetDouble();

    [Fact]
    public async Task Advice_after_a_repair_repeats_the_check_that_failed_and_names_what_it_showed()
    {
        var complaint = await Search();
        var finding = (await host.Get($"/v1/complaints/{complaint}/findings")).Body[0].GetProperty("entry").GetProperty("id").GetString();
        var car = (await host.Get($"/v1/complaints/{complaint}")).Member("vehicleId");
        host.Clock.Now += TimeSpan.FromHours(2);
        var work = await host.Post($"/v1/vehicles/{car}/work", new { date = "2026-06-15", at = "2026-06-15T13:00:00Z", action = "fitted", components = new[] { "accumulator" }, quality = "new" });
        Assert.Equal(HttpStatusCode.Created, work.Status);

        var advice = (await host.Get($"/v1/complaints/{complaint}/advice")).Body;

        var first = advice.GetProperty("nextChecks")[0];
        Assert.Equal(("leak-down-whole", finding, true), (first.GetProperty("check").GetString(), first.GetProperty("repeats").GetString(), first.GetProperty("pays").GetBoolean()));
        Assert.Contains("Residual pressure: 0.8 bar after 10 min", first.GetProperty("why").GetString(), StringComparison.Ordinal);
        Assert.Contains("epeat the check that failed: Residual pressure (last: Residual pressure: 0.8 bar after 10 min)", advice.GetProperty("plan").GetProperty("advice").GetString(), StringComparison.OrdinalIgnoreCase);
    }

    private async Task<string> Search()
    {
        var car = await host.Vehicle();
        await host.Post($"/v1/vehicles/{car}/work", new { date = "2025-10", action = "fitted", components = new[] { "fuel-pump" }, known = "invoice", quality = "new" });
        var complaint = await host.Complaint(car);
        await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T10:00:00Z", check = "leak-down-whole", points = new[] { new { minutes = 10, pressure = new { value = 0.8, unit = "bar" } } }, instrument = await host.Gauge() });
        return complaint;
    }
}
