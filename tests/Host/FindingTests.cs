using System.Net;

namespace FuelHistory.Tests.Host;

public sealed class FindingTests : IDisposable
{
    private const string At = "2026-06-15T00:30:00+02:00";
    private readonly ApiHost host = new();

    [Fact]
    public async Task Reading_is_kept_in_its_own_unit_and_on_its_own_day()
    {
        var gauge = await host.Gauge();
        var made = await Find(new { at = At, check = "system-pressure", reading = new { value = 71.5, unit = "psi" }, instrument = gauge });

        Assert.Equal(HttpStatusCode.Created, made.Status);
        var found = await host.Get(made.Headers.Location!.ToString());
        Assert.Equal("2026-06-15T00:30:00.000+02:00", found.Member("at"));
        Assert.Equal("""{"value":71.5,"unit":"psi"}""", found.Member("reading"));
        Assert.Equal("System pressure: 71.5 psi", found.Member("text"));
    }

    [Theory]
    [InlineData("145", "bar", "/reading/value implausible", "14.5 bar")]
    [InlineData("145", "bar", "/reading/value implausible", "145 psi (10 bar)")]
    [InlineData("-0.2", "bar", "/reading/value out-of-range", "cannot be below 0")]
    [InlineData("12.4", "V", "/reading/unit wrong-unit", "bar, psi, kPa")]
    [InlineData("4.9", "atm", "/reading/unit wrong-unit", "no unit that is known")]
    public async Task Reading_that_cannot_be_meant_is_refused_with_what_to_do(string value, string unit, string fault, string says)
    {
        var refused = await Find($$"""{ "at": "{{At}}", "check": "system-pressure", "reading": { "value": {{value}}, "unit": "{{unit}}" } }""");

        Assert.Equal([fault], refused.Faults);
        Assert.Contains(says, refused.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Implausible_reading_is_taken_once_confirmed()
    {
        var made = await Find(new { at = At, check = "system-pressure", reading = new { value = 145, unit = "bar" }, confirmed = true });

        Assert.Equal(HttpStatusCode.Created, made.Status);
    }

    [Fact]
    public async Task Suction_may_read_below_zero_within_its_edges()
    {
        Assert.Equal(HttpStatusCode.Created, (await Find(new { at = At, check = "pump-vacuum", reading = new { value = -0.3, unit = "bar" } })).Status);
        Assert.Equal(["/reading/value implausible"], (await Find(new { at = At, check = "pump-vacuum", reading = new { value = -3, unit = "bar" } })).Faults);
    }

    [Fact]
    public async Task Reading_without_its_covariate_is_refused_naming_it()
    {
        object Reading(object? conditions) => new { at = At, check = "control-pressure", reading = new { value = 1.2, unit = "bar" }, conditions };

        var refused = await Find(Reading(null));
        Assert.Equal(["/conditions/ambient missing-covariate"], refused.Faults);
        Assert.Contains("Ambient temperature; add it as conditions.ambient in °C", refused.Detail, StringComparison.Ordinal);
        Assert.Equal(["/conditions/ambient/unit wrong-unit"], (await Find(Reading(new { ambient = new { value = 20, unit = "bar" } }))).Faults);
        Assert.Equal(["/conditions/ambient/value out-of-range"], (await Find(Reading(new { ambient = new { value = -300, unit = "C" } }))).Faults);
        Assert.Equal(["/conditions/ambient/value implausible"], (await Find(Reading(new { ambient = new { value = 500, unit = "°F" } }))).Faults);
        Assert.Equal(["/conditions/ambiant unknown", "/conditions/ambient missing-covariate"], (await Find(Reading(new { ambiant = new { value = 20, unit = "C" } }))).Faults);

        var made = await Find(Reading(new { ambient = new { value = 68, unit = "F" } }));
        Assert.Equal("Control pressure, cold: 1.2 bar (Ambient temperature 68 F)", made.Member("text"));
    }

    [Fact]
    public async Task Leak_down_points_out_of_order_twice_or_negative_are_each_refused()
    {
        object P(double minutes, double value) => new { minutes, pressure = new { value, unit = "bar" } };
        var refused = await Find(new { at = At, check = "leak-down-whole", points = new[] { P(-1, 3), P(10, 2), P(5, -0.1), P(5, 1) } });

        Assert.Equal(["/points/0/minutes out-of-range", "/points/2/minutes out-of-range", "/points/2/pressure/value out-of-range", "/points/3/minutes out-of-range"], refused.Faults);
        Assert.Equal(["/points required"], (await Find(new { at = At, check = "leak-down-whole", points = Array.Empty<object>() })).Faults);
        Assert.Equal(["/points/0/pressure/value implausible"], (await Find(new { at = At, check = "leak-down-whole", points = new[] { P(10, 30) } })).Faults);
        Assert.Equal("Residual pressure: 2 bar after 1 min, 0.8 bar after 10 min", (await Find(new { at = At, check = "leak-down-whole", points = new[] { P(1, 2), P(10, 0.8) } })).Member("text"));
    }

    [Theory]
    [InlineData("""{ "check": "plugs", "outcome": "yes" }""", "/outcome unsuitable")]
    [InlineData("""{ "check": "accumulator-vent", "outcome": "wet" }""", "/outcome unsuitable")]
    [InlineData("""{ "check": "leak-down-whole", "outcome": "steady" }""", "/outcome unsuitable")]
    [InlineData("""{ "check": "leak-down-whole" }""", "/outcome required")]
    [InlineData("""{ "check": "system-pressure", "outcome": "yes", "reading": { "value": 5, "unit": "bar" } }""", "/outcome unsuitable")]
    [InlineData("""{ "check": "system-pressure" }""", "/reading required")]
    [InlineData("""{ "check": "accumulator-vent", "outcome": "no", "reading": { "value": 5, "unit": "bar" } }""", "/reading unsuitable")]
    [InlineData("""{ "symptom": "misfire", "outcome": "yes" }""", "/outcome unsuitable")]
    [InlineData("""{ "symptom": "misfires", "outcome": "present" }""", "/symptom unknown")]
    [InlineData("""{ "symptom": "misfire", "check": "plugs", "outcome": "wet" }""", " unsuitable")]
    [InlineData("""{ "outcome": "good" }""", " unsuitable")]
    [InlineData("""{ "component": "regulator", "outcome": "good", "mode": "seal-leaks" }""", "/mode unsuitable")]
    [InlineData("""{ "component": "regulator", "outcome": "bad", "mode": "ruptured" }""", "/mode unknown")]
    [InlineData("""{ "check": "system-presure", "reading": { "value": 5, "unit": "bar" } }""", "/check unknown")]
    [InlineData("""{ "check": "plugs", "outcome": "wet", "showed": "maybe" }""", "/showed unknown")]
    [InlineData("""{ "check": "system-pressure", "reading": { "value": 5, "unit": "bar" }, "sure": false }""", "/sure unsuitable")]
    [InlineData("""{ "check": "plugs", "outcome": "wet", "instrument": "none" }""", "/instrument unknown")]
    public async Task Finding_that_does_not_fit_what_it_is_of_is_refused(string members, string fault)
    {
        Assert.Equal([fault], (await Find($$"""{ "at": "{{At}}", {{members[1..]}}""")).Faults);
    }

    [Fact]
    public async Task Instrument_of_another_quantity_is_refused()
    {
        var meter = (await host.Post("/v1/instruments", new { name = "Meter", quantity = "voltage", unit = "V" })).Id;

        Assert.Equal(["/instrument unsuitable"], (await Find(new { at = At, check = "system-pressure", reading = new { value = 5, unit = "bar" }, instrument = meter })).Faults);
    }

    [Fact]
    public async Task Finding_from_the_future_or_before_the_car_is_refused()
    {
        Assert.Equal(["/at impossible-date"], (await Find(new { at = "2026-06-15T12:06:00Z", @event = "misfire", outcome = "absent" })).Faults);
        Assert.Equal(["/at impossible-date"], (await Find(new { at = "1980-12-31T12:00:00Z", @event = "misfire", outcome = "absent" })).Faults);
    }

    [Fact]
    public async Task Finding_corrected_keeps_its_complaint_and_its_first_version()
    {
        var car = await host.Vehicle();
        var complaint = await host.Complaint(car);
        var made = await host.Post($"/v1/complaints/{complaint}/findings", new { at = At, check = "plugs", outcome = "wet", sure = false });
        var put = await host.Put($"/v1/findings/{made.Id}", new { at = At, check = "plugs", outcome = "white" }, made.ETag);

        Assert.Equal(complaint, put.Member("complaintId"));
        Assert.Equal("Plug faces: wet (not sure)", made.Member("text"));
        Assert.Equal(["Plug faces: white", "Plug faces: wet (not sure)"], (await host.Get($"/v1/findings/{made.Id}/versions")).Body.EnumerateArray().Select(v => v.GetProperty("text").GetString()!));
        Assert.Equal(2, (await host.Get($"/v1/complaints/{complaint}/findings")).Body.GetArrayLength());
    }

    public void Dispose() => host.Dispose();

    private async Task<Answer> Find(object body) => await host.Post($"/v1/vehicles/{await host.Vehicle()}/findings", body);
}
