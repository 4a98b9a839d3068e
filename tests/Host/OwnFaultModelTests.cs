using System.Net;
using System.Text.Json.Nodes;
using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Host.Features.FaultModels;
using Microsoft.Extensions.Logging;

namespace FuelHistory.Tests.Host;

/// <summary>Fault models of the user's own, in the folder beside the database.</summary>
public sealed class OwnFaultModelTests
{
    [Fact]
    public async Task Own_model_is_there_like_ours_and_a_vehicle_can_name_it()
    {
        using ApiHost host = new(own: Mine(_ => { }));

        Assert.Equal(["mine", "test-circuit"], (await host.Get("/v1/fault-models")).Body.EnumerateArray().Select(m => m.GetProperty("id").GetString()));
        Assert.Equal([true, false], (await host.Get("/v1/fault-models")).Body.EnumerateArray().Select(m => m.GetProperty("own").GetBoolean()));
        Assert.Empty((await host.Get("/v1/refused-fault-models")).Body.EnumerateArray());
        var complaint = await host.Complaint(await host.Vehicle("mine"));
        var assessment = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body;
        Assert.Equal(("mine", "7"), (assessment.GetProperty("faultModel").GetString(), assessment.GetProperty("faultModelRevision").GetString()));
    }

    [Fact]
    public async Task Own_model_that_breaks_a_rule_is_listed_with_file_line_and_reason_and_the_host_starts()
    {
        using ApiHost host = new(own: Mine(m => m["cells"]![0]!["source"] = "nowhere"));

        var refused = Assert.Single((await host.Get("/v1/refused-fault-models")).Body.EnumerateArray());

        Assert.Equal("mine", refused.GetProperty("id").GetString());
        Assert.EndsWith("model.json", refused.GetProperty("file").GetString(), StringComparison.Ordinal);
        Assert.Matches("model.json, line [1-9][0-9]+, cells.*nowhere", refused.GetProperty("reasons")[0].GetString());
        Assert.Equal("test-circuit", Assert.Single((await host.Get("/v1/fault-models")).Body.EnumerateArray()).GetProperty("id").GetString());
        Assert.Equal("unknown", (await host.Post("/v1/vehicles", new { name = "x", year = "1981", system = "mine" })).Body.GetProperty("errors")[0].GetProperty("code").GetString());
        Assert.Equal("ready", (await host.Get("/readyz")).Member("status"));
    }

