using System.Net;
using System.Text.RegularExpressions;

namespace FuelHistory.Tests.Host;

public sealed class FaultModelPageTests
{
    [Fact]
    public async Task Study_says_what_shows_each_fault_and_what_tells_it_apart()
    {
        using ApiHost host = new(realModels: true);

        var study = (await host.Get("/v1/fault-models/continuous-mechanical/study")).Body;

        var ruptured = study.GetProperty("faults").EnumerateArray().Single(f => f.GetProperty("component").GetString() == "accumulator" && f.GetProperty("mode").GetString() == "ruptured");
        Assert.Contains("hot-catches-and-dies", ruptured.GetProperty("events").EnumerateArray().Select(s => s.GetProperty("id").GetString()));
        Assert.Equal("accumulator-vent", ruptured.GetProperty("checks").EnumerateArray().Where(c => c.GetProperty("id").GetString()!.StartsWith("acc", StringComparison.Ordinal)).Select(c => c.GetProperty("id").GetString()).First());
        Assert.All(ruptured.GetProperty("checks").EnumerateArray(), c => Assert.InRange(c.GetProperty("value").GetDouble(), 0.05, 1));
        var alike = Assert.Single(study.GetProperty("pairs").EnumerateArray(), p => p.GetProperty("a").GetProperty("id").GetString() == "tank-vent.blocked");
        Assert.Equal("vent-test", alike.GetProperty("check").GetProperty("id").GetString());
        Assert.Contains("blow through the cap", alike.GetProperty("why").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_has_every_check_with_cautions_and_every_link_leads_somewhere()
    {
        using ApiHost host = new(realModels: true);
        var model = (await host.Get("/v1/fault-models/continuous-mechanical")).Body;

        using HttpClient client = new() { BaseAddress = host.Address };
        using var answer = await client.GetAsync(new Uri("/v1/fault-models/continuous-mechanical/page", UriKind.Relative));
        var page = await answer.Content.ReadAsStringAsync();

        Assert.Equal("text/html", answer.Content.Headers.ContentType!.MediaType);
        Assert.Contains("blow through the cap", page, StringComparison.Ordinal);
        Assert.StartsWith("default-src 'none'", answer.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        Assert.All(model.GetProperty("checks").EnumerateArray(), check =>
        {
            var at = page.IndexOf($"id=\"check-{check.GetProperty("id").GetString()}\"", StringComparison.Ordinal);
            Assert.True(at > 0, check.GetProperty("id").GetString());
            var section = page[at..page.IndexOf("</section>", at, StringComparison.Ordinal)];
            Assert.All(check.GetProperty("cautions").EnumerateArray().Concat(check.GetProperty("steps").EnumerateArray()), text => Assert.Contains(WebUtility.HtmlEncode(text.GetString()!), section, StringComparison.Ordinal));
        });
        var targets = Regex.Matches(page, "id=\"([^\"]+)\"").Select(m => m.Groups[1].Value).ToHashSet();
        Assert.Subset(targets, Regex.Matches(page, "href=\"#([^\"]+)\"").Select(m => m.Groups[1].Value).ToHashSet());
        Assert.Contains("<span class=\"trust memory\">memory</span>", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("study")]
    [InlineData("page")]
    public async Task Unknown_fault_model_is_not_found(string what)
    {
        using ApiHost host = new();

        Assert.Equal("not-found", (await host.Get($"/v1/fault-models/steam/{what}")).Code);
    }
}
