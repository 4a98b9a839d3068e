using System.Net;
using System.Text.Json;

namespace FuelHistory.Tests.Host;

public sealed class WhatIfTests : IDisposable
{
    private static readonly object Vent = new { at = "2026-06-15T12:00:00Z", check = "accumulator-vent", outcome = "yes" };
    private static readonly object Held = new { at = "2026-06-15T12:02:00Z", check = "leak-down-whole", outcome = "hold" };

    private readonly ApiHost host = new();

    [Fact]
    public async Task Tried_finding_gives_the_assessment_that_recording_it_gives_and_stores_nothing()
    {
        var (car, complaint) = await Search();
        var (record, present) = ((await host.Get($"/v1/vehicles/{car}/record")).Text, await host.Get($"/v1/complaints/{complaint}/assessment"));

        var tried = await Try(complaint, new { findings = new[] { Vent } });

        Assert.Equal(record, (await host.Get($"/v1/vehicles/{car}/record")).Text);
        Assert.Equal(present.ETag, (await host.Get($"/v1/complaints/{complaint}/assessment")).ETag);
        await host.Post($"/v1/complaints/{complaint}/findings", Vent);
        var real = await host.Get($"/v1/complaints/{complaint}/assessment");
        Assert.Equal(Numbers(real.Body), Numbers(tried.Body.GetProperty("assessment")));
        Assert.NotEqual(Numbers(present.Body), Numbers(real.Body));
        Assert.Equal("""["Accumulator vent: yes, fuel runs from the vent side"]""", tried.Member("tried"));
    }

    [Fact]
    public async Task Changes_name_what_moves_with_the_present_figures_beside_the_tried_ones()
    {
        var (_, complaint) = await Search();
        var present = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body;

        var tried = (await Try(complaint, new { findings = new[] { Vent } })).Body;

        var changes = tried.GetProperty("changes").EnumerateArray().ToList();
        Assert.Equal("accumulator", changes[0].GetProperty("component").GetString());
        Assert.All(changes, c =>
        {
            Assert.Equal(Of(present, c, "explains"), c.GetProperty("explainsBefore").GetDouble());
            Assert.Equal(Of(present, c, "bad"), c.GetProperty("badBefore").GetDouble());
            Assert.Equal(Of(tried.GetProperty("assessment"), c, "explains"), c.GetProperty("explainsAfter").GetDouble());
            Assert.Equal(Of(tried.GetProperty("assessment"), c, "bad"), c.GetProperty("badAfter").GetDouble());
        });
        Assert.True(changes[0].GetProperty("badAfter").GetDouble() > 2 * changes[0].GetProperty("badBefore").GetDouble());
        Assert.Equal(present.GetProperty("ranking")[0].GetProperty("component").GetString(), tried.GetProperty("leaderBefore").GetProperty("component").GetString());
        Assert.Equal(Cost(present), tried.GetProperty("costBefore").GetDouble());
        Assert.Equal(Cost(tried.GetProperty("assessment")), tried.GetProperty("costAfter").GetDouble());
        Assert.NotEqual(tried.GetProperty("costBefore").GetDouble(), tried.GetProperty("costAfter").GetDouble());
    }

    [Fact]
    public async Task Entries_left_out_give_the_assessment_that_voiding_them_gives()
    {
        var (car, complaint) = await Search();
        var work = (await host.Get($"/v1/vehicles/{car}/work")).Body[0].GetProperty("entry").GetProperty("id").GetString();
        var finding = (await host.Get($"/v1/complaints/{complaint}/findings")).Body.EnumerateArray()
            .Single(f => f.GetProperty("check").GetString() == "leak-down-whole").GetProperty("entry").GetProperty("id").GetString();

        var without = await Try(complaint, new { leaveOut = new[] { work, finding } });

        Assert.Equal("""["Residual pressure: 0.8 bar after 10 min","Fuel pump fitted, new (invoice), 2025-10"]""", without.Member("without"));
        await host.Post($"/v1/work/{work}/void", new { reason = "another car" });
        await host.Post($"/v1/findings/{finding}/void", new { reason = "gauge leaked" });
        Assert.Equal(Numbers((await host.Get($"/v1/complaints/{complaint}/assessment")).Body), Numbers(without.Body.GetProperty("assessment")));
    }

