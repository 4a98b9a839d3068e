using System.Net;

namespace FuelHistory.Tests.Host;

public sealed class ComplaintTests : IDisposable
{
    private readonly ApiHost host = new();

    [Fact]
    public async Task Complaint_opened_makes_its_events_the_first_findings()
    {
        var car = await host.Vehicle();
        var made = await host.Post($"/v1/vehicles/{car}/complaints", new
        {
            title = "Restarts badly",
            since = "2026-05",
            course = "intermittent",
            at = "2026-06-14T09:00:00+02:00",
            events = new[] { new { @event = "hard-hot-start", answer = "present" }, new { @event = "misfire", answer = "absent" } },
        });

        Assert.Equal(HttpStatusCode.Created, made.Status);
        var findings = (await host.Get($"/v1/complaints/{made.Id}/findings")).Body.EnumerateArray().Select(f => f.GetProperty("text").GetString()!);
        Assert.Equal(["Misfires: absent", "Starts badly when warm: present"], findings.Order(StringComparer.Ordinal));
        Assert.Equal(1, (await host.Get($"/v1/vehicles/{car}/complaints")).Body.GetArrayLength());
    }

    [Fact]
    public async Task Complaint_with_faults_stores_neither_itself_nor_an_event()
    {
        var car = await host.Vehicle();
        var refused = await host.Post($"/v1/vehicles/{car}/complaints", new
        {
            title = "Bad",
            since = "2026-08",
            course = "steady",
            events = new[] { new { @event = "misfire", answer = "present" }, new { @event = "misfire", answer = "no" }, new { @event = "hot-start", answer = "present" } },
        });

        Assert.Equal(["/course unknown", "/since impossible-date", "/events/1/answer unknown", "/events/2/event unknown"], refused.Faults);
        Assert.Equal("[]", (await host.Get($"/v1/vehicles/{car}/findings")).Text);
        Assert.Equal("[]", (await host.Get($"/v1/vehicles/{car}/complaints")).Text);
    }

    [Fact]
    public async Task Complaint_closed_names_cause_and_proof_and_takes_no_more()
    {
        var car = await host.Vehicle();
        var complaint = await host.Complaint(car);
        var proof = await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T11:00:00Z", check = "leak-down-whole", outcome = "hold" });

        var closed = await host.Post($"/v1/complaints/{complaint}/close", new { at = "2026-06-15T11:30:00Z", result = "resolved", causes = new[] { new { component = "regulator", mode = "seal-leaks" } }, provedBy = new[] { proof.Id } });

        Assert.Equal(HttpStatusCode.OK, closed.Status);
        Assert.Equal("resolved", closed.Body.GetProperty("closed").GetProperty("result").GetString());
        object more = new { at = "2026-06-15T11:40:00Z", @event = "misfire", outcome = "absent" };
        Assert.Equal("closed", (await host.Post($"/v1/complaints/{complaint}/findings", more)).Code);
        Assert.Equal("closed", (await host.Put($"/v1/findings/{proof.Id}", more)).Code);
        Assert.Equal("closed", (await host.Put($"/v1/complaints/{complaint}", new { title = "x", since = "2026" })).Code);
        var record = await host.Get($"/v1/vehicles/{car}/record");
        Assert.Contains("Complaint closed: resolved; cause: System pressure regulator (seal leaks at rest)", record.Text, StringComparison.Ordinal);
        Assert.Equal("0", record.Body.GetProperty("vehicle").GetProperty("openComplaints").ToString());
    }

    [Fact]
    public async Task Closing_with_many_faults_is_refused_with_all_of_them()
    {
        var car = await host.Vehicle();
        var complaint = await host.Complaint(car);
        var other = await host.Post($"/v1/vehicles/{car}/findings", new { at = "2026-06-15T11:00:00Z", @event = "misfire", outcome = "absent" });

        var refused = await host.Post($"/v1/complaints/{complaint}/close", new
        {
            at = "2026-04-30T11:00:00Z",
            result = "mended",
            causes = new object[] { new { component = "regulater" }, new { component = "regulator", mode = "ruptured" }, new { component = "elsewhere", mode = "x" } },
            provedBy = new[] { other.Id },
        });

        Assert.Equal(
            ["/result unknown", "/at impossible-date", "/causes/0/component unknown", "/causes/1/mode unknown", "/causes/2/mode unsuitable", "/provedBy/0 unknown"],
            refused.Faults);
        Assert.Equal(["/causes required"], (await host.Post($"/v1/complaints/{complaint}/close", new { at = "2026-06-15T11:00:00Z", result = "resolved", causes = Array.Empty<object>(), provedBy = Array.Empty<string>() })).Faults);
        Assert.Equal(HttpStatusCode.OK, (await host.Post($"/v1/complaints/{complaint}/close", new { at = "2026-06-15T11:00:00Z", result = "gone-by-itself", causes = Array.Empty<object>(), provedBy = Array.Empty<string>() })).Status);
    }

