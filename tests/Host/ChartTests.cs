using System.Net;
using System.Xml.Linq;

namespace FuelHistory.Tests.Host;

public sealed class ChartTests : IDisposable
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";
    private readonly ApiHost host = new();

    [Fact]
    public async Task Picture_of_a_leak_down_says_what_it_shows()
    {
        var run = await Run(2.8, 2.4, 1.8);

        var answer = await host.Get($"/v1/leak-downs/{run}/chart?format=svg");

        Assert.Equal("image/svg+xml", answer.Content.ContentType!.MediaType);
        var svg = XDocument.Parse(answer.Text).Root!;
        Assert.Equal("img", svg.Attribute("role")!.Value);
        Assert.Equal("chart-title chart-desc", svg.Attribute("aria-labelledby")!.Value);
        Assert.Equal("Residual pressure, 2026-06-15 10:00", svg.Element(Svg + "title")!.Value);
        Assert.StartsWith("The pressure went from 2.8 bar at 1 min to 1.8 bar at 3 min in 3 readings.", svg.Element(Svg + "desc")!.Value, StringComparison.Ordinal);
        var words = svg.Descendants(Svg + "text").Select(t => t.Value.Trim()).ToList();
        Assert.Empty(new[] { "Pressure (bar)", "Time since the stop (min)", "limit", "readings", "a tight section would show" }.Except(words));
        Assert.Contains(words, w => w.StartsWith("limit: at least 1.7 bar at 10 min", StringComparison.Ordinal));
        Assert.Empty(svg.Descendants(Svg + "script"));
    }

    [Fact]
    public async Task Curves_are_told_apart_without_colour()
    {
        var picture = XDocument.Parse((await host.Get($"/v1/leak-downs/{await Run(2.8, 2.4)}/chart?with={await Run(2.9, 2.9)}&format=svg")).Text);

        // a whole line is a stroke, a dashed one is drawn as its pieces; marks are circles and squares
        List<XElement> paths = [.. picture.Descendants(Svg + "path")];
        Assert.Contains(paths, p => p.Attribute("stroke")?.Value == "#111");
        Assert.DoesNotContain(paths, p => p.Attribute("stroke")?.Value == "#1F4E9C");
        Assert.Contains(paths, p => p.Attribute("fill")?.Value == "#1F4E9C" && p.Attribute("d")!.Value.Count(c => c == 'M') > 3);
        Assert.Equal(2, picture.Descendants(Svg + "rect").Count(r => r.Attribute("stroke")?.Value == "#1F4E9C" && r.Attribute("x")!.Value != "0") - 1);
    }

    [Fact]
    public async Task Two_runs_are_drawn_in_one_frame_and_named_by_their_days()
    {
        var (before, after) = (await Run(2.8, 2.0, 1.4), await Run(2.9, 2.9, 2.85));

        var chart = (await host.Get($"/v1/leak-downs/{before}/chart?format=json&with={after}")).Body;

        Assert.Equal([1, 2], chart.GetProperty("series").EnumerateArray().Where(s => s.GetProperty("kind").GetString() == "readings").Select(s => s.GetProperty("run").GetInt32()));
        Assert.Single(chart.GetProperty("series").EnumerateArray(), s => s.GetProperty("kind").GetString() == "limit");
        Assert.Equal(["with unknown"], (await host.Get($"/v1/leak-downs/{before}/chart?with=none")).Faults);
    }

    [Theory]
    [InlineData("", "svg", "image/svg+xml")]
    [InlineData("image/png", "png", "image/png")]
    [InlineData("text/html,application/xhtml+xml;q=0.9,*/*;q=0.8", "html", "text/html")]
    [InlineData("text/csv;q=0.4, application/json;q=0.6", "json", "application/json")]
    [InlineData("image/*", "svg", "image/svg+xml")]
    public async Task Accept_chooses_the_form_as_format_does(string accept, string format, string type)
    {
        var run = await Run(2.8, 2.4);

        var accepted = await host.Send(HttpMethod.Get, $"/v1/leak-downs/{run}/chart", null, ("Accept", accept.Length == 0 ? null : accept));
        var asked = await host.Get($"/v1/leak-downs/{run}/chart?format={format}");

        Assert.Equal(type, accepted.Content.ContentType!.MediaType);
        Assert.Equal(asked.ETag, accepted.ETag);
        Assert.Equal("Accept", string.Join(',', accepted.Headers.Vary));
        Assert.Equal(HttpStatusCode.NotModified, (await host.Get($"/v1/leak-downs/{run}/chart?format={format}", asked.ETag)).Status);
    }

    [Fact]
    public async Task Form_that_cannot_be_had_is_refused_with_those_that_can()
    {
        var run = await Run(2.8);

        var refused = await host.Send(HttpMethod.Get, $"/v1/leak-downs/{run}/chart", null, ("Accept", "image/gif"));

        Assert.Equal(HttpStatusCode.NotAcceptable, refused.Status);
        Assert.Contains("image/svg+xml, image/png", refused.Detail, StringComparison.Ordinal);
        Assert.Equal(["format unknown"], (await host.Get($"/v1/leak-downs/{run}/chart?format=gif")).Faults);
    }

    [Fact]
    public async Task Picture_in_pixels_is_the_same_for_the_same_readings()
    {
        var path = new Uri($"/v1/leak-downs/{await Run(2.8, 2.4)}/chart?format=png", UriKind.Relative);

        var (one, two) = (await host.Client.GetByteArrayAsync(path), await host.Client.GetByteArrayAsync(path));

        Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], one[..4]);
        Assert.Equal(one, two);
    }

    [Fact]
    public async Task Table_has_every_reading_and_the_page_its_cautions()
    {
        var run = await Run(2.8, 2.4);

        var rows = (await host.Get($"/v1/leak-downs/{run}/chart?format=csv")).Text.Split("\r\n");
        Assert.Equal("series,kind,run,minutes,value,low,high,unit", rows[0]);
        Assert.Equal(["readings,readings,1,1,2.8,,,bar", "readings,readings,1,2,2.4,,,bar"], rows.Where(r => r.StartsWith("readings", StringComparison.Ordinal)));
        var page = await host.Get($"/v1/leak-downs/{run}/chart?format=html");
        Assert.Contains("<li>Petrol under pressure.</li>", page.Text, StringComparison.Ordinal);
        Assert.Contains("<caption>", page.Text, StringComparison.Ordinal);
        Assert.Equal("default-src 'none'; style-src 'unsafe-inline'", page.Headers.GetValues("Content-Security-Policy").Single());
    }

    [Fact]
    public async Task Leak_down_without_readings_and_check_without_findings_are_drawn_empty()
    {
        Assert.Equal(HttpStatusCode.OK, (await host.Get($"/v1/leak-downs/{await Run()}/chart?format=svg")).Status);
        var car = await host.Vehicle();
        foreach (var format in new[] { "svg", "png", "html", "csv", "json" })
        {
            Assert.Equal(HttpStatusCode.OK, (await host.Get($"/v1/vehicles/{car}/trend/chart?check=system-pressure&format={format}")).Status);
        }
    }

    [Fact]
    public async Task Trend_shows_each_finding_with_the_limit_that_held_for_it()
    {
        var car = await host.Vehicle();
        await Find(car, "2019-05-01T10:00:00Z", 1.2, 10);
        await Find(car, "2026-05-01T10:00:00Z", 1.2, 30);

        var rows = (await host.Get($"/v1/vehicles/{car}/trend/chart?check=control-pressure&format=csv")).Text.Split("\r\n");

        Assert.Equal("series,kind,run,date,value,low,high,unit", rows[0]);
        Assert.Equal(["readings,readings,1,2019-05-01,1.2,,,bar", "readings,readings,1,2026-05-01,1.2,,,bar"], rows[1..3]);
        Assert.Equal(["\"limit (typical of this system, from memory, unconfirmed: check the manual: invented for the tests)\",limit,1,2019-05-01,,0.9,1.3,bar", "\"limit (typical of this system, from memory, unconfirmed: check the manual: invented for the tests)\",limit,1,2026-05-01,,1.7,2.1,bar"], rows[3..5]);
        var chart = await host.Get($"/v1/vehicles/{car}/trend/chart?check=control-pressure&format=json");
        Assert.Contains("1 outside the limit", chart.Member("description"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Trend_of_leak_downs_shows_the_pressure_at_the_minutes_of_the_limit()
    {
        var car = await host.Vehicle();
        await host.Post($"/v1/vehicles/{car}/limits", new { check = "leak-down-whole", unit = "psi", source = "=its manual", from = 43, points = new[] { new { minutes = 10, low = 25 } } });
        object Point(double minutes, double bar) => new { minutes, pressure = new { value = bar, unit = "bar" } };
        await host.Post($"/v1/vehicles/{car}/findings", new { at = "2020-05-01T10:00:00Z", check = "leak-down-whole", points = new[] { Point(1, 2.9), Point(10, 2.6) } });

        var series = (await host.Get($"/v1/vehicles/{car}/trend/chart?check=leak-down-whole&format=json")).Body.GetProperty("series");

        Assert.Equal(2.6 * 14.5038, series[0].GetProperty("points")[0].GetProperty("value").GetDouble(), 1.0);
        Assert.Equal(25, series[1].GetProperty("points")[0].GetProperty("low").GetDouble(), 3);
        Assert.Equal("limit (this car's own: =its manual)", series[1].GetProperty("name").GetString());
    }

    [Theory]
    [InlineData("", "check required")]
    [InlineData("?check=plugs", "check unknown")]
    [InlineData("?check=system-pressure&format=pdf", "format unknown")]
    public async Task Trend_of_what_has_no_figures_is_refused(string query, string fault) =>
        Assert.Equal([fault], (await host.Get($"/v1/vehicles/{await host.Vehicle()}/trend/chart{query}")).Faults);

    public void Dispose() => host.Dispose();

    private Task<Answer> Find(string car, string at, double bar, double celsius) => host.Post($"/v1/vehicles/{car}/findings", new
    {
        at,
        check = "control-pressure",
        reading = new { value = bar, unit = "bar" },
        conditions = new { ambient = new { value = celsius, unit = "°C" } },
    });

    private async Task<string> Run(params double[] bars)
    {
        var complaint = await host.Complaint(await host.Vehicle());
        var run = (await host.Post($"/v1/complaints/{complaint}/leak-downs", new { check = "leak-down-whole", stoppedAt = "2026-06-15T10:00:00+02:00" })).Id;
        if (bars.Length > 0)
        {
            await host.Post($"/v1/leak-downs/{run}/readings", new { readings = bars.Select((bar, i) => new { minutes = i + 1, pressure = new { value = bar, unit = "bar" } }) });
        }

        return run;
    }
}
