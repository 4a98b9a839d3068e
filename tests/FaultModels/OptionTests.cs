using System.Text.Json.Nodes;
using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>Fitted options and stop notes in the file form: joined, left out, derived.</summary>
public class OptionTests
{
    private const string Piece = """
        { "schema": "fuelhistory/fault-piece/1", "id": "pump", "about": "x",
          "components": [{ "id": "pump", "modes": [{ "id": "leaks" }, { "id": "worn" }] }, { "id": "lifter", "modes": [{ "id": "dead" }] }],
          "cells": [{ "id": "smell" }], "checks": [{ "id": "look", "needs": ["lifter"] }],
          "options": [{ "id": "kind", "choices": [{ "id": "one", "absent": ["lifter"] }, { "id": "two" }] }],
          "stopNotes": [{ "id": "leak", "when": [{ "event": "smell" }], "endedBy": [{ "work": "pump" }, { "work": "lifter" }] }] }
        """;

    [Fact]
    public void Extends_adds_a_choice_a_part_and_a_sign()
    {
        var whole = Whole("""
            { "include": ["pump"],
              "options": [{ "extends": "kind", "choices": [{ "extends": "two", "absent": ["pump"] }, { "id": "three" }] }],
              "stopNotes": [{ "extends": "leak", "when": [{ "part": "pump.leaks" }] }] }
            """);

        Assert.Equal("""[{"id":"one","absent":["lifter"]},{"id":"two","absent":["pump"]},{"id":"three"}]""", whole["options"]![0]!["choices"]!.ToJsonString());
        Assert.Equal("""[{"event":"smell"},{"part":"pump.leaks"}]""", whole["stopNotes"]![0]!["when"]!.ToJsonString());
    }

    [Fact]
    public void Left_out_component_goes_from_options_needs_and_signs()
    {
        var whole = Whole("""{ "include": ["pump"], "leaveOut": ["component:lifter"] }""");

        Assert.DoesNotContain("lifter", whole.ToJsonString(), StringComparison.Ordinal);
        Assert.Equal("""{"id":"look"}""", whole["checks"]![0]!.ToJsonString());
    }

    [Theory]
    [InlineData("cell:smell")]
    [InlineData("stop-note:leak")]
    public void Left_out_sign_takes_along_the_note_that_nothing_else_brings_up(string what) =>
        Assert.Empty(Whole($$"""{ "include": ["pump"], "leaveOut": ["{{what}}"] }""")["stopNotes"]!.AsArray());

    [Fact]
    public void Left_out_option_is_gone() =>
        Assert.Empty(Whole("""{ "include": ["pump"], "leaveOut": ["option:kind"] }""")["options"]!.AsArray());

    [Theory]
    [MemberData(nameof(Systems))]
    public void Choice_never_leaves_a_check_that_looks_at_missing_parts_alone(string system)
    {
        FaultModel model = ModelFile.Composed(system).Read();

        Assert.NotEmpty(model.Options);
        foreach (var (option, choice) in model.Options.SelectMany(o => o.Choices.Select(c => (o, c))).Where(c => c.c.Absent.Count > 0))
        {
            IReadOnlySet<string> absent = FittedOptions.Absent(model, new Dictionary<string, string> { [option.Id] = choice.Id });
            IReadOnlySet<string> senseless = FittedChecks.Senseless(model, absent);

            Assert.Equal(choice.Absent.Order(StringComparer.Ordinal), absent.Order(StringComparer.Ordinal));
            Assert.All(model.Checks.Where(c => c.Detects is { } d && d.All(cause => absent.Contains(cause.Of.Split('.')[0]))), c => Assert.Contains(c.Id, senseless));
            Assert.InRange(senseless.Count, 0, model.Checks.Count / 3);
        }
    }

    internal static IReadOnlyList<string> Ids { get; } = [.. Directory.GetDirectories(ModelFile.Folder).Select(f => Path.GetFileName(f)!).Where(f => f != "shared")];

    public static TheoryData<string> Systems => new(Ids);

    private static JsonNode Whole(string model) =>
        JsonNode.Parse(FaultModelComposer.Compose(new ModelText("m.json", model), new Dictionary<string, ModelText> { ["pump"] = new("pump.json", Piece) }).Json)!;
}