    [Theory]
    [InlineData("gone-by-itself")]
    [InlineData("given-up")]
    public async Task Closing_without_a_cure_needs_no_cause_and_may_name_one(string result)
    {
        var car = await host.Vehicle();
        var (without, with) = (await host.Complaint(car), await host.Complaint(car));

        Assert.Equal(HttpStatusCode.OK, (await Close(without, result)).Status);
        Assert.Equal(HttpStatusCode.OK, (await Close(with, result, new { component = "accumulator" })).Status);
        var record = (await host.Get($"/v1/vehicles/{car}/record")).Text;
        var said = result == "given-up" ? "given up" : "ended without a repair";
        Assert.Contains($"Complaint closed: {said}\"", record, StringComparison.Ordinal);
        Assert.Contains($"Complaint closed: {said}; cause: Fuel accumulator\"", record, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Closing_takes_two_causes_also_of_one_component_but_none_twice()
    {
        var car = await host.Vehicle();
        var (complaint, other) = (await host.Complaint(car), await host.Complaint(car));
        object seal = new { component = "regulator", mode = "seal-leaks" };

        Assert.Equal(["/causes/1 unsuitable"], (await Close(complaint, "resolved", seal, seal)).Faults);
        Assert.Equal(HttpStatusCode.OK, (await Close(complaint, "resolved", seal, new { component = "elsewhere" })).Status);
        var closed = await Close(other, "resolved", seal, new { component = "regulator", mode = "stuck-high" });

        Assert.Equal(2, closed.Body.GetProperty("closed").GetProperty("causes").GetArrayLength());
        var record = (await host.Get($"/v1/vehicles/{car}/record")).Text;
        Assert.Contains("resolved; cause: System pressure regulator (seal leaks at rest), Something that this model does not cover", record, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Closing_allows_for_coincidence()
    {
        // a part was fitted and the failing check passes, and yet the part need not have been the cause
        var car = await host.Vehicle();
        var complaint = await host.Complaint(car);
        host.Clock.Now += TimeSpan.FromHours(2);
        await host.Post($"/v1/vehicles/{car}/work", new { date = "2026-06-15", at = "2026-06-15T13:00:00Z", action = "fitted", components = new[] { "regulator" }, quality = "new" });
        var held = await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T13:30:00Z", check = "leak-down-whole", outcome = "hold" });

        var closed = await host.Post($"/v1/complaints/{complaint}/close", new { at = "2026-06-15T13:40:00Z", result = "gone-by-itself", causes = Array.Empty<object>(), provedBy = new[] { held.Id } });

        Assert.Equal("gone-by-itself", closed.Body.GetProperty("closed").GetProperty("result").GetString());
        Assert.Equal(0, closed.Body.GetProperty("closed").GetProperty("causes").GetArrayLength());
        Assert.InRange((await host.Get($"/v1/complaints/{complaint}/assessment")).Body.GetProperty("resolved").GetDouble(), 0.01, 0.99);
    }

    [Fact]
    public async Task Complaint_corrected_keeps_when_it_was_opened()
    {
        var complaint = await host.Complaint(await host.Vehicle());
        host.Clock.Now += TimeSpan.FromHours(1);

        var put = await host.Put($"/v1/complaints/{complaint}", new { title = "Restarts badly hot", since = "2026-04", always = true });

        Assert.Equal("2026-06-15T12:00:00.000Z", put.Member("openedAt"));
        Assert.Equal(2, (await host.Get($"/v1/complaints/{complaint}/versions")).Body.GetArrayLength());
    }

    [Fact]
    public async Task Complaint_voided_takes_no_findings_and_is_no_longer_open()
    {
        var car = await host.Vehicle();
        var complaint = await host.Complaint(car);
        await host.Post($"/v1/complaints/{complaint}/void", new { reason = "wrong car" });

        Assert.Equal("closed", (await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T11:00:00Z", @event = "misfire", outcome = "absent" })).Code);
        Assert.Equal("0", (await host.Get($"/v1/vehicles/{car}")).Member("openComplaints"));
        Assert.Equal("[]", (await host.Get($"/v1/vehicles/{car}/complaints")).Text);
    }

    [Fact]
    public async Task Vehicle_with_entries_of_its_fault_model_keeps_its_system()
    {
        using ApiHost real = new(realModels: true);
        var car = await real.Vehicle("continuous-mechanical");
        await real.Post($"/v1/vehicles/{car}/work", new { date = "2020", action = "fitted", components = new[] { "pump" } });

        var refused = await real.Put($"/v1/vehicles/{car}", new { name = "x", year = "1981", system = "no-such-system" });
        var other = await real.Put($"/v1/vehicles/{car}", new { name = "x", year = "1981", system = "carburettor" });

        Assert.Contains("/system unsuitable", other.Faults);
        Assert.Contains("/system unknown", refused.Faults);
        Assert.Equal(HttpStatusCode.OK, (await real.Put($"/v1/vehicles/{car}", new { name = "x", year = "1981", system = "continuous-mechanical" })).Status);
    }

    public void Dispose() => host.Dispose();

    private Task<Answer> Close(string complaint, string result, params object[] causes) =>
        host.Post($"/v1/complaints/{complaint}/close", new { at = "2026-06-15T11:00:00Z", result, causes, provedBy = Array.Empty<string>() });
}
