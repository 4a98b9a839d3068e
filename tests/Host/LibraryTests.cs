using System.Net;
using System.Text.Json;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.LimitsLibrary;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Tests.Host;

/// <summary>Limits of the library: found by car, taken for a check, and shown with where they come from.</summary>
public sealed class LibraryTests : IDisposable
{
    private readonly ApiHost host = new();

    private async Task<string> Alder(string year = "1981") =>
        (await host.Post("/v1/vehicles", new { name = "Green saloon", year, system = "test-circuit", make = "Alder", model = "12" })).Id;

    private static string[] Ids(Answer found, string member = "id") => [.. found.Body.EnumerateArray().Select(l => l.GetProperty(member).GetString()!)];

    [Fact]
    public async Task Search_by_vehicle_gives_its_system_and_the_nearest_car_first()
    {
        var found = await host.Get($"/v1/limits-library?vehicleId={await Alder()}&check=system-pressure");

        Assert.Equal(["system-pressure-2", "system-pressure-3", "system-pressure-1", "system-pressure-4"], Ids(found));
        Assert.Equal(["this-car", "this-model", "any-car", "other-car"], Ids(found, "closeness"));
        Assert.Equal(["published", "published; some figures are ours", "from memory, unconfirmed: check the manual", "published"], Ids(found, "trustText"));
    }

    [Fact]
    public async Task Search_by_words_goes_before_the_vehicle()
    {
        var car = await Alder();

        Assert.Equal("system-pressure-4", Ids(await host.Get($"/v1/limits-library?vehicleId={car}&make=birch&model=six&check=system-pressure"))[0]);
        Assert.Equal("system-pressure-3", Ids(await host.Get("/v1/limits-library?system=test-circuit&make=Alder&model=12&year=1985&check=system-pressure"))[0]);
        Assert.Equal(["other-1"], Ids(await host.Get("/v1/limits-library?system=another-circuit")));
        Assert.Equal(["control-pressure-1"], Ids(await host.Get("/v1/limits-library?text=alder%20control")));
        Assert.Equal(12, Ids(await host.Get("/v1/limits-library?quantity=pressure")).Length);
    }

    [Theory]
    [InlineData("vehicleId=none", "vehicleId unknown")]
    [InlineData("year=eighty", "year impossible-date")]
    [InlineData("system=test-cirquit", "system unknown")]
    [InlineData("quantity=weight", "quantity unknown")]
    [InlineData("system=test-circuit&check=system-presure", "check unknown")]
    public async Task Search_for_what_is_not_known_is_refused(string query, string fault) =>
        Assert.Equal([fault], (await host.Get("/v1/limits-library?" + query)).Faults);

    [Fact]
    public async Task Reading_and_adopting_what_is_not_there_are_refused()
    {
        Assert.Equal(HttpStatusCode.NotFound, (await host.Get("/v1/limits-library/none")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await host.Post("/v1/vehicles/none/limits/adopt", new { libraryId = "residual-1", check = "leak-down-whole" })).Status);
    }

    [Fact]
    public async Task Reading_one_shows_the_print_the_misprint_and_the_source()
    {
        var one = await host.Get("/v1/limits-library/system-pressure-2");

        Assert.Equal("70-80 psi (5.0-5.5 bar)", one.Member("printed"));
        Assert.Equal("70 to 80 psi", one.Member("figures"));
        Assert.Equal("70-80 psi is 4.8-5.5 bar", one.Member("misprint"));
        Assert.Equal("Workshop book of the Alder works, Alder 12, 1981", one.Member("source"));
        Assert.Equal("Alder 12 1978-1983", one.Member("car"));
    }

