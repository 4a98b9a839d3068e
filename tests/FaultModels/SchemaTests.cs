using System.Text.Json;
using System.Text.Json.Nodes;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.FaultModels;
using Json.Schema;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

public class SchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(ModelFile.Folder, "fault-model.schema.json")));

    private static readonly JsonSchema PieceSchema = JsonSchema.FromText(File.ReadAllText(Path.Combine(ModelFile.Folder, "fault-piece.schema.json")));

    public static TheoryData<string> Files => [.. Directory.GetFiles(ModelFile.Folder, "model.json", SearchOption.AllDirectories).Concat(PieceFiles.In(ModelFile.Folder)).Select(p => Path.GetRelativePath(ModelFile.Folder, p))];

    [Theory]
    [MemberData(nameof(Files))]
    public void File_as_written_fits_its_schema(string file)
    {
        JsonNode json = JsonNode.Parse(File.ReadAllText(Path.Combine(ModelFile.Folder, file)))!;

        Fits(Path.GetFileName(file) == "model.json" ? Schema : PieceSchema, json);
    }

    [Fact]
    public void Model_with_its_pieces_in_it_fits_schema() => Fits(Schema, ModelFile.Json());

    private static void Fits(JsonSchema schema, JsonNode json)
    {
        var options = new EvaluationOptions { OutputFormat = OutputFormat.List };
        options.SchemaRegistry.Register(Schema); // pieces refer to it
        EvaluationResults results = schema.Evaluate(json, options);

        Assert.True(results.IsValid, string.Join("\n", results.Details.Where(d => d.HasErrors).Select(d => $"{d.InstanceLocation}: {string.Join("; ", d.Errors!.Values)}")));
    }

    [Theory]
    [InlineData("components/0/modes/0/unnoticed", "1.5")]
    [InlineData("components/0/work/0/action", "\"polish\"")]
    [InlineData("conditions/0/min", "-4")]
    [InlineData("conditions/0/effects/0/adds", "{ \"-9\": 0.1 }")]
    [InlineData("cells/0/ask", "\" \"")]
    [InlineData("checks/0/hazard", "\"terrible\"")]
    [InlineData("checks/0/cautions", "[]")]
    [InlineData("checks/0/limits/unit", "\"psi\"")]
    [InlineData("sources/cp/kind", "\"hearsay\"")]
    public void Broken_value_refused_by_schema(string pointer, string value)
    {
        JsonObject json = ModelFile.Json();
        ModelFile.Set(json, pointer, JsonNode.Parse(value));

        Assert.False(Schema.Evaluate(json).IsValid);
    }

    /// <summary>Additional members are refused at every object that the schema describes with a record of its own.</summary>
    [Theory]
    [InlineData("")]
    [InlineData("badWhenFitted")]
    [InlineData("told")]
    [InlineData("advice")]
    [InlineData("use")]
    [InlineData("elsewhere")]
    [InlineData("tools/0")]
    [InlineData("incidents/0")]
    [InlineData("components/0")]
    [InlineData("components/pump/badWhenFitted")]
    [InlineData("components/0/modes/0")]
    [InlineData("components/0/modes/0/life")]
    [InlineData("components/0/work/0")]
    [InlineData("conditions/0")]
    [InlineData("conditions/0/effects/0")]
    [InlineData("cells/0")]
    [InlineData("cells/0/causes/0")]
    [InlineData("checks/0")]
    [InlineData("checks/0/limits")]
    [InlineData("checks/0/bands")]
    [InlineData("checks/fuse-look/outcomes/0")]
    [InlineData("checks/fuse-look/table/0")]
    public void Unknown_member_refused_by_schema_and_reader(string pointer)
    {
        JsonObject json = ModelFile.Json();
        ModelFile.Set(json, $"{pointer}/surprise".TrimStart('/'), 1);

        Assert.False(Schema.Evaluate(json).IsValid);
        Assert.Throws<FaultModelException>(() => FaultModelReader.Read(json.ToJsonString()));
    }

    [Fact]
    public void Schema_and_records_name_the_same_members()
    {
        JsonElement schema = JsonDocument.Parse(File.ReadAllText(Path.Combine(ModelFile.Folder, "fault-model.schema.json"))).RootElement;
        (string Schema, Type Record)[] pairs =
        [
            ("source", typeof(Source)), ("fittedQuality", typeof(FittedQuality)), ("fittedOverride", typeof(FittedQualityOverride)), ("told", typeof(ToldWeights)),
            ("advice", typeof(AdviceFigures)), ("use", typeof(TypicalUse)), ("elsewhere", typeof(Elsewhere)), ("component", typeof(Component)), ("modeOfBad", typeof(Mode)),
            ("work", typeof(WorkFigures)), ("condition", typeof(Condition)), ("effect", typeof(Effect)), ("cell", typeof(EventCell)), ("causeOf", typeof(Cause)),
            ("event", typeof(Event)), ("facets", typeof(Facets)),
            ("limits", typeof(Limits)), ("point", typeof(LimitPoint)), ("bands", typeof(Bands)), ("covariate", typeof(Covariate)), ("tableRow", typeof(OutcomeRow)), ("byLevel", typeof(OutcomeByLevel)),
        ];
        foreach ((string name, Type record) in pairs)
        {
            Assert.Equal(Members(record), Described(schema.GetProperty("$defs").GetProperty(name)));
        }

        Assert.Equal(Members(typeof(FaultModel)), Described(schema));
        Assert.Equal(Members(typeof(Check)).Where(m => m != "kind"), Described(schema.GetProperty("$defs").GetProperty("check")));
        Assert.Equal(Members(typeof(Trial)).Where(m => m != "kind"), Described(schema.GetProperty("$defs").GetProperty("trial")));
    }

    private static IEnumerable<string> Members(Type record) =>
        record.GetProperties().Select(p => JsonNamingPolicy.CamelCase.ConvertName(p.Name)).Order(StringComparer.Ordinal);

    private static IEnumerable<string> Described(JsonElement schema) =>
        schema.GetProperty("properties").EnumerateObject().Select(p => p.Name).Except(["include", "leaveOut", "judged", "extends"]).Order(StringComparer.Ordinal);
}