    [Fact]
    public async Task Work_tried_lies_after_what_is_recorded_and_before_a_later_tried_finding()
    {
        var (car, complaint) = await Search();
        object work = new { date = "2026-06-15", action = "fitted", components = new[] { "regulator" }, quality = "new" };
        object earlierHeld = new { at = "2026-06-15T09:00:00Z", check = "leak-down-whole", outcome = "hold" };

        var fitted = (await Try(complaint, new { work = new[] { work } })).Body;
        var proved = (await Try(complaint, new { work = new[] { work }, findings = new[] { Held } })).Body;
        var earlier = (await Try(complaint, new { work = new[] { work }, findings = new[] { earlierHeld } })).Body;

        Assert.Equal([2, 2, 2], new[] { fitted, proved, earlier }.Select(a => a.GetProperty("assessment").GetProperty("rounds").GetInt32()));
        Assert.Equal(0, fitted.GetProperty("resolvedBefore").GetDouble());
        Assert.True(Gone(earlier) < Gone(fitted) && Gone(fitted) < Gone(proved), $"{Gone(earlier)} {Gone(fitted)} {Gone(proved)}");
        host.Clock.Now += TimeSpan.FromMinutes(1);
        await host.Post($"/v1/vehicles/{car}/work", work);
        Assert.Equal(Numbers((await host.Get($"/v1/complaints/{complaint}/assessment")).Body), Numbers(fitted.GetProperty("assessment")));
        host.Clock.Now += TimeSpan.FromMinutes(1);
        await host.Post($"/v1/complaints/{complaint}/findings", Held);
        Assert.Equal(Numbers((await host.Get($"/v1/complaints/{complaint}/assessment")).Body), Numbers(proved.GetProperty("assessment")));
    }

    [Fact]
    public async Task Work_tried_with_its_own_instant_lies_there()
    {
        var (_, complaint) = await Search();
        object work = new { date = "2026-06-15", at = "2026-06-15T12:01:00Z", action = "fitted", components = new[] { "regulator" }, quality = "new" };
        object old = new { date = "2019", action = "fitted", components = new[] { "regulator" }, quality = "new" };

        var after = (await Try(complaint, new { work = new[] { work }, findings = new[] { Held } })).Body;
        var before = (await Try(complaint, new { work = new[] { old }, findings = new[] { Held } })).Body;

        Assert.Equal(2, after.GetProperty("assessment").GetProperty("rounds").GetInt32());
        Assert.Equal(1, before.GetProperty("assessment").GetProperty("rounds").GetInt32());
    }

    [Fact]
    public async Task All_faults_of_all_entries_are_named_at_once_under_their_pointers()
    {
        var (_, complaint) = await Search();

        var refused = await host.Post($"/v1/complaints/{complaint}/assessment/what-if", new
        {
            asOf = "2026-06",
            findings = new object[]
            {
                new { at = "2026-06-15T12:00:00Z", check = "system-pressure", reading = new { value = 5, unit = "V" } },
                new { at = "2026-06-15T12:00:00Z", check = "plugs", outcome = "green" },
                new { at = "2027-06-15T12:00:00Z", check = "system-pressure", reading = new { value = 49, unit = "bar" } },
                new { at = "2026-06-15T12:00:00Z" },
            },
            work = new object[] { new { date = "2026-06-15", action = "swapped", components = new[] { "regulater" } } },
            leaveOut = new[] { "none" },
        });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Equal(
            ["/asOf impossible-date", "/findings/0/reading/unit wrong-unit", "/findings/1/outcome unsuitable", "/findings/2/at impossible-date", "/findings/2/reading/value implausible",
                "/findings/3 unsuitable", "/work/0/action unknown", "/work/0/components/0 unknown", "/leaveOut/0 unknown"],
            refused.Faults);
    }