    [Fact]
    public async Task Adopting_keeps_source_trust_and_print_with_the_car()
    {
        var car = await Alder();
        var made = await host.Post($"/v1/vehicles/{car}/limits/adopt", new { libraryId = "residual-1", check = "leak-down-whole" });

        Assert.Equal(HttpStatusCode.Created, made.Status);
        var kept = (await host.Get($"/v1/vehicles/{car}/limits")).Body[0];
        Assert.Equal(("excerpt", "residual-1", true), (kept.GetProperty("trust").GetString(), kept.GetProperty("libraryId").GetString(), kept.GetProperty("exact").GetBoolean()));
        Assert.Equal("2.0 bar after 10 min, 1.7 bar after 20 min", kept.GetProperty("printed").GetString());
        Assert.StartsWith("Data sheet, Alder 12 and 14, one page seen (for: Alder 12, 14 1978-1986)", kept.GetProperty("source").GetString(), StringComparison.Ordinal);
        var line = (await host.Get($"/v1/vehicles/{car}/record")).Body.GetProperty("lines").EnumerateArray().Single(l => l.GetProperty("kind").GetString() == "limit");
        Assert.Contains("at least 2 bar after 10 min, at least 1.7 bar after 20 min (published, seen in part: Data sheet", line.GetProperty("text").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Adopting_another_for_the_same_check_is_the_next_version()
    {
        var car = await Alder();
        var first = await host.Post($"/v1/vehicles/{car}/limits/adopt", new { libraryId = "system-pressure-1", check = "system-pressure" });
        var second = await host.Post($"/v1/vehicles/{car}/limits/adopt", new { libraryId = "system-pressure-2", check = "system-pressure" });

        Assert.Equal((HttpStatusCode.OK, first.Id, 2), (second.Status, second.Id, second.Version));
        Assert.Equal(["published", "memory"], (await host.Get($"/v1/limits/{first.Id}/versions")).Body.EnumerateArray().Select(v => v.GetProperty("trust").GetString()));
        Assert.False((await host.Get($"/v1/limits/{first.Id}/versions")).Body[1].GetProperty("exact").GetBoolean());
    }

    [Theory]
    [InlineData("1981", "system-pressure-2", true, "published")]
    [InlineData("1985", "system-pressure-2", false, "published; not given for this very car")]
    [InlineData("1985", "system-pressure-3", false, "published; some figures are ours")]
    public async Task Adopted_limit_is_exact_only_with_the_documents_own_figures_for_this_very_car(string year, string limit, bool exact, string says)
    {
        var made = await host.Post($"/v1/vehicles/{await Alder(year)}/limits/adopt", new { libraryId = limit, check = "system-pressure" });

        Assert.Equal((exact, says), (made.Body.GetProperty("exact").GetBoolean(), made.Member("trustText")));
    }

    [Fact]
    public async Task Limit_that_no_check_reads_is_taken_with_that_reserve_and_its_reason()
    {
        var made = await host.Post($"/v1/vehicles/{await Alder()}/limits/adopt", new { libraryId = "loose-4", check = "system-pressure" });

        Assert.Equal(("published; not read in the way of this check", "False"), (made.Member("trustText"), made.Member("exact")));
        Assert.Contains("read with the vacuum hose on", made.Member("note"), StringComparison.Ordinal);
    }

    /// <summary>What the next owner reads: figure, how far to trust it, and from where.</summary>
    [Fact]
    public async Task Record_says_of_every_limit_how_far_to_trust_it_and_from_where()
    {
        var car = await Alder();
        await host.Post($"/v1/vehicles/{car}/limits/adopt", new { libraryId = "system-pressure-1", check = "system-pressure" });
        await host.Post($"/v1/vehicles/{car}/limits/adopt", new { libraryId = "control-pressure-1", check = "control-pressure" });
        await host.Post($"/v1/vehicles/{car}/limits", new { check = "leak-down-whole", unit = "bar", source = "manual p. 7", points = new[] { new { minutes = 10, low = 2.0 } } });

        var lines = (await host.Get($"/v1/vehicles/{car}/record")).Body.GetProperty("lines").EnumerateArray()
            .Where(l => l.GetProperty("kind").GetString() == "limit").Select(l => l.GetProperty("text").GetString()!).Order(StringComparer.Ordinal).ToList();

        Assert.Equal(3, lines.Count);
        Assert.EndsWith("(published, seen in part: Data sheet, Alder 12 and 14, one page seen (for: Alder 12))", lines[0], StringComparison.Ordinal);
        Assert.EndsWith("(own entry: manual p. 7)", lines[1], StringComparison.Ordinal);
        Assert.Contains("(from memory, unconfirmed: check the manual; this car's may differ, not given for this very car: From memory, not verified (for: ", lines[2], StringComparison.Ordinal);
        Assert.DoesNotContain("published", lines[2], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Adopting_over_a_covariate_turns_its_unit_into_the_checks()
    {
        var made = await host.Post($"/v1/vehicles/{await Alder()}/limits/adopt", new { libraryId = "control-pressure-1", check = "control-pressure" });

        Assert.Equal([10.0, 30.0], made.Body.GetProperty("points").EnumerateArray().Select(p => Math.Round(p.GetProperty("at").GetDouble(), 9)));
    }

    [Theory]
    [InlineData("loose-1", "system-pressure", "/libraryId unsuitable", "pressure over time")]
    [InlineData("loose-1", "plugs", "/libraryId unsuitable", "not measured")]
    [InlineData("loose-2", "system-pressure", "/libraryId unsuitable", "does not ask for")]
    [InlineData("loose-3", "system-pressure", "/libraryId unsuitable", "this check shows")]
    [InlineData("system-pressure-2", "control-pressure", "/check unsuitable", "for system-pressure")]
    [InlineData("control-pressure-1", "pump-vacuum", "/check unsuitable", "for control-pressure")]
    [InlineData("bound-1", "system-pressure", "/libraryId unsuitable", "a bound for safety")]
    [InlineData("other-1", "system-pressure", "/libraryId unsuitable", "another-circuit")]
    [InlineData("residual-9", "system-pressure", "/libraryId unknown", "residual-1")]
    [InlineData("residual-1", "leak-down-hole", "/check unknown", "leak-down-whole")]
    public async Task Adopting_what_does_not_fit_is_refused(string library, string check, string fault, string says)
    {
        var refused = await host.Post($"/v1/vehicles/{await Alder()}/limits/adopt", new { libraryId = library, check });

        Assert.Equal([fault], refused.Faults);
        Assert.Contains(says, refused.Body.GetProperty("errors")[0].GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    /// <summary>The reading 6.2 bar is right by one limit and far too high by the other; the notes say by which it was judged.</summary>
    [Fact]
    public async Task Own_limit_goes_before_an_adopted_one_in_either_order()
    {
        var car = await Alder();
        var complaint = await host.Complaint(car);
        await host.Post($"/v1/complaints/{complaint}/findings", new { at = "2026-06-15T10:00:00+00:00", check = "system-pressure", reading = new { value = 6.2, unit = "bar" } });
        async Task<string> Note() => (await host.Get($"/v1/complaints/{complaint}/assessment")).Body.GetProperty("notes").EnumerateArray().Select(n => n.GetString()!).Single(n => n.StartsWith("System pressure", StringComparison.Ordinal));

        Assert.Contains("judged by a typical limit, not by this car's own (", await Note(), StringComparison.Ordinal);
        await host.Post($"/v1/vehicles/{car}/limits/adopt", new { libraryId = "system-pressure-1", check = "system-pressure" });
        Assert.Contains("judged by this car's limit (from memory, unconfirmed: check the manual; this car's may differ, not given for this very car: From memory", await Note(), StringComparison.Ordinal);
        var own = await host.Post($"/v1/vehicles/{car}/limits", new { check = "system-pressure", unit = "bar", source = "manual p. 7", low = 6.0, high = 6.5 });
        Assert.Contains("judged by this car's limit (own entry: manual p. 7)", await Note(), StringComparison.Ordinal);
        await host.Post($"/v1/vehicles/{car}/limits/adopt", new { libraryId = "system-pressure-2", check = "system-pressure" });
        Assert.Contains("own entry: manual p. 7", await Note(), StringComparison.Ordinal);
        await host.Post($"/v1/limits/{own.Id}/void", new { reason = "another car's manual" });
        Assert.Contains("(published: Workshop book", await Note(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Correcting_an_adopted_limit_makes_it_ones_own()
    {
        var car = await Alder();
        var made = await host.Post($"/v1/vehicles/{car}/limits/adopt", new { libraryId = "system-pressure-2", check = "system-pressure" });
        var corrected = await host.Put($"/v1/limits/{made.Id}", new { check = "system-pressure", unit = "psi", source = "plate on the car", low = 72, high = 79 });

        Assert.Equal(("own", ""), (corrected.Member("trust"), corrected.Member("libraryId")));
        Assert.Equal(["/check unsuitable"], (await host.Post($"/v1/vehicles/{car}/limits", new { check = "system-pressure", unit = "bar", source = "manual", low = 4.8, high = 5.4 })).Faults);
    }

    [Fact]
    public void Folder_with_a_limit_that_cannot_be_used_stops_the_host_with_the_reason()
    {
        var folder = Directory.CreateTempSubdirectory("fuelhistory-test-").FullName;
        try
        {
            File.Copy(Path.Combine(ApiHost.TestLibrary, "sources.json"), Path.Combine(folder, "sources.json"));
            File.WriteAllText(Path.Combine(folder, "test.json"), File.ReadAllText(Path.Combine(ApiHost.TestLibrary, "test.json")).Replace("\"high\": 5.6", "\"high\": 4.4", StringComparison.Ordinal));
            FaultModelFolder models = new(ApiHost.TestModels);

            var stopped = Assert.Throws<StartException>(() => new LibraryFolder(folder, models));

            Assert.Contains("limits[system-pressure-1].low: Low must be below high. (order)", stopped.Message, StringComparison.Ordinal);
            Assert.Throws<StartException>(() => new LibraryFolder(Path.Combine(folder, "none"), models));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task Library_as_shipped_is_served()
    {
        using ApiHost real = new(realModels: true);
        var all = (await real.Get("/v1/limits-library")).Body.EnumerateArray().ToList();

        Assert.True(all.Count >= 120);
        Assert.All(all, l => Assert.False(string.IsNullOrWhiteSpace(l.GetProperty("source").GetString())));
        Assert.All(all.Where(l => l.GetProperty("trust").GetString() == "memory"), l => Assert.StartsWith("from memory", l.GetProperty("trustText").GetString(), StringComparison.Ordinal));
        Assert.All(all.Where(l => l.GetProperty("unit").ValueKind != JsonValueKind.Null), l => Assert.NotEqual("", l.GetProperty("figures").GetString()));
    }

    /// <summary>What the library says a check reads can be taken for it, with every figure within what the check can show.</summary>
    [Fact]
    public async Task Every_limit_as_shipped_can_be_taken_for_each_check_it_names()
    {
        using ApiHost real = new(realModels: true);
        foreach (var system in (await real.Get("/v1/fault-models")).Body.EnumerateArray().Select(m => m.GetProperty("id").GetString()!))
        {
            var car = await real.Vehicle(system);
            foreach (var limit in (await real.Get($"/v1/limits-library?vehicleId={car}")).Body.EnumerateArray())
            {
                foreach (var check in limit.GetProperty("checks").EnumerateArray())
                {
                    var taken = await real.Post($"/v1/vehicles/{car}/limits/adopt", new { libraryId = limit.GetProperty("id").GetString(), check = check.GetString() });

                    Assert.True(taken.Status is HttpStatusCode.Created or HttpStatusCode.OK, $"{system}, {limit.GetProperty("id")}, {check}: {taken.Text}");
                }
            }
        }
    }

    public void Dispose() => host.Dispose();
}
