using System.Net;

namespace FuelHistory.Tests.Host;

public sealed class SettingsTests : IDisposable
{
    private readonly ApiHost host = new();

    [Fact]
    public async Task Settings_never_set_are_the_defaults()
    {
        var settings = await host.Get("/v1/settings");

        Assert.Equal("""{"currency":"EUR","labourRate":60,"toolsAtHand":null,"units":{"pressure":"bar","temperature":"°C","distance":"km"},"locale":"en","figures":"words"}""", settings.Text);
        Assert.Equal("\"0\"", settings.ETag);
    }

    [Fact]
    public async Task Settings_changed_come_back_and_guard_against_a_second_writer()
    {
        object settings = new { currency = "GBP", labourRate = 72.5m, toolsAtHand = new[] { "multimeter" }, units = new { pressure = "psi" }, locale = "en-GB" };
        var put = await host.Put("/v1/settings", settings, "\"0\"");

        Assert.Equal(HttpStatusCode.OK, put.Status);
        Assert.Equal("72.50", (await host.Get("/v1/settings")).Member("labourRate"));
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await host.Put("/v1/settings", settings, "\"0\"")).Status);
        Assert.Equal(HttpStatusCode.NotModified, (await host.Get("/v1/settings", "\"1\"")).Status);
    }

    [Theory]
    [InlineData("words", "about one in")]
    [InlineData("percent", " % chance that")]
    [InlineData("odds", "odds of 1 to ")]
    public async Task Settings_choose_how_answers_say_chances(string figures, string said)
    {
        var complaint = await host.Complaint(await host.Vehicle());
        await host.Put("/v1/settings", new { currency = "EUR", labourRate = 60, toolsAtHand = (string[]?)null, units = new { pressure = "bar" }, locale = "en", figures });

        var answer = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body;

        Assert.Equal(figures, answer.GetProperty("figures").GetString());
        Assert.Contains(said, answer.GetProperty("ranking")[0].GetProperty("sentence").GetString(), StringComparison.Ordinal);
        Assert.Equal(figures, (await host.Get($"/v1/complaints/{complaint}/advice")).Member("figures"));
    }

    [Fact]
    public async Task Settings_with_faults_are_refused_with_all_of_them()
    {
        var refused = await host.Put("/v1/settings", new { currency = "euro", labourRate = -1, toolsAtHand = new[] { "multimetre" }, units = new { pressure = "ohm", colour = "red" }, locale = "english!", figures = "guesses" });

        Assert.Equal(["/currency unknown", "/labourRate out-of-range", "/toolsAtHand/0 unknown", "/units/pressure wrong-unit", "/units/colour unknown", "/locale unknown", "/figures unknown"], refused.Faults);
    }

    [Fact]
    public async Task Fault_models_are_listed_shown_and_their_checks_found()
    {
        Assert.Equal("test-circuit", (await host.Get("/v1/fault-models")).Body[0].GetProperty("id").GetString());
        var model = await host.Get("/v1/fault-models/test-circuit");
        Assert.Equal(["fitted", "cleaned", "inspected"], model.Body.GetProperty("components")[3].GetProperty("actions").EnumerateArray().Select(a => a.GetString()!));
        var check = await host.Get("/v1/fault-models/test-circuit/checks/control-pressure");
        Assert.Equal("0.9 to 1.3 bar at 10 °C, 1.7 to 2.1 bar at 30 °C (typical; memory: invented for the tests)", check.Member("limits"));
        Assert.Equal("ambient", check.Body.GetProperty("covariate").GetProperty("id").GetString());
        Assert.Equal("not-found", (await host.Get("/v1/fault-models/diesel")).Code);
        Assert.Equal("not-found", (await host.Get("/v1/fault-models/test-circuit/checks/smell")).Code);
    }

    [Fact]
    public async Task Live_and_ready_answer_and_ready_sees_a_missing_file()
    {
        Assert.Equal("live", (await host.Get("/livez")).Member("status"));
        var ready = await host.Get("/readyz");
        Assert.Equal("ready", ready.Member("status"));
        Assert.Equal(FuelHistory.Host.Sqlite.Migrations.Embedded()[^1].Number.ToString(System.Globalization.CultureInfo.InvariantCulture), ready.Body.GetProperty("details").GetProperty("schema").GetString());

        File.Move(host.Database, host.Database + ".away");
        Assert.Equal(HttpStatusCode.ServiceUnavailable, (await host.Get("/readyz")).Status);
        Assert.Equal(HttpStatusCode.OK, (await host.Get("/livez")).Status);
    }

    public void Dispose() => host.Dispose();
}