    [Fact]
    public async Task Entries_that_would_not_count_are_refused()
    {
        var (car, complaint) = await Search();
        var work = (await host.Get($"/v1/vehicles/{car}/work")).Body[0].GetProperty("entry").GetProperty("id").GetString();
        object fitted = new { date = "2026-06-15", action = "fitted", components = new[] { "regulator" } };

        Assert.Equal(["/findings/0/at impossible-date", "/work/0/date impossible-date"], (await Send(complaint, new { asOf = "2026-06-14", findings = new[] { Vent }, work = new[] { fitted } })).Faults);
        Assert.Equal(["/leaveOut/1 unsuitable"], (await Send(complaint, new { leaveOut = new[] { work, work } })).Faults);
        await host.Post($"/v1/work/{work}/void", new { reason = "another car" });
        Assert.Equal(["/leaveOut/0 unknown"], (await Send(complaint, new { leaveOut = new[] { work } })).Faults);
        Assert.Equal(["/findings out-of-range"], (await Send(complaint, new { findings = Enumerable.Repeat(Vent, 41) })).Faults);
        Assert.Equal(["/findings/0/at required", "/findings/0/colour unknown"], (await Send(complaint, new { findings = new[] { new { check = "plugs", colour = "blue" } } })).Faults.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Reasons_name_a_tried_finding_by_its_pointer_and_nothing_tried_changes_nothing()
    {
        var (_, complaint) = await Search();
        var nothing = (await Try(complaint, new { })).Body;

        Assert.Equal(0, nothing.GetProperty("changes").GetArrayLength());
        Assert.Equal(nothing.GetProperty("costBefore").GetDouble(), nothing.GetProperty("costAfter").GetDouble());
        var why = (await Try(complaint, new { findings = new[] { Vent } })).Body.GetProperty("assessment").GetProperty("ranking")[0].GetProperty("why");
        Assert.Contains(why.EnumerateArray(), w => w.GetProperty("id").GetString() == "/findings/0" && w.GetProperty("text").GetString()!.StartsWith("Accumulator vent: yes", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Closed_complaint_may_be_tried_a_void_one_and_none_may_not()
    {
        var (_, complaint) = await Search();
        await host.Post($"/v1/complaints/{complaint}/close", new { at = "2026-06-15T11:00:00Z", result = "given-up", causes = Array.Empty<object>(), provedBy = Array.Empty<string>() });

        Assert.NotEmpty((await Try(complaint, new { findings = new[] { Vent } })).Body.GetProperty("changes").EnumerateArray());
        Assert.Equal("not-found", (await Send("none", new { })).Code);
        var other = await host.Complaint(await host.Vehicle());
        await host.Post($"/v1/complaints/{other}/void", new { reason = "wrong car" });
        Assert.Equal("closed", (await Send(other, new { })).Code);
    }

    [Fact]
    public async Task Trying_goes_on_while_another_program_writes()
    {
        var (_, complaint) = await Search();
        using var writer = host.Raw();
        using var transaction = writer.BeginTransaction(deferred: false);

        Assert.Equal(HttpStatusCode.OK, (await Send(complaint, new { findings = new[] { Vent } })).Status);
    }

    public void Dispose() => host.Dispose();

    private Task<Answer> Send(string complaint, object body) => host.Post($"/v1/complaints/{complaint}/assessment/what-if", body);

    private async Task<Answer> Try(string complaint, object body)
    {
        var answer = await Send(complaint, body);
        Assert.True(answer.Status == HttpStatusCode.OK, answer.Text);
        return answer;
    }

    private static double Gone(JsonElement answer) => answer.GetProperty("assessment").GetProperty("resolved").GetDouble();

    private static double Cost(JsonElement assessment) => assessment.GetProperty("plan").GetProperty("expectedCost").GetDouble();

    private static double Of(JsonElement assessment, JsonElement change, string figure) => assessment.GetProperty("ranking").EnumerateArray()
        .Single(r => r.GetProperty("component").GetString() == change.GetProperty("component").GetString()).GetProperty(figure).GetDouble();

    /// <summary>Everything but the reasons, which name entries by their ids.</summary>
    private static string Numbers(JsonElement assessment) => string.Join('\n', assessment.GetProperty("ranking").EnumerateArray()
        .Select(r => $"{r.GetProperty("component")} {r.GetProperty("bad")} {r.GetProperty("explains")} {r.GetProperty("prior")} {r.GetProperty("why").GetArrayLength()}"))
        + assessment.GetProperty("nextChecks") + assessment.GetProperty("plan") + assessment.GetProperty("noneOfThese");

    private async Task<(string Car, string Complaint)> Search()
    {
        var car = await host.Vehicle();
        await host.Post($"/v1/vehicles/{car}/work", new { date = "2025-10", action = "fitted", components = new[] { "fuel-pump" }, known = "invoice", quality = "new" });
        var complaint = await host.Complaint(car);
        await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T10:00:00Z", check = "leak-down-whole", points = new[] { new { minutes = 10, pressure = new { value = 0.8, unit = "bar" } } }, instrument = await host.Gauge() });
        return (car, complaint);
    }
}
