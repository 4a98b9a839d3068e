using System.Net;
using System.Text.RegularExpressions;

namespace FuelHistory.Tests.Host;

public sealed class ReportTests : IDisposable
{
    private readonly ApiHost host = new(realModels: true);

    [Fact]
    public async Task Report_of_the_demo_shows_suspects_curves_and_the_trust_of_every_limit()
    {
        await FuelHistory.Host.Demo.Fill(host.Address, DateOnly.FromDateTime(host.Clock.Now.Date));

        foreach (var car in (await host.Get("/v1/vehicles")).Body.EnumerateArray())
        {
            var id = car.GetProperty("entry").GetProperty("id").GetString();
            var page = await Page(id!);
            var limits = (await host.Get($"/v1/vehicles/{id}/limits")).Body.EnumerateArray().ToList();

            Assert.Contains($"<h1>{car.GetProperty("name").GetString()}", page, StringComparison.Ordinal);
            Assert.All(limits, l => Assert.Contains(WebUtility.HtmlEncode(l.GetProperty("trustText").GetString()!), page, StringComparison.Ordinal));
            Assert.All(limits, l => Assert.Contains(WebUtility.HtmlEncode(l.GetProperty("source").GetString()!), page, StringComparison.Ordinal));
            Assert.Equal(car.GetProperty("openComplaints").GetInt32(), Regex.Count(page, "Most likely on"));
            Assert.Equal(page.Contains("<svg", StringComparison.Ordinal), page.Contains("eye protection", StringComparison.Ordinal) && page.Contains("Leak-down, whole circuit", StringComparison.Ordinal));
            Assert.Equal(page.Split(" id=\"").Skip(1).Select(p => p.Split('"')[0]).Distinct().Count(), Regex.Count(page, " id=\""));
        }
    }

    [Fact]
    public async Task Limit_from_memory_is_shown_as_such_and_never_as_published()
    {
        var car = await host.Vehicle("continuous-mechanical");
        var memory = (await host.Get("/v1/limits-library?system=continuous-mechanical&trust=memory")).Body.EnumerateArray()
            .First(l => l.GetProperty("trust").GetString() == "memory" && l.GetProperty("checks").GetArrayLength() > 0);
        var id = memory.GetProperty("id").GetString();
        Assert.Equal(HttpStatusCode.Created, (await host.Post($"/v1/vehicles/{car}/limits/adopt", new { libraryId = id, check = memory.GetProperty("checks")[0].GetString() })).Status);

        var page = await Page(car);

        Assert.Contains("from memory", page, StringComparison.Ordinal);
        Assert.DoesNotContain("published", page[page.IndexOf("What it should read", StringComparison.Ordinal)..page.IndexOf("All that is recorded", StringComparison.Ordinal)], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Text_in_a_name_stays_text()
    {
        var car = (await host.Post("/v1/vehicles", new { name = "<b>Blue</b>", year = "1981", system = "continuous-mechanical" })).Id;

        Assert.Contains("&lt;b&gt;Blue&lt;/b&gt;", await Page(car), StringComparison.Ordinal);
        Assert.Equal("not-found", (await host.Get("/v1/vehicles/none/report")).Code);
    }

    public void Dispose() => host.Dispose();

    private async Task<string> Page(string car)
    {
        using HttpClient client = new() { BaseAddress = host.Address };
        using var answer = await client.GetAsync(new Uri($"/v1/vehicles/{car}/report", UriKind.Relative));
        Assert.Equal("text/html", answer.Content.Headers.ContentType!.MediaType);
        Assert.StartsWith("default-src 'none'", answer.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        return await answer.Content.ReadAsStringAsync();
    }
}
