using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

public class ComposerTests
{
    private const string Pump = """
        { "schema": "fuelhistory/fault-piece/1", "id": "pump", "about": "x",
          "sources": { "a": { "kind": "memory", "cite": "x" } },
          "tools": [{ "id": "jar", "title": "jar" }, { "id": "key", "title": "key" }],
          "incidents": [{ "id": "ran-dry", "title": "ran dry" }],
          "components": [
            { "id": "valve", "title": "valve", "modes": [{ "id": "leaks", "causedBy": ["pump.worn"] }] },
            { "id": "pump", "title": "pump", "includes": ["valve"], "modes": [{ "id": "worn", "incidents": { "ran-dry": 2 } }, { "id": "dead" }] }],
          "conditions": [{ "id": "flow", "min": -2, "background": { "-1": 0.1 }, "effects": [{ "of": "pump.worn", "adds": { "-1": 0.5 } }, { "of": "pump.dead", "adds": { "-2": 0.9 } }] }],
          "when": [{ "id": "hot", "title": "hot" }],
          "events": [{ "id": "no-sound", "formerly": { "silent": {} } }],
          "cells": [{ "id": "silent", "event": "no-sound", "when": "hot", "causes": [{ "of": "flow" }, { "of": "pump.dead" }] }],
          "checks": [
            { "id": "look", "tools": ["jar"], "detects": [{ "of": "pump.worn", "p": 0.5 }] },
            { "id": "jar-fill", "tools": ["jar", "key"], "measures": "flow" },
            { "id": "listen", "tools": [], "cautions": ["a"], "table": [{ "of": "pump.dead", "p": { "x": 1 } }, { "of": "flow", "at": {} }] },
            { "id": "leak", "watches": ["flow", "other"], "store": "flow", "tools": [] }],
          "trials": [{ "id": "tap", "component": "pump", "moves": ["valve"], "tools": ["key"] }, { "id": "feed", "right": ["flow"], "tools": [] }] }
        """;

    [Fact]
    public void Compose_pieces_come_before_the_models_own()
    {
        var whole = Whole("""{ "include": ["pump"], "id": "m", "components": [{ "id": "filter" }] }""");

        Assert.Equal(["valve", "pump", "filter"], whole["components"]!.AsArray().Select(c => c!["id"]!.GetValue<string>()));
        Assert.Equal("m", whole["id"]!.GetValue<string>());
        Assert.False(whole.AsObject().ContainsKey("include") || whole.AsObject().ContainsKey("about"));
    }

    [Fact]
    public void Extends_lists_grow_and_figures_are_given_anew()
    {
        var whole = Whole("""
            { "include": ["pump"],
              "components": [{ "extends": "pump", "title": "in the tank", "includes": ["valve"],
                "modes": [{ "id": "noisy" }, { "extends": "worn", "causedBy": ["valve.leaks"], "incidents": { "back-fire": 3 } }] }],
              "conditions": [{ "extends": "flow", "min": -1, "background": { "-2": 0.2 }, "effects": [{ "extends": "pump.worn", "adds": { "-2": 0.7 } }, { "of": "filter.clogged" }] }],
              "checks": [{ "extends": "listen", "cautions": ["a", "b"], "hazard": "low", "edges": [1, 2] }, { "extends": "jar-fill", "edges": [1, 2] }] }
            """);

        Assert.Equal("""{"id":"pump","title":"in the tank","includes":["valve"],"modes":[{"id":"worn","incidents":{"ran-dry":2,"back-fire":3},"causedBy":["valve.leaks"]},{"id":"dead"},{"id":"noisy"}]}""",
            whole["components"]![1]!.ToJsonString());
        Assert.Equal("""{"id":"flow","min":-1,"background":{"-1":0.1,"-2":0.2},"effects":[{"of":"pump.worn","adds":{"-2":0.7}},{"of":"pump.dead","adds":{"-2":0.9}},{"of":"filter.clogged"}]}""",
            whole["conditions"]![0]!.ToJsonString());
        Assert.Equal("""["a","b"]""", whole["checks"]![2]!["cautions"]!.ToJsonString());
        Assert.Equal("[1,2]", whole["checks"]![1]!["edges"]!.ToJsonString());
    }

