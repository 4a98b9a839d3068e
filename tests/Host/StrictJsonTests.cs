using System.Net;

namespace FuelHistory.Tests.Host;

/// <summary>Bodies that a lenient reader would take and misunderstand. None of them leaves a trace, so one host serves all.</summary>
public sealed class StrictJsonTests(StrictJsonTests.OneHost one) : IClassFixture<StrictJsonTests.OneHost>
{
    private readonly ApiHost host = one.Host;

    [Theory]
    [InlineData("""{ "name": "x", "year": "1981", "system": "test-circuit", "colour": "blue" }""", "/colour unknown")]
    [InlineData("""{ "name": "x", "year": "1981", "System": "test-circuit" }""", "/System unknown", "/system required")]
    [InlineData("""{ "name": "x", "name": "y", "year": "1981", "system": "test-circuit" }""", " malformed")]
    [InlineData("""{ "name": null, "year": 1981 }""", "/name required", "/year malformed", "/system required")]
    [InlineData("""{ "name": "x", "year": "1981", "system": "test-circuit", "recordComplete": "true" }""", "/recordComplete malformed")]
    [InlineData("""{ "name": "a\u0000b", "year": "1981", "system": "test-circuit", "note": "a\u001b[31m", "engine": "tab\tand\nline stay" }""", "/name malformed", "/note malformed")]
    [InlineData("""{ "name": "\ud800", "year": "1981", "system": "test-circuit" }""", "/name malformed")]
    [InlineData("""[]""", " malformed")]
    [InlineData("""null""", " malformed")]
    [InlineData("""{ "name": "x", """, " malformed")]
    [InlineData("""{ "name": "x", "year": "1981", "system": "test-circuit", }""", " malformed")]
    [InlineData("", " malformed")]
    public async Task Body_of_another_shape_is_refused_with_every_difference(string body, params string[] faults)
    {
        var refused = await host.Post("/v1/vehicles", body);

        Assert.Equal(HttpStatusCode.BadRequest, refused.Status);
        Assert.Equal("malformed", refused.Code);
        Assert.Equal(faults, refused.Faults);
        Assert.DoesNotContain("System.", refused.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("NewVehicle", refused.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"12\"")]
    [InlineData("NaN")]
    [InlineData("\"NaN\"")]
    [InlineData("Infinity")]
    [InlineData("1e400")]
    [InlineData("0x10")]
    [InlineData("1,5")]
    public async Task Number_that_is_none_is_refused(string number)
    {
        var refused = await host.Post($"/v1/vehicles/{await host.Vehicle()}/odometer", $$"""{ "date": "2020", "reading": { "value": {{number}}, "unit": "km" } }""");

        Assert.Equal(HttpStatusCode.BadRequest, refused.Status);
        Assert.Equal("malformed", refused.Code);
    }

    [Theory]
    [InlineData("2026-06-15T10:00:00", false)]
    [InlineData("2026-06-15", false)]
    [InlineData("2026-13-15T10:00:00Z", false)]
    [InlineData("2026-06-15T24:00:00Z", false)]
    [InlineData("2026-06-15T10:00:60Z", false)]
    [InlineData("2026-06-15t10:00:00z", false)]
    [InlineData("2026-06-15 10:00:00Z", false)]
    [InlineData("2026-06-15T10:00:00+24:00", false)]
    [InlineData("2026-06-15T10:00:00Z", true)]
    [InlineData("2026-06-15T10:00:00.123456+02:00", true)]
    [InlineData("2026-06-15T10:00:00-09:30", false)]
    [InlineData("2026-06-15T00:00:00-09:30", true)]
    public async Task Instant_without_offset_or_out_of_form_is_refused(string at, bool taken)
    {
        var answer = await host.Post($"/v1/vehicles/{await host.Vehicle()}/findings", new { at, @event = "misfire", outcome = "absent" });

        Assert.Equal(taken, answer.Status == HttpStatusCode.Created);
        if (!taken)
        {
            Assert.StartsWith("/at ", Assert.Single(answer.Faults), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Body_beyond_the_limit_is_refused()
    {
        // asked first whether it may send: the host hangs up on a body that is too large, and what is still being written then breaks
        var refused = await host.Send(HttpMethod.Post, "/v1/vehicles", new { name = "x", year = "1981", system = "test-circuit", note = new string('x', 1024 * 1024) }, ("Expect", "100-continue"));

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, refused.Status);
    }

    [Fact]
    public async Task Text_longer_than_is_kept_is_refused_at_the_first_character_too_many()
    {
        object Vehicle(int length) => new { name = new string('x', length), year = "1981", system = "test-circuit" };

        Assert.Equal(HttpStatusCode.Created, (await host.Post("/v1/vehicles", Vehicle(120))).Status);
        Assert.Equal(["/name out-of-range"], (await host.Post("/v1/vehicles", Vehicle(121))).Faults);
    }

    public sealed class OneHost : IDisposable
    {
        public ApiHost Host { get; } = new();

        public void Dispose() => Host.Dispose();
    }
}
