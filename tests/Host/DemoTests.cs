using System.Net;
using System.Text;
using Dapper;
using FuelHistory.Host;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Tests.Host;

/// <summary>The demo goes through every kind of entry, so it also serves to see that all of them are kept.</summary>
public sealed class DemoTests : IDisposable
{
    private readonly ApiHost host = new(realModels: true);

    [Fact]
    public async Task Demo_has_three_vehicles_one_in_the_middle_of_a_search()
    {
        await Demo.Fill(host.Address, DateOnly.FromDateTime(host.Clock.Now.Date));

        var vehicles = (await host.Get("/v1/vehicles")).Body.EnumerateArray().Select(v => (v.GetProperty("name").GetString(), v.GetProperty("openComplaints").GetInt32()));
        Assert.Equal([("Blue hatchback", 1), ("Silver saloon", 0), ("Green coupe from the barn", 0)], vehicles);
    }

    [Theory]
    [InlineData(2024, 2, 29)]
    [InlineData(2026, 1, 1)]
    [InlineData(2027, 12, 31)]
    public async Task Demo_can_be_entered_on_any_day(int year, int month, int day)
    {
        host.Clock.Now = new DateTimeOffset(year, month, day, 0, 30, 0, TimeSpan.Zero);

        await Demo.Fill(host.Address, new DateOnly(year, month, day));

        Assert.Equal(3, (await host.Get("/v1/vehicles")).Body.GetArrayLength());
    }

    [Fact]
    public async Task Entries_of_every_kind_can_be_neither_changed_nor_deleted()
    {
        await Demo.Fill(host.Address, DateOnly.FromDateTime(host.Clock.Now.Date));
        Assert.Equal(HttpStatusCode.OK, (await host.Put("/v1/settings", new { currency = "EUR", labourRate = 60, toolsAtHand = (string[]?)null, units = new { }, locale = "en" })).Status);
        await LeakDownWithFile();
        using var raw = host.Raw();
        var tables = raw.Query<string>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name <> 'migration'").ToList();

        Assert.Equal(18, tables.Count);
        foreach (var table in tables)
        {
            Assert.True(raw.QuerySingle<long>($"SELECT count(*) FROM {table}") > 0, table);
            foreach (var statement in new[] { $"UPDATE {table} SET rowid = rowid", $"DELETE FROM {table}" })
            {
                var refused = Assert.Throws<SqliteException>(() => raw.Execute(statement));
                Assert.Contains(" are kept", refused.Message, StringComparison.Ordinal);
            }
        }
    }

    public void Dispose() => host.Dispose();

    private async Task LeakDownWithFile()
    {
        var car = await host.Vehicle("continuous-mechanical");
        var complaint = (await host.Post($"/v1/vehicles/{car}/complaints", new { title = "Restarts badly", since = "2026-05", events = Array.Empty<object>() })).Id;
        await host.Post($"/v1/complaints/{complaint}/set-aside", new { trial = "relay-swap", reason = "no-tool" });
        var run = (await host.Post($"/v1/complaints/{complaint}/leak-downs", new { check = "leak-down-whole", stoppedAt = "2026-06-15T10:00:00Z" })).Id;
        using StringContent file = new("t,p\n0,3\n60,2\n", Encoding.UTF8, "text/csv");
        using var done = await host.Client.PostAsync(new Uri($"/v1/leak-downs/{run}/import", UriKind.Relative), file);
        Assert.Equal(HttpStatusCode.OK, (await host.Post($"/v1/leak-downs/{run}/readings/file-1/take-back")).Status);
    }
}
