using System.Text.Json;
using System.Text.Json.Nodes;
using FuelHistory.Core.FaultModels;
using Json.Schema;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>What holds for every fault model: no refusal, and no warning that nobody looked at.</summary>
public class ModelReviewTests
{
    public static TheoryData<string> Models => RealModels.All;

    [Theory]
    [MemberData(nameof(Models))]
    public void Model_is_named_like_its_folder(string model) => Assert.Equal(model, RealModels.Model(model).Id);

    [Theory]
    [MemberData(nameof(Models))]
    public void Model_is_refused_nowhere(string model)
    {
        ComposedModel composed = ModelFile.Composed(model);

        Assert.Empty(FaultModelLinter.Lint(composed.Read()).Refusals.Select(r => $"{composed.PlaceOf(r.Path)}, {r.Path}: {r.Message} ({r.Rule})"));
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Warnings_are_those_of_the_reviewed_list(string model)
    {
        JsonNode reviewed = JsonNode.Parse(File.ReadAllText(RealModels.File(model, "reviewed.json")))!;
        JsonSchema schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(ModelFile.Folder, "reviewed.schema.json")));
        IEnumerable<string> listed = reviewed["warnings"]!.AsArray().Select(w => $"{w!["rule"]} {w["path"]}").Order(StringComparer.Ordinal);

        IEnumerable<string> found = FaultModelLinter.Lint(RealModels.Model(model)).Warnings.Select(n => $"{n.Rule} {n.Path}").Order(StringComparer.Ordinal);

        Assert.True(schema.Evaluate(reviewed).IsValid, "reviewed.json is not of its schema");
        Assert.True(listed.SequenceEqual(found), $"not reviewed:\n{string.Join('\n', found.Except(listed))}\nno longer found:\n{string.Join('\n', listed.Except(found))}");
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Pairs_that_checks_hardly_separate_are_those_of_the_reviewed_list(string model)
    {
        JsonNode reviewed = JsonNode.Parse(File.ReadAllText(RealModels.File(model, "reviewed.json")))!;
        IEnumerable<string> explained = (reviewed["pairs"]?.AsArray() ?? []).Select(p => $"{p!["a"]} ~ {p["b"]}").Order(StringComparer.Ordinal);

        IEnumerable<string> found = ModelStudy.Of(RealModels.Model(model)).Pairs.Select(p => $"{p.A} ~ {p.B}").Order(StringComparer.Ordinal);

        Assert.True(explained.SequenceEqual(found), $"not explained:\n{string.Join('\n', found.Except(explained))}\nno longer found:\n{string.Join('\n', explained.Except(found))}");
    }
}
