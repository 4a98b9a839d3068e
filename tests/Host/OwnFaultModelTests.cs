using System.Net;
using System.Text.Json.Nodes;
using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Host.Features.FaultModels;

namespace FuelHistory.Tests.Host;

/// <summary>Fault models of the user's own, in the folder beside the database.</summary>
public sealed class OwnFaultModelTests
{
    [Fact]
    public async Task Own_model_is_there_like_ours_and_a_vehicle_can_name_it()
    {
        using ApiHost host = new(own: Mine(_ => { }));

        Assert.Equal(["mine", "test-circuit"], (await host.Get("/v1/fault-models")).Body.EnumerateArray().Select(m => m.GetProperty("id").GetString()));
        Assert.Empty((await host.Get("/v1/refused-fault-models")).Body.EnumerateArray());
        var complaint = await host.Complaint(await host.Vehicle("mine"));
        var assessment = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body;
        Assert.Equal(("mine", "7"), (assessment.GetProperty("faultModel").GetString(), assessment.GetProperty("faultModelRevision").GetString()));
    }

    [Fact]
    public async Task Own_model_that_breaks_a_rule_is_listed_with_file_line_and_reason_and_the_host_starts()
    {
        using ApiHost host = new(own: Mine(m => m["symptoms"]![0]!["source"] = "nowhere"));

        var refused = Assert.Single((await host.Get("/v1/refused-fault-models")).Body.EnumerateArray());

        Assert.Equal("mine", refused.GetProperty("id").GetString());
        Assert.EndsWith("model.json", refused.GetProperty("file").GetString(), StringComparison.Ordinal);
        Assert.Matches("model.json, line [1-9][0-9]+, symptoms.*nowhere", refused.GetProperty("reasons")[0].GetString());
        Assert.Equal("test-circuit", Assert.Single((await host.Get("/v1/fault-models")).Body.EnumerateArray()).GetProperty("id").GetString());
        Assert.Equal("unknown", (await host.Post("/v1/vehicles", new { name = "x", year = "1981", system = "mine" })).Body.GetProperty("errors")[0].GetProperty("code").GetString());
    }

    [Theory]
    [InlineData("{ \"id\": \"mine\",\n\"schema\": 1 ", "model.json, line 2: ")]
    [InlineData("{ \"id\": \"mine\",\n\"include\": [\"boiler\"] }", "model.json, line 2: There is no shared piece \"boiler\"")]
    [InlineData("{ \"id\": \"mine\" }", "model.json, line 1, $: ")]
    public async Task Own_model_that_cannot_be_read_is_refused_with_file_and_line(string text, string reason)
    {
        using ApiHost host = new(own: text);

        var refused = Assert.Single((await host.Get("/v1/refused-fault-models")).Body.EnumerateArray());

        Assert.Contains(reason, refused.GetProperty("reasons")[0].GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Own_model_with_the_id_of_ours_is_refused()
    {
        using ApiHost host = new(own: Mine(m => m["id"] = "test-circuit"));

        var refused = Assert.Single((await host.Get("/v1/refused-fault-models")).Body.EnumerateArray());

        Assert.Contains("\"test-circuit\" already", refused.GetProperty("reasons")[0].GetString(), StringComparison.Ordinal);
        Assert.NotEqual("7", (await host.Get("/v1/fault-models")).Body[0].GetProperty("revision").GetString());
    }

    [Fact]
    public async Task Vehicle_that_names_a_refused_model_is_told_why()
    {
        using ApiHost host = new(own: Mine(m => m["symptoms"]![0]!["source"] = "nowhere"));
        var vehicle = await Named(host, "mine");

        var answer = await host.Get($"/v1/vehicles/{vehicle}/record");

        Assert.Equal((HttpStatusCode.ServiceUnavailable, Problems.FaultModelUnusable), (answer.Status, answer.Code));
        Assert.Matches("\"mine\".*line [0-9]+.*nowhere.*start the host again", answer.Body.GetProperty("detail").GetString());
        Assert.Equal(HttpStatusCode.OK, (await host.Get($"/v1/vehicles/{vehicle}")).Status);
    }

    [Fact]
    public async Task Assessment_of_what_was_known_then_says_which_revision_it_used()
    {
        using ApiHost host = new();
        var complaint = await host.Complaint(await host.Vehicle());
        var known = Uri.EscapeDataString(host.Clock.GetUtcNow().ToString("o"));

        var assessment = (await host.Get($"/v1/complaints/{complaint}/assessment?knownAt={known}")).Body;

        Assert.Contains(assessment.GetProperty("notes").EnumerateArray(), n => n.GetString()!.Contains($"revision {assessment.GetProperty("faultModelRevision").GetString()}", StringComparison.Ordinal));
    }

    [Fact]
    public void Lint_tells_refusals_with_file_and_line_and_of_a_good_model_what_is_doubtful()
    {
        var folder = Directory.CreateTempSubdirectory("fuelhistory-test-").FullName;
        try
        {
            Assert.Equal(2, Lint("--lint").Code);
            Assert.Equal(2, Lint("--lint", folder).Code);
            File.WriteAllText(Path.Combine(folder, "model.json"), Mine(m => m["symptoms"]![0]!["source"] = "nowhere"));
            var (code, output) = Lint("--lint", folder);
            Assert.Equal(1, code);
            Assert.Matches("refused\\s+.*model.json, line [1-9][0-9]+, symptoms.*nowhere", output);
            File.WriteAllText(Path.Combine(folder, "model.json"), Mine(_ => { }));
            (code, output) = Lint("--lint", folder);
            Assert.Equal(0, code);
            Assert.Contains("mine revision 7 can be used", output, StringComparison.Ordinal);
            Assert.Contains("believable is", output, StringComparison.Ordinal); // a small model for tests is no believable car
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        static (int Code, string Output) Lint(params string[] args)
        {
            StringWriter output = new();
            return (ModelLint.Run(args, ApiHost.TestModels, output, new DateOnly(2026, 6, 1)), output.ToString());
        }
    }

    /// <summary>A request about a vehicle whose model is gone.</summary>
    internal static async Task<Answer> RefusedLater(ApiHost host) => await host.Get($"/v1/vehicles/{await Named(host, "gone")}/record");

    /// <summary>As if the model had been good when the vehicle was entered.</summary>
    private static async Task<string> Named(ApiHost host, string system)
    {
        var vehicle = await host.Vehicle();
        using var raw = host.Raw();
        raw.Execute("DROP TRIGGER vehicle_kept_update");
        raw.Execute("UPDATE vehicle SET system = @system", new { system });
        return vehicle;
    }

    private static string Mine(Action<JsonNode> change)
    {
        var model = JsonNode.Parse(File.ReadAllText(Path.Combine(ApiHost.TestModels, "test", "model.json")))!;
        (model["id"], model["revision"]) = ("mine", "7");
        change(model);
        return model.ToJsonString(new() { WriteIndented = true });
    }
}
