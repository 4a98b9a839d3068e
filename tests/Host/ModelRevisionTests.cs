using System.Text.Json;
using System.Text.Json.Nodes;
using Dapper;

namespace FuelHistory.Tests.Host;

/// <summary>A fault model changes between two starts: what was answered before can be had again, and an answer says by which model it was made.</summary>
public sealed class ModelRevisionTests
{
    [Fact]
    public async Task Assessment_of_what_was_known_then_is_the_one_of_then_after_the_model_changed()
    {
        using ApiHost host = new(own: OwnFaultModelTests.Mine(_ => { }));
        var complaint = await host.Complaint(await host.Vehicle("mine"));
        var known = Moment(host);
        var before = (await host.Get($"/v1/complaints/{complaint}/assessment?knownAt={known}")).Body;

        host.Clock.Now += TimeSpan.FromDays(3);
        host.Restart(OwnFaultModelTests.Mine(Changed));
        var then = (await host.Get($"/v1/complaints/{complaint}/assessment?asOf=2026-06-15&knownAt={known}")).Body;
        var now = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body;

        Assert.Equal("7", then.GetProperty("faultModelRevision").GetString());
        Assert.Equal(before.GetProperty("ranking").GetRawText(), then.GetProperty("ranking").GetRawText());
        Assert.Contains("mine revision 7, in use from 2026-06-15 to 2026-06-18. In use now is revision 8", Notes(then), StringComparison.Ordinal);
        Assert.Equal("8", now.GetProperty("faultModelRevision").GetString());
        Assert.NotEqual(before.GetProperty("ranking").GetRawText(), now.GetProperty("ranking").GetRawText());
        Assert.Contains("has changed since the complaint was opened: mine revision 7 then, 8 now", Notes(now), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Assessment_by_a_model_that_stayed_names_it_and_reports_no_change()
    {
        using ApiHost host = new(own: OwnFaultModelTests.Mine(_ => { }));
        var complaint = await host.Complaint(await host.Vehicle("mine"));
        host.Restart(OwnFaultModelTests.Mine(_ => { }));

        var then = (await host.Get($"/v1/complaints/{complaint}/assessment?knownAt={Moment(host)}")).Body;

        Assert.Contains("mine revision 7, which is the one in use now", Notes(then), StringComparison.Ordinal);
        Assert.DoesNotContain("changed", Notes((await host.Get($"/v1/complaints/{complaint}/assessment")).Body), StringComparison.Ordinal);
        using var raw = host.Raw();
        Assert.Equal(1, raw.QuerySingle<int>("SELECT count(*) FROM fault_model WHERE model_id = 'mine'"));
    }

    [Fact]
    public async Task Closing_keeps_the_revision_of_then_and_the_timeline_tells_it()
    {
        using ApiHost host = new(own: OwnFaultModelTests.Mine(_ => { }));
        var vehicle = await host.Vehicle("mine");
        var complaint = await host.Complaint(vehicle);
        await host.Post($"/v1/complaints/{complaint}/close", new { at = host.Clock.Now, result = "gone-by-itself", causes = Array.Empty<object>(), provedBy = Array.Empty<string>() });

        host.Clock.Now += TimeSpan.FromDays(3);
        host.Restart(OwnFaultModelTests.Mine(Changed));

        var under = (await host.Get($"/v1/complaints/{complaint}")).Body.GetProperty("closedUnder");
        Assert.Equal(("mine", "7"), (under.GetProperty("id").GetString(), under.GetProperty("revision").GetString()));
        var closing = (await host.Get($"/v1/vehicles/{vehicle}/record")).Body.GetProperty("lines").EnumerateArray().Single(l => l.GetProperty("kind").GetString() == "closing");
        Assert.Contains("fault model mine, revision 7", closing.GetProperty("detail").GetString(), StringComparison.Ordinal);
        Assert.Contains("since the complaint was closed: mine revision 7 then, 8 now", Notes((await host.Get($"/v1/complaints/{complaint}/assessment")).Body), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Model_of_then_that_this_program_cannot_read_gives_way_to_the_one_in_use_and_it_is_said()
    {
        using ApiHost host = new(own: OwnFaultModelTests.Mine(_ => { }));
        var complaint = await host.Complaint(await host.Vehicle("mine"));
        var known = Moment(host);
        using (var raw = host.Raw())
        {
            raw.Execute("DROP TRIGGER fault_model_kept_update");
            raw.Execute("UPDATE fault_model SET sha256 = 'another', packed = @packed WHERE model_id = 'mine'", new { packed = Packed("{ \"schema\": \"fuelhistory/fault-model/0\" }") });
        }

        var then = (await host.Get($"/v1/complaints/{complaint}/assessment?knownAt={known}")).Body;

        Assert.Contains("cannot be read by this program; this is the one in use now, revision 7", Notes(then), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Question_for_the_time_before_any_model_was_kept_is_answered_by_todays_and_says_so()
    {
        using ApiHost host = new(own: OwnFaultModelTests.Mine(_ => { }));
        var complaint = await host.Complaint(await host.Vehicle("mine"));
        using (var raw = host.Raw())
        {
            raw.Execute("DROP TRIGGER fault_model_kept_update");
            raw.Execute("UPDATE fault_model SET in_use_from = '2026-07-01T00:00:00.000Z'");
        }

        Assert.Contains("not known; this is the one in use now, mine revision 7", Notes((await host.Get($"/v1/complaints/{complaint}/assessment?knownAt={Moment(host)}")).Body), StringComparison.Ordinal);
    }

    /// <summary>The leading fault becomes far rarer.</summary>
    private static void Changed(JsonNode model)
    {
        model["revision"] = "8";
        foreach (var mode in model["components"]!.AsArray().Where(c => c!["instrument"] is null).Take(1).SelectMany(c => c!["modes"]!.AsArray()))
        {
            mode!["unnoticed"] = 0.0001;
            mode["life"]!["years"] = 400;
        }
    }

    private static string Moment(ApiHost host) => Uri.EscapeDataString(host.Clock.Now.ToString("o"));

    private static string Notes(JsonElement assessment) => string.Join('\n', assessment.GetProperty("notes").EnumerateArray().Select(n => n.GetString()));

    private static byte[] Packed(string text)
    {
        using MemoryStream packed = new();
        using (System.IO.Compression.GZipStream into = new(packed, System.IO.Compression.CompressionLevel.Fastest))
        {
            into.Write(System.Text.Encoding.UTF8.GetBytes(text));
        }

        return packed.ToArray();
    }
}
