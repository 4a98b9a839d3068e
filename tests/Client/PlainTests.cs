using System.Text.Json;
using FuelHistory.Client.Plain;
using FuelHistory.Contracts;
using FuelHistory.Tests.Host;
using Xunit;

namespace FuelHistory.Tests.Client;

public sealed class PlainTests
{
    [Fact]
    public async Task List_prints_the_vehicles()
    {
        using var server = Samples.Server();
        var (code, output, _) = await Run(server.Address, "list");
        Assert.Equal(ExitCodes.Done, code);
        Assert.Contains("Blue hatch", output, StringComparison.Ordinal);
        Assert.DoesNotContain('\u001b', output);
    }

    [Fact]
    public async Task Json_prints_what_the_server_said()
    {
        using var server = Samples.Server();
        var (_, output, _) = await Run(server.Address, "likely", "Restarts", "--json");
        using var document = JsonDocument.Parse(output);
        Assert.Equal(Samples.ComplaintId, document.RootElement.GetProperty("complaintId").GetString());
        Assert.Equal(3, document.RootElement.GetProperty("ranking").GetArrayLength());
    }

    [Theory]
    [InlineData("Blue")]
    [InlineData("restarts badly")]
    [InlineData(Samples.ComplaintId)]
    public async Task Likely_of_a_vehicle_or_a_complaint_gives_ranking_reason_check_and_plan(string subject)
    {
        using var server = Samples.Server();
        var (code, output, _) = await Run(server.Address, "likely", subject);
        Assert.Equal(ExitCodes.Done, code);
        Assert.All(["Pressure regulator seal", "38 %", "for     Residual pressure", "Check: Return shut [return-shut]", "Repair plan"], text => Assert.Contains(text, output, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Show_prints_the_record_with_ids()
    {
        using var server = Samples.Server();
        var (_, output, _) = await Run(server.Address, "show", "blue");
        Assert.Contains("Fuel pump fitted, new (invoice)  [wrk-1]", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Report_is_written_to_a_new_file_and_never_over_one()
    {
        using ApiHost host = new();
        await host.Post("/v1/vehicles", new { name = "Blue <i>wagon</i>", year = "1981", system = "test-circuit" });
        var path = Path.Combine(Directory.CreateTempSubdirectory("fuelhistory-report").FullName, "blue.html");

        var (code, output, _) = await Run(host.Address, "report", "Blue", "--to", path);
        Assert.Equal((ExitCodes.Done, $"Written: {path}"), (code, output.TrimEnd()));
        var page = await File.ReadAllTextAsync(path);
        Assert.StartsWith("<!doctype html>", page, StringComparison.Ordinal);
        Assert.Contains("Blue &lt;i&gt;wagon&lt;/i&gt;", page, StringComparison.Ordinal);

        var (again, _, errors) = await Run(host.Address, "report", "Blue", "--to", path);
        Assert.Equal(ExitCodes.Usage, again);
        Assert.Contains("nothing is overwritten", errors, StringComparison.Ordinal);
        var (_, printed, _) = await Run(host.Address, "report", "Blue");
        Assert.Equal(page.TrimEnd(), printed.TrimEnd());
    }

    [Fact]
    public async Task Check_prints_cautions_and_steps()
    {
        using var server = Samples.Server();
        var (code, output, _) = await Run(server.Address, "check", "return");
        Assert.Equal(ExitCodes.Done, code);
        Assert.Contains("CAUTION", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Add_work_sends_what_the_options_say()
    {
        var path = $"/v1/vehicles/{Samples.VehicleId}/work";
        Work stored = new(Samples.Head("wrk-2"), Samples.VehicleId, "2025-10", "fitted", ["pump"], "invoice", null, "new", null, null, null, null, null, "unknown", null);
        using var server = Samples.Server().Post(path, stored);
        var (code, output, errors) = await Run(server.Address, "add", "work", "Blue", "--date", "2025-10", "--action", "fitted", "--components", "Fuel pump", "--known", "invoice", "--quality", "new", "--odometer", "84210", "--cost", "120");
        Assert.True(code == ExitCodes.Done, errors);
        Assert.Contains("[wrk-2]", output, StringComparison.Ordinal);
        var sent = server.Sent("POST", path).Single();
        Assert.Equal("pump", (string?)sent["components"]![0]);
        Assert.Equal("invoice", (string?)sent["known"]);
        Assert.Equal("km", (string?)sent["odometer"]!["unit"]);
        Assert.Equal("EUR", (string?)sent["cost"]!["currency"]);
    }

    [Fact]
    public async Task Add_finding_to_a_complaint_sends_reading_and_gauge()
    {
        var path = $"/v1/complaints/{Samples.ComplaintId}/findings";
        using var server = Samples.Server().Post(path, Samples.Finding);
        var (code, _, errors) = await Run(server.Address, "add", "finding", "Restarts", "--check", "system", "--reading", "4.9 bar", "--instrument", "Red", "--confirmed");
        Assert.True(code == ExitCodes.Done, errors);
        var sent = server.Sent("POST", path).Single();
        Assert.Equal("system-pressure", (string?)sent["check"]);
        Assert.Equal("ins-1", (string?)sent["instrument"]);
        Assert.True((bool)sent["confirmed"]!);
    }

    [Fact]
    public async Task Close_sends_causes_with_their_modes_and_the_proof()
    {
        var path = $"/v1/complaints/{Samples.ComplaintId}/close";
        using var server = Samples.Server().Post(path, Samples.Complaint);
        var (code, _, errors) = await Run(server.Address, "close", "Restarts", "--result", "resolved", "--causes", "regulator-seal.leaking", "--proved-by", "fin-1");
        Assert.True(code == ExitCodes.Done, errors);
        var sent = server.Sent("POST", path).Single();
        Assert.Equal("regulator-seal", (string?)sent["causes"]![0]!["component"]);
        Assert.Equal("leaking", (string?)sent["causes"]![0]!["mode"]);
        Assert.Equal("fin-1", (string?)sent["provedBy"]![0]);
    }

    [Fact]
    public async Task What_if_sends_what_is_tried_and_prints_before_and_after()
    {
        const string path = "/v1/complaints/" + Samples.ComplaintId + "/assessment/what-if";
        using var server = Samples.Server();
        var (code, output, errors) = await Run(server.Address, "what-if", "Restarts", "--check", "return", "--outcome", "fast", "--check", "system", "--outcome", "5.1", "--event", "cuts-out=absent", "--fitted", "pump", "--without", "0.8 bar");
        Assert.True(code == ExitCodes.Done, errors);
        Assert.All(["Tried: Return shut: fell fast", "First: Pressure regulator seal 38 % → Fuel accumulator 70 %", "Expected cost 210 EUR → 165 EUR", "Nothing is stored."], text => Assert.Contains(text, output, StringComparison.Ordinal));
        var sent = server.Sent("POST", path).Single();
        Assert.Equal(["return-shut/fast", "system-pressure/", "/absent"], sent["findings"]!.AsArray().Select(each => $"{each!["check"]}/{each["outcome"]}"));
        Assert.Equal(5.1, (double)sent["findings"]![1]!["reading"]!["value"]!);
        Assert.Equal(("pump", "fin-1"), ((string?)sent["work"]![0]!["components"]![0], (string?)sent["leaveOut"]![0]));
    }

    [Fact]
    public async Task Model_lists_the_systems_or_tells_one()
    {
        using var server = Samples.Server();
        var (_, heads, _) = await Run(server.Address, "model");
        var (code, study, errors) = await Run(server.Address, "model", Samples.ModelId);
        Assert.True(code == ExitCodes.Done, errors);
        Assert.Contains(Samples.ModelId, heads, StringComparison.Ordinal);
        Assert.Contains("cannot be used: /data/mine/model.json, line 4: it is wrong", heads, StringComparison.Ordinal);
        Assert.All(["Told by: Return shut 0.40 bits", "Shows as: No power 60 %", "Delivery: Fuel pump: delivers too little", "Hard to tell apart", "common practice: Practice"], text => Assert.Contains(text, study, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Settings_given_change_only_what_is_given()
    {
        using var server = Samples.Server().Put("/v1/settings", Samples.Settings);
        var (code, _, errors) = await Run(server.Address, "settings", "--labour-rate", "72.5", "--tools-at-hand", "clamp", "--all-tools", "no", "--figures", "odds");
        Assert.True(code == ExitCodes.Done, errors);
        var sent = server.Sent("PUT", "/v1/settings").Single();
        Assert.Equal(72.5m, (decimal)sent["labourRate"]!);
        Assert.Equal("EUR", (string?)sent["currency"]);
        Assert.Equal("odds", (string?)sent["figures"]);
        Assert.Equal("clamp", (string?)sent["toolsAtHand"]![0]);
    }

    [Fact]
    public async Task Void_sends_the_reason()
    {
        using var server = Samples.Server().Post("/v1/findings/fin-1/void", new { });
        var (code, _, _) = await Run(server.Address, "void", "finding", "fin-1", "--reason", "gauge was broken");
        Assert.Equal(ExitCodes.Done, code);
        Assert.Equal("gauge was broken", (string?)server.Sent("POST", "/v1/findings/fin-1/void").Single()["reason"]);
    }

    [Fact]
    public async Task Refusal_exits_1_and_lists_every_fault()
    {
        using var server = Samples.Server().Refuse("POST", "/v1/vehicles", 422, Samples.Invalid(new Fault("/name", Problems.Required, "needs a name"), new Fault("/year", Problems.Required, "needs a year")));
        var (code, _, errors) = await Run(server.Address, "add", "vehicle", "--year", "");
        Assert.Equal(ExitCodes.Refused, code);
        Assert.Contains("name: needs a name", errors, StringComparison.Ordinal);
        Assert.Contains("year: needs a year", errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nonsense")]
    [InlineData("show", "zzz")]
    [InlineData("add", "work", "Blue", "--date", "2025", "--components", "flux")]
    [InlineData("add", "finding", "Restarts", "--check", "system", "--reading", "much")]
    [InlineData("void", "vehicle", "x", "--reason", "r")]
    [InlineData("what-if", "Restarts")]
    [InlineData("what-if", "Restarts", "--check", "return")]
    [InlineData("what-if", "Restarts", "--check", "return", "--outcome", "purple")]
    [InlineData("what-if", "Restarts", "--event", "cuts")]
    public async Task Wrong_use_exits_2_and_says_why(params string[] arguments)
    {
        using var server = Samples.Server();
        var (code, _, errors) = await Run(server.Address, arguments);
        Assert.Equal(ExitCodes.Usage, code);
        Assert.NotEmpty(errors);
    }

    [Fact]
    public async Task Server_that_is_not_there_exits_3()
    {
        var (code, _, errors) = await Run(ApiCallsTests.FreeAddress(), "list");
        Assert.Equal(ExitCodes.Unreachable, code);
        Assert.Contains("nothing listens", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task No_verb_without_a_terminal_lists_in_plain_text()
    {
        using var server = Samples.Server();
        var (code, output, _) = await Run(server.Address);
        Assert.Equal(ExitCodes.Done, code);
        Assert.Contains("Blue hatch", output, StringComparison.Ordinal);
    }

    // TERM=dumb keeps the screens from opening even where the tests run on a terminal
    internal static async Task<(int Code, string Output, string Errors)> Run(Uri address, params string[] arguments) => await RunAt(TimeProvider.System, address, arguments);

    internal static async Task<(int Code, string Output, string Errors)> RunAt(TimeProvider clock, Uri address, params string[] arguments)
    {
        using StringWriter output = new(), errors = new();
        var code = await new Start(output, errors, name => name is "TERM" ? "dumb" : name is "LANG" ? "C.UTF-8" : null, clock).Run([.. arguments, "--server", address.ToString()]);
        return (code, output.ToString(), errors.ToString());
    }
}
