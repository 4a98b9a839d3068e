using System.Net;

namespace FuelHistory.Tests.Host;

public sealed class VehicleTests : IDisposable
{
    private readonly ApiHost host = new();

    [Fact]
    public async Task Vehicle_created_is_found_at_its_location_with_the_same_body_and_tag()
    {
        var made = await host.Post("/v1/vehicles", new { name = "Blue hatchback", year = "1981~", system = "test-circuit", inUseSince = "1981-05" });

        Assert.Equal(HttpStatusCode.Created, made.Status);
        var found = await host.Get(made.Headers.Location!.ToString());
        Assert.Equal(made.Text, found.Text);
        Assert.Equal(made.ETag, found.ETag);
        Assert.Equal("1981~", found.Member("year"));
        Assert.Matches("^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$", found.Id);
    }

    [Fact]
    public async Task Vehicle_with_many_faults_is_refused_with_all_of_them_and_nothing_is_stored()
    {
        var refused = await host.Post("/v1/vehicles", new { name = " ", year = "1875", system = "test-circiut", odometerUnit = "m", inUseSince = "2026-13" });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Equal(["/name required", "/odometerUnit unknown", "/system unknown", "/year impossible-date", "/inUseSince impossible-date"], refused.Faults);
        Assert.Contains("Did you mean test-circuit?", refused.Text, StringComparison.Ordinal);
        Assert.Equal("[]", (await host.Get("/v1/vehicles")).Text);
    }

    [Fact]
    public async Task Vehicle_replaced_gets_a_version_and_keeps_the_old_one_readable()
    {
        var id = await host.Vehicle();
        var put = await host.Put($"/v1/vehicles/{id}", new { name = "Blue hatch", year = "1982", system = "test-circuit" }, "\"1\"");

        Assert.Equal(HttpStatusCode.OK, put.Status);
        Assert.Equal(2, put.Version);
        var versions = (await host.Get($"/v1/vehicles/{id}/versions")).Body;
        Assert.Equal(["1982", "1981"], versions.EnumerateArray().Select(v => v.GetProperty("year").GetString()!));
    }

    [Fact]
    public async Task Vehicle_replaced_with_a_stale_version_is_refused_with_the_present_tag()
    {
        var id = await host.Vehicle();
        object body = new { name = "Blue hatch", year = "1982", system = "test-circuit" };
        await host.Put($"/v1/vehicles/{id}", body);

        var stale = await host.Put($"/v1/vehicles/{id}", body, "\"1\"");

        Assert.Equal(HttpStatusCode.PreconditionFailed, stale.Status);
        Assert.Equal("stale-version", stale.Code);
        Assert.Equal("\"2\"", stale.ETag);
    }

    [Fact]
    public async Task Vehicle_archived_leaves_the_list_and_takes_no_entries()
    {
        var id = await host.Vehicle();
        var archived = await host.Post($"/v1/vehicles/{id}/archive", new { reason = "sold" });

        Assert.Equal("True", archived.Member("archived"));
        Assert.Equal("[]", (await host.Get("/v1/vehicles")).Text);
        Assert.Equal(1, (await host.Get("/v1/vehicles?archived=true")).Body.GetArrayLength());
        var refused = await host.Post($"/v1/vehicles/{id}/odometer", new { date = "2020", reading = new { value = 1, unit = "km" } });
        Assert.Equal(HttpStatusCode.Conflict, refused.Status);
        Assert.Contains("Archived: sold", (await host.Get($"/v1/vehicles/{id}/record")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Vehicle_list_with_an_unknown_filter_value_is_refused()
    {
        Assert.Equal(["archived unknown"], (await host.Get("/v1/vehicles?archived=maybe")).Faults);
    }

    [Fact]
    public async Task Vehicle_tag_follows_its_open_complaints_and_still_serves_for_a_change()
    {
        var id = await host.Vehicle();
        var before = (await host.Get($"/v1/vehicles/{id}")).ETag;
        await host.Complaint(id);

        var after = await host.Get($"/v1/vehicles/{id}", before);

        Assert.Equal(HttpStatusCode.OK, after.Status);
        Assert.Equal("1", after.Member("openComplaints"));
        Assert.Equal(HttpStatusCode.NotModified, (await host.Get($"/v1/vehicles/{id}", after.ETag)).Status);
        var put = await host.Put($"/v1/vehicles/{id}", new { name = "Blue hatch", year = "1982", system = "test-circuit" }, after.ETag);
        Assert.Equal(HttpStatusCode.OK, put.Status);
    }

    public void Dispose() => host.Dispose();
}