    [Theory]
    [InlineData("component:pump", "pump")]
    [InlineData("mode:pump.worn", "pump.worn")]
    [InlineData("condition:flow", "\"flow\"")]
    [InlineData("cell:silent", "silent")]
    [InlineData("cell:silent", "no-sound")]
    [InlineData("event:no-sound", "silent")]
    [InlineData("component:pump", "tap")]
    [InlineData("component:valve", "\"moves\":[\"valve\"]")]
    [InlineData("condition:flow", "\"feed\"")]
    [InlineData("trial:tap", "tap")]
    [InlineData("check:listen", "listen")]
    [InlineData("tool:key", "key")]
    [InlineData("incident:ran-dry", "ran-dry")]
    public void Left_out_entry_goes_with_all_that_refers_to_it(string what, string trace)
    {
        var whole = Whole($$"""{ "include": ["pump"], "leaveOut": ["{{what}}"] }""");

        Assert.DoesNotContain(trace, whole.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Left_out_mode_takes_along_the_check_that_saw_nothing_else()
    {
        var whole = Whole("""{ "include": ["pump"], "leaveOut": ["mode:pump.worn"] }""");

        Assert.Equal(["jar-fill", "listen", "leak"], whole["checks"]!.AsArray().Select(c => c!["id"]!.GetValue<string>()));
        Assert.Equal("flow", whole["conditions"]![0]!["id"]!.GetValue<string>());
    }

    [Fact]
    public void Left_out_entry_may_be_written_anew() =>
        Assert.Equal(1, Whole("""{ "include": ["pump"], "leaveOut": ["check:listen"], "checks": [{ "id": "listen" }] }""")["checks"]!.AsArray().Count(c => c!["id"]!.GetValue<string>() == "listen"));

    [Fact]
    public void Same_words_in_two_files_count_once()
    {
        var whole = Whole("""{ "include": ["pump"], "sources": { "a": { "kind": "memory", "cite": "x" }, "b": {} }, "tools": [{ "id": "jar", "title": "jar" }, { "id": "lamp", "title": "lamp" }] }""");

        Assert.Equal(["a", "b"], whole["sources"]!.AsObject().Select(s => s.Key));
        Assert.Equal(3, whole["tools"]!.AsArray().Count);
    }

    [Fact]
    public void Whole_model_under_another_gives_everything_but_its_name()
    {
        var pieces = new Dictionary<string, ModelText>
        {
            ["pump"] = new("pump.json", Pump),
            ["base"] = new("base.json", """{ "schema": "fuelhistory/fault-model/1", "id": "base", "title": "b", "revision": "3", "about": "b", "include": ["pump"], "use": { "kmPerYear": 1 }, "told": { "told": 0.5 } }"""),
        };

        ComposedModel composed = FaultModelComposer.Compose(new("m.json", """{ "id": "m", "include": ["base"], "told": { "told": 0.9 }, "components": [{ "extends": "pump", "title": "mine" }] }"""), pieces);
        var whole = System.Text.Json.Nodes.JsonNode.Parse(composed.Json)!;

        Assert.Equal(("m", "base"), (composed.Id, composed.BaseId));
        Assert.Equal((1.0, 0.9), (whole["use"]!["kmPerYear"]!.GetValue<double>(), whole["told"]!["told"]!.GetValue<double>()));
        Assert.Equal("mine", whole["components"]![1]!["title"]!.GetValue<string>());
        Assert.Null(whole["revision"]);
        Assert.Null(whole["title"]);
    }

    [Theory]
    [InlineData("\"base\", \"base\"")]
    [InlineData("\"second\"")]
    public void Two_models_under_one_or_one_under_another_base_are_refused(string includes)
    {
        const string Head = "{ \"schema\": \"fuelhistory/fault-model/1\", \"id\": ";
        var pieces = new Dictionary<string, ModelText> { ["base"] = new("base.json", Head + "\"base\" }"), ["second"] = new("second.json", Head + "\"second\",\n\"include\": [\"base\"] }") };

        string refused = Assert.Throws<FaultModelException>(() => FaultModelComposer.Compose(new("m.json", "{ \"id\": \"m\",\n\"include\": [" + includes + "] }"), pieces)).Message;

        Assert.Matches("(m|second).json, line 2: \"base\" is a whole fault model", refused);
    }

    [Theory]
    [InlineData("include", "\n\"include\": [\"pmup\"] }", "m.json, line 2: There is no shared piece \"pmup\"; there are: pump")]
    [InlineData("include kind", "\n\n\"include\": \"pump\" }", "m.json, line 3: \"include\" must be a list")]
    [InlineData("source", "\"include\": [\"pump\"],\n\"sources\": {\n\"a\": { \"kind\": \"memory\", \"cite\": \"y\" } } }", "m.json, line 3: The source \"a\" says something else in pump.json, line 2")]
    [InlineData("twice", "\"include\": [\"pump\"],\n\"checks\": [\n{ \"id\": \"listen\" }] }", "m.json, line 3: checks has \"listen\" already, from pump.json, line 15")]
    [InlineData("tool", "\"include\": [\"pump\"],\n\"tools\": [{ \"id\": \"jar\", \"title\": \"big jar\" }] }", "m.json, line 2: tools has \"jar\" already")]
    [InlineData("extends", "\"include\": [\"pump\"],\n\"checks\": [{ \"extends\": \"lisen\" }] }", "m.json, line 2: extends \"lisen\", but no file before this one has it in checks")]
    [InlineData("both", "\"include\": [\"pump\"],\n\"checks\": [{ \"extends\": \"listen\", \"id\": \"x\" }] }", "m.json, line 2: \"x\" and \"extends\" in one entry")]
    [InlineData("left out", "\"include\": [\"pump\"],\n\"leaveOut\": [\"check:x\"] }", "m.json, line 2: \"check:x\" is left out, but no included piece has it")]
    [InlineData("left out kind", "\"include\": [\"pump\"],\n\"leaveOut\": [\"thing:x\"] }", "m.json, line 2: \"thing:x\" cannot be left out")]
    [InlineData("double", "\"id\": \"a\",\n\"id\": \"b\" }", "m.json, line 2: The member \"id\" stands twice")]
    [InlineData("not JSON", "\"id\": \"a\",\n\n\"b\" }", "m.json, line 3: ")]
    public void Text_that_cannot_be_joined_refused_with_file_and_line(string what, string model, string message)
    {
        string refused = Assert.Throws<FaultModelException>(() => Compose("{ " + model)).Message;

        Assert.True(refused.StartsWith(message, StringComparison.Ordinal), $"{what}: {refused}");
    }

    [Theory]
    [InlineData("fault-piece/1", "fault-piece/2", "pump.json, line 1: A shared piece begins with")]
    [InlineData("\"tools\"", "\"toolz\"", "pump.json, line 3: A shared piece has no member \"toolz\"")]
    public void Piece_of_another_form_refused_with_file_and_line(string from, string to, string message)
    {
        var pieces = new Dictionary<string, ModelText> { ["pump"] = new("pump.json", Pump.Replace(from, to, StringComparison.Ordinal)) };

        string refused = Assert.Throws<FaultModelException>(() => FaultModelComposer.Compose(new("m.json", """{ "include": ["pump"] }"""), pieces)).Message;

        Assert.StartsWith(message, refused, StringComparison.Ordinal);
    }

    /// <summary>What is wrong in a piece is told with the piece's file and line, by reader and linter alike.</summary>
    [Fact]
    public void Fault_in_a_piece_is_placed_in_the_piece()
    {
        ModelText filter = ModelFile.Pieces["filter"];
        Dictionary<string, ModelText> pieces = new(ModelFile.Pieces) { ["filter"] = filter with { Json = filter.Json.Replace("\"title\": \"restricts the flow\"", "\"titel\": \"restricts\"", StringComparison.Ordinal) } };
        ModelText model = ModelFile.Read(Path.Combine(ModelFile.Folder, "continuous-mechanical", "model.json"));
        int line = filter.Json[..filter.Json.IndexOf("restricts the flow", StringComparison.Ordinal)].Count(c => c == '\n') + 1;

        string refused = Assert.Throws<FaultModelException>(() => FaultModelComposer.Compose(model, pieces).Read()).Message;
        Place place = FaultModelComposer.Compose(model, ModelFile.Pieces).PlaceOf("components[filter].modes[clogged].unnoticed");

        Assert.StartsWith($"{filter.Name}, line {line}", refused, StringComparison.Ordinal);
        Assert.Equal(new Place(filter.Name, line + 1), place);
    }

    [Theory]
    [InlineData("conditions[mixture-cold].effects[control-cold]", "{ \"of\": \"control-cold\", \"at\": { \"-2\": { \"1\": 0.2")]
    [InlineData("checks[return-shut].limits", "")]
    public void Place_of_a_note_is_the_line_it_was_written_on(string note, string text)
    {
        ModelText model = ModelFile.Read(Path.Combine(ModelFile.Folder, "continuous-mechanical", "model.json"));
        Place place = FaultModelComposer.Compose(model, ModelFile.Pieces).PlaceOf(note);

        Assert.Equal(model.Name, place.File);
        Assert.Contains(text, model.Json.Split('\n')[place.Line - 1], StringComparison.Ordinal);
    }

    [Fact]
    public void Shared_piece_is_included_by_a_model()
    {
        IEnumerable<string> models = Directory.GetFiles(ModelFile.Folder, "model.json", SearchOption.AllDirectories).Select(File.ReadAllText);
        Assert.All(ModelFile.Pieces.Keys, piece => Assert.Contains(models, m => m.Contains($"\"{piece}\"", StringComparison.Ordinal)));
    }

    private static System.Text.Json.Nodes.JsonNode Whole(string model) => System.Text.Json.Nodes.JsonNode.Parse(Compose(model).Json)!;

    private static ComposedModel Compose(string model) =>
        FaultModelComposer.Compose(new("m.json", model), new Dictionary<string, ModelText> { ["pump"] = new("pump.json", Pump) });
}
