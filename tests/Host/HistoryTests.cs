using System.Net;

namespace FuelHistory.Tests.Host;

/// <summary>Odometer, lay-ups, incidents and work: what is known of the past.</summary>
public sealed class HistoryTests : IDisposable
{
    private readonly ApiHost host = new();

    [Fact]
    public async Task Work_is_kept_as_entered()
    {
        var car = await host.Vehicle();
        var made = await host.Post($"/v1/vehicles/{car}/work", new
        {
            date = "2025-10",
            action = "fitted",
            components = new[] { "fuel-pump" },
            known = "invoice",
            quality = "new",
            odometer = new { value = 76432.5, unit = "mi" },
            cost = new { amount = 212.5m, currency = "EUR" },
            maker = "Ünlü & Söhne",
        });

        var found = await host.Get(made.Headers.Location!.ToString());
        Assert.Equal("""{"value":76432.5,"unit":"mi"}""", found.Member("odometer"));
        Assert.Equal("""{"amount":212.50,"currency":"EUR"}""", found.Member("cost"));
        Assert.Equal("Ünlü & Söhne", found.Member("maker"));
        Assert.Equal(1, (await host.Get($"/v1/vehicles/{car}/work")).Body.GetArrayLength());
    }

    [Fact]
    public async Task Work_with_many_faults_is_refused_with_all_of_them()
    {
        var car = await host.Vehicle();
        var refused = await host.Post($"/v1/vehicles/{car}/work", new
        {
            date = "1975",
            action = "replaced",
            components = new[] { "fuel-pmp", "regulator", "regulator", "gauge" },
            quality = "new",
            partAgeYears = 3,
            odometer = new { value = 3, unit = "psi" },
            cost = new { amount = 1.005, currency = "EUR" },
        });

        Assert.Equal(
            ["/action unknown", "/components/0 unknown", "/components/2 unsuitable", "/components/3 unknown", "/partAgeYears unsuitable", "/cost/amount out-of-range", "/date impossible-date", "/odometer/unit wrong-unit"],
            refused.Faults);
        Assert.Contains("\\\"fuel-pmp\\\". Did you mean fuel-pump?", refused.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Work_in_the_future_is_refused()
    {
        var car = await host.Vehicle();
        object Work(string date, string? at = null) => new { date, action = "cleaned", components = new[] { "regulator" }, at };

        Assert.Equal(["/date impossible-date"], (await host.Post($"/v1/vehicles/{car}/work", Work("2026-07"))).Faults);
        Assert.Equal(["/at impossible-date"], (await host.Post($"/v1/vehicles/{car}/work", Work("2026", "2026-06-15T12:06:00Z"))).Faults);
        Assert.Equal(["/at impossible-date"], (await host.Post($"/v1/vehicles/{car}/work", Work("2026-06-14", "2026-06-13T12:00:00Z"))).Faults);
        Assert.Equal(HttpStatusCode.Created, (await host.Post($"/v1/vehicles/{car}/work", Work("2026-06", "2026-06-15T12:04:00Z"))).Status);
    }

    [Fact]
    public async Task Work_of_a_part_that_was_not_fitted_has_no_quality()
    {
        var car = await host.Vehicle();
        var refused = await host.Post($"/v1/vehicles/{car}/work", new { date = "2026", action = "cleaned", components = new[] { "regulator" }, quality = "new" });

        Assert.Equal(["/quality unsuitable"], refused.Faults);
    }

    [Fact]
    public async Task Work_voided_leaves_the_list_and_stays_readable_with_its_reason()
    {
        var car = await host.Vehicle();
        var id = (await host.Post($"/v1/vehicles/{car}/work", new { date = "2025", action = "fitted", components = new[] { "fuel-pump" } })).Id;

        var voided = await host.Post($"/v1/work/{id}/void", new { reason = "another car's invoice" });

        Assert.Equal(2, voided.Version);
        Assert.Equal("[]", (await host.Get($"/v1/vehicles/{car}/work")).Text);
        Assert.Equal("another car's invoice", (await host.Get($"/v1/work/{id}")).Body.GetProperty("entry").GetProperty("voidReason").GetString());
        Assert.Equal(2, (await host.Get($"/v1/work/{id}/versions")).Body.GetArrayLength());
        Assert.Equal("closed", (await host.Post($"/v1/work/{id}/void", new { reason = "again" })).Code);
        Assert.Contains("another car's invoice", (await host.Get($"/v1/vehicles/{car}/record")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Void_without_a_reason_is_refused()
    {
        var car = await host.Vehicle();
        var id = (await host.Post($"/v1/vehicles/{car}/incidents", new { date = "2020-05-01", kind = "ran-dry" })).Id;

        Assert.Equal(["/reason required"], (await host.Post($"/v1/incidents/{id}/void", new { reason = "  " })).Faults);
    }

    [Fact]
    public async Task Odometer_that_runs_backwards_is_refused_unless_the_clock_was_changed()
    {
        var car = await host.Vehicle();
        object Reading(string date, double km, double? newClock = null) =>
            new { date, reading = new { value = km, unit = "km" }, newClock = newClock is { } c ? new { value = c, unit = "km" } : null };
        await host.Post($"/v1/vehicles/{car}/odometer", Reading("2010", 120000));

        var refused = await host.Post($"/v1/vehicles/{car}/odometer", Reading("2015", 4000));
        Assert.Equal(["/reading/value out-of-range"], refused.Faults);
        Assert.Contains("120000 km already on 2010", refused.Detail, StringComparison.Ordinal);

        await host.Post($"/v1/vehicles/{car}/odometer", Reading("2012", 131000, newClock: 10));
        Assert.Equal(HttpStatusCode.Created, (await host.Post($"/v1/vehicles/{car}/odometer", Reading("2015", 4000))).Status);
        Assert.Equal(["/reading/value out-of-range"], (await host.Post($"/v1/vehicles/{car}/odometer", Reading("2009", 125000))).Faults);
    }

    [Fact]
    public async Task Odometer_below_zero_or_beyond_any_car_is_refused()
    {
        var car = await host.Vehicle();
        Assert.Equal(["/reading/value out-of-range"], (await host.Post($"/v1/vehicles/{car}/odometer", new { date = "2010", reading = new { value = -1, unit = "km" } })).Faults);
        Assert.Equal(["/reading/value out-of-range"], (await host.Post($"/v1/vehicles/{car}/odometer", new { date = "2010", reading = new { value = 6e6, unit = "mi" } })).Faults);
    }

    [Fact]
    public async Task LayUp_that_ends_before_it_began_or_falls_into_another_is_refused()
    {
        var car = await host.Vehicle();
        Assert.Equal(["/to impossible-date"], (await host.Post($"/v1/vehicles/{car}/lay-ups", new { from = "2015-06", to = "2015-05" })).Faults);
        var made = await host.Post($"/v1/vehicles/{car}/lay-ups", new { from = "2015-06", to = "2017" });
        Assert.Equal(HttpStatusCode.Created, made.Status);

        Assert.Equal(["/from unsuitable"], (await host.Post($"/v1/vehicles/{car}/lay-ups", new { from = "2016" })).Faults);
        Assert.Equal(HttpStatusCode.OK, (await host.Put($"/v1/lay-ups/{made.Id}", new { from = "2015-07", to = "2017-05-01" })).Status);
        Assert.Equal(1, (await host.Get($"/v1/vehicles/{car}/lay-ups")).Body.GetArrayLength());
    }

    [Fact]
    public async Task Incident_of_an_unknown_kind_is_refused_with_the_nearest()
    {
        var car = await host.Vehicle();
        var refused = await host.Post($"/v1/vehicles/{car}/incidents", new { date = "2020", kind = "run-dry" });

        Assert.Equal(["/kind unknown"], refused.Faults);
        Assert.Contains("ran-dry", refused.Detail, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Created, (await host.Post($"/v1/vehicles/{car}/incidents", new { date = "2020", kind = "ran-dry" })).Status);
        Assert.Equal(1, (await host.Get($"/v1/vehicles/{car}/incidents")).Body.GetArrayLength());
    }

    [Fact]
    public async Task Entries_of_an_unknown_vehicle_are_not_found()
    {
        foreach (var list in new[] { "odometer", "lay-ups", "incidents", "work", "limits", "findings", "complaints", "record" })
        {
            Assert.Equal(HttpStatusCode.NotFound, (await host.Get($"/v1/vehicles/nobody/{list}")).Status);
        }
    }

    [Fact]
    public async Task Record_lists_everything_newest_first()
    {
        var car = await host.Vehicle();
        await host.Post($"/v1/vehicles/{car}/work", new { date = "2025-10", action = "fitted", components = new[] { "fuel-pump" }, known = "invoice", quality = "new" });
        await host.Post($"/v1/vehicles/{car}/lay-ups", new { from = "2016", to = "2018" });
        await host.Post($"/v1/vehicles/{car}/incidents", new { date = "2019-03-02", kind = "ran-dry" });
        await host.Post($"/v1/vehicles/{car}/odometer", new { date = "2020", reading = new { value = 88000, unit = "mi" } });
        await host.Complaint(car);

        var lines = (await host.Get($"/v1/vehicles/{car}/record")).Body.GetProperty("lines").EnumerateArray().Select(l => l.GetProperty("text").GetString()!);
        Assert.Equal(
            ["Starts badly when warm: present", "Complaint: Restarts badly (constant)", "Fuel pump fitted, new (invoice)", "Odometer 88000 mi", "Tank ran dry", "Laid up until 2018", "Blue hatchback, built 1981"],
            lines);
    }

    public void Dispose() => host.Dispose();
}
