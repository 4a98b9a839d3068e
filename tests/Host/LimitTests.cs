using System.Net;

namespace FuelHistory.Tests.Host;

/// <summary>This car's own limits, and the instruments that readings are made with.</summary>
public sealed class LimitTests : IDisposable
{
    private readonly ApiHost host = new();

    [Fact]
    public async Task Limit_of_a_leak_down_is_kept_as_entered()
    {
        var car = await host.Vehicle();
        var made = await host.Post($"/v1/vehicles/{car}/limits", new { check = "leak-down-whole", unit = "psi", source = "workshop manual", from = 43.5, points = new[] { new { minutes = 10, low = 29.0 }, new { minutes = 20, low = 24.5 } } });

        Assert.Equal(HttpStatusCode.Created, made.Status);
        Assert.Equal("""[{"minutes":10,"at":null,"low":29,"high":null},{"minutes":20,"at":null,"low":24.5,"high":null}]""", (await host.Get($"/v1/limits/{made.Id}")).Member("points"));
        Assert.Equal(1, (await host.Get($"/v1/vehicles/{car}/limits")).Body.GetArrayLength());
    }

    [Fact]
    public async Task Limit_of_a_leak_down_with_wrong_points_is_refused_with_each_fault()
    {
        var car = await host.Vehicle();
        var refused = await host.Post($"/v1/vehicles/{car}/limits", new
        {
            check = "leak-down-whole",
            unit = "bar",
            source = "",
            from = 3.0,
            low = 2.0,
            points = new object[] { new { minutes = 10, low = 2.0 }, new { minutes = 10, low = 1.7 }, new { at = 20, low = 4.0 } },
        });

        Assert.Equal(
            ["/source required", "/low unsuitable", "/points/1 out-of-range", "/points/2/at unsuitable", "/points/2/minutes required", "/points/2/low out-of-range", "/points/2 out-of-range"],
            refused.Faults);
    }

    [Fact]
    public async Task Limit_in_a_unit_of_another_quantity_is_refused()
    {
        var car = await host.Vehicle();
        var refused = await host.Post($"/v1/vehicles/{car}/limits", new { check = "system-pressure", unit = "V", source = "manual", low = 4.7 });

        Assert.Equal(["/unit wrong-unit"], refused.Faults);
        Assert.Contains("bar, psi, kPa", refused.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Limit_beyond_what_the_check_can_show_or_upside_down_is_refused()
    {
        var car = await host.Vehicle();
        object Limit(double? low, double? high) => new { check = "system-pressure", unit = "bar", source = "manual", low, high };

        Assert.Equal(["/high out-of-range"], (await host.Post($"/v1/vehicles/{car}/limits", Limit(4.7, 68))).Faults);
        Assert.Equal(["/high out-of-range"], (await host.Post($"/v1/vehicles/{car}/limits", Limit(5.5, 4.7))).Faults);
        Assert.Equal(["/low required"], (await host.Post($"/v1/vehicles/{car}/limits", Limit(null, null))).Faults);
    }

    [Fact]
    public async Task Limit_of_the_side_that_the_check_is_not_judged_by_is_refused()
    {
        using ApiHost real = new(realModels: true);
        var car = await real.Vehicle("continuous-mechanical");

        Assert.Equal(["/low unsuitable"], (await real.Post($"/v1/vehicles/{car}/limits", new { check = "dead-head", unit = "bar", source = "manual", high = 6.1 })).Faults);
        Assert.Equal(["/high unsuitable"], (await real.Post($"/v1/vehicles/{car}/limits", new { check = "return-pressure", unit = "bar", source = "manual", low = 0.1 })).Faults);
    }

    [Fact]
    public async Task Limit_over_a_covariate_needs_a_check_that_has_one()
    {
        var car = await host.Vehicle();
        object Limit(string check) => new { check, unit = "bar", source = "manual", points = new[] { new { at = 10, low = 1.0, high = 1.4 }, new { at = 30, low = 1.8, high = 2.2 } } };

        Assert.Equal(HttpStatusCode.Created, (await host.Post($"/v1/vehicles/{car}/limits", Limit("control-pressure"))).Status);
        Assert.Contains("/points unsuitable", (await host.Post($"/v1/vehicles/{car}/limits", Limit("system-pressure"))).Faults);
    }

    [Fact]
    public async Task Limit_for_a_check_that_has_one_or_is_not_measured_is_refused()
    {
        var car = await host.Vehicle();
        object Limit(string check) => new { check, unit = "bar", source = "manual", low = 4.8, high = 5.4 };
        var first = await host.Post($"/v1/vehicles/{car}/limits", Limit("system-pressure"));

        Assert.Equal(["/check unsuitable"], (await host.Post($"/v1/vehicles/{car}/limits", Limit("system-pressure"))).Faults);
        Assert.Equal(["/check unsuitable"], (await host.Post($"/v1/vehicles/{car}/limits", Limit("plugs"))).Faults);
        Assert.Equal(HttpStatusCode.OK, (await host.Put($"/v1/limits/{first.Id}", Limit("system-pressure"))).Status);
    }

    [Fact]
    public async Task Instrument_is_kept_as_entered_and_can_be_voided()
    {
        var id = await host.Gauge();

        Assert.Equal(HttpStatusCode.OK, (await host.Put($"/v1/instruments/{id}", new { name = "Gauge", quantity = "pressure", unit = "psi", span = 160, classPercent = 2.5, lastChecked = "2025-03" })).Status);
        Assert.Equal("2025-03", (await host.Get("/v1/instruments")).Body[0].GetProperty("lastChecked").GetString());
        await host.Post($"/v1/instruments/{id}/void", new { reason = "dropped" });
        Assert.Equal("[]", (await host.Get("/v1/instruments")).Text);
        Assert.Equal(3, (await host.Get($"/v1/instruments/{id}/versions")).Body.GetArrayLength());
    }

    [Fact]
    public async Task Instrument_with_many_faults_is_refused_with_all_of_them()
    {
        var refused = await host.Post("/v1/instruments", new { name = "", quantity = "pressure", unit = "ohm", classPercent = 0, percentOfReading = -1, digits = -1, lastChecked = "2027" });

        Assert.Equal(
            ["/name required", "/unit wrong-unit", "/classPercent out-of-range", "/percentOfReading out-of-range", "/digits out-of-range", "/span required", "/lastChecked impossible-date"],
            refused.Faults);
    }

    public void Dispose() => host.Dispose();
}