    [Fact]
    public void Log_says_once_which_file_is_refused_and_why()
    {
        var folder = Directory.CreateTempSubdirectory("fuelhistory-test-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "model.json"), Mine(m => m["cells"]![0]!["source"] = "nowhere"));
            Said log = new();

            RefusedModels.Log(new FaultModelFolder(ApiHost.TestModels, folder), log);

            Assert.Matches("model.json is not used: .*line [1-9][0-9]+, cells.*nowhere", Assert.Single(log.Lines));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Theory]
    [InlineData("""{ "pairs": [{ "a": "pump.weak", "b": "filter.clogged", "why": "Both starve it." }] }""", 1, 0)]
    [InlineData("""{ "pairs": [{ "a": "pump.weak" }] }""", 0, 1)]
    [InlineData("nothing", 0, 1)]
    public void Remarks_beside_an_own_model_are_read_and_never_cost_the_model(string remarks, int reasons, int refused)
    {
        var folder = Directory.CreateTempSubdirectory("fuelhistory-test-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "model.json"), Mine(_ => { }));
            File.WriteAllText(Path.Combine(folder, "reviewed.json"), remarks);

            FaultModelFolder models = new(ApiHost.TestModels, folder);

            Assert.Equal(reasons, models.FindLoaded("mine")!.PairReasons.Count);
            Assert.Equal(refused, models.Refused.Count);
            Assert.All(models.Refused, r => Assert.EndsWith("reviewed.json", r.File, StringComparison.Ordinal));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
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

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Own_model_of_before_events_is_refused_and_told_what_to_rename(bool elsewhere)
    {
        using ApiHost host = new(own: Mine(m =>
        {
            var holder = elsewhere ? m["elsewhere"]! : m;
            var cells = holder["cells"]!.DeepClone();
            holder.AsObject().Remove("cells");
            holder["symptoms"] = cells;
        }));

        var refused = Assert.Single((await host.Get("/v1/refused-fault-models")).Body.EnumerateArray());

        Assert.Equal("mine", refused.GetProperty("id").GetString());
        Assert.Matches("model.json, line [1-9][0-9]*: \"symptoms\" is called \"cells\" now. Rename it", refused.GetProperty("reasons")[0].GetString());
    }

    [Fact]
    public async Task Own_model_with_the_id_of_ours_is_refused()
    {
        using ApiHost host = new(own: Mine(m => m["id"] = "test-circuit"));

        var refused = Assert.Single((await host.Get("/v1/refused-fault-models")).Body.EnumerateArray());

        Assert.Contains("\"test-circuit\" already", refused.GetProperty("reasons")[0].GetString(), StringComparison.Ordinal);
        Assert.NotEqual("7", (await host.Get("/v1/fault-models")).Body[0].GetProperty("revision").GetString());
    }

    /// <summary>The commonest need: ours, with a figure of one's own.</summary>
    [Fact]
    public async Task Own_model_on_a_whole_one_of_ours_is_assessed_and_has_its_published_limits()
    {
        using ApiHost host = new(realModels: true, own: """
            { "schema": "fuelhistory/fault-model/1", "id": "continuous-mechanical-mine", "title": "Continuous, with my pump", "revision": "1", "about": "A pump that lasts.",
              "include": ["continuous-mechanical"], "sources": { "mine": { "kind": "memory", "cite": "My own log of three cars" } },
              "components": [{ "extends": "pump", "modes": [{ "extends": "worn", "life": { "years": 60, "shape": 2 }, "source": "mine" }] }] }
            """);
        var vehicle = await host.Vehicle("continuous-mechanical-mine");
        var complaint = (await host.Post($"/v1/vehicles/{vehicle}/complaints", new { title = "Cranks", since = "2026-05", events = new[] { new { @event = "no-start", answer = "present" } } })).Id;

        Assert.Empty((await host.Get("/v1/refused-fault-models")).Body.EnumerateArray());
        var assessment = (await host.Get($"/v1/complaints/{complaint}/assessment")).Body;
        Assert.Equal(("continuous-mechanical-mine", "answered"), (assessment.GetProperty("faultModel").GetString(), assessment.GetProperty("outcome").GetString()));
        var limit = (await host.Get($"/v1/limits-library?vehicleId={vehicle}&check=system-pressure")).Body[0].GetProperty("id").GetString();
        Assert.Equal(HttpStatusCode.Created, (await host.Post($"/v1/vehicles/{vehicle}/limits/adopt", new { libraryId = limit, check = "system-pressure" })).Status);
    }

    [Fact]
    public async Task Vehicle_that_names_a_refused_model_is_told_why()
    {
        using ApiHost host = new(own: Mine(m => m["cells"]![0]!["source"] = "nowhere"));
        var vehicle = await Named(host, "mine");

        var answer = await host.Get($"/v1/vehicles/{vehicle}/record");

        Assert.Equal((HttpStatusCode.ServiceUnavailable, Problems.FaultModelUnusable), (answer.Status, answer.Code));
        Assert.Matches("\"mine\".*line [0-9]+.*nowhere.*start the host again", answer.Body.GetProperty("detail").GetString());
        Assert.Equal(HttpStatusCode.OK, (await host.Get($"/v1/vehicles/{vehicle}")).Status);
    }

    [Fact]
    public void Lint_tells_refusals_with_file_and_line_and_of_a_good_model_what_is_doubtful()
    {
        var folder = Directory.CreateTempSubdirectory("fuelhistory-test-").FullName;
        try
        {
            Assert.Equal(2, Lint("--lint").Code);
            Assert.Equal(2, Lint("--lint", folder).Code);
            File.WriteAllText(Path.Combine(folder, "model.json"), Mine(m => m["cells"]![0]!["source"] = "nowhere"));
            var (code, output) = Lint("--lint", folder);
            Assert.Equal(1, code);
            Assert.Matches("refused\\s+.*model.json, line [1-9][0-9]+, cells.*nowhere", output);
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

    private sealed class Said : ILogger
    {
        public List<string> Lines { get; } = [];

        public IDisposable? BeginScope<TState>(TState state) where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) => Lines.Add(formatter(state, exception));
    }

    internal static string Mine(Action<JsonNode> change)
    {
        var model = JsonNode.Parse(File.ReadAllText(Path.Combine(ApiHost.TestModels, "test", "model.json")))!;
        (model["id"], model["revision"]) = ("mine", "7");
        change(model);
        return model.ToJsonString(new() { WriteIndented = true });
    }
}
