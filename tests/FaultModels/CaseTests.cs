using System.Text.Json.Nodes;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;
using Json.Schema;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>The cases.json of every model. What does not come out stands in the file as a known miss with the reason.</summary>
public class CaseTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(ModelFile.Folder, "cases.schema.json")));

    /// <summary>Share explained from which one of the first three counts as a suspect.</summary>
    private const double Suspect = 0.1;

    public static TheoryData<string> Models => RealModels.All;

    public static IEnumerable<object[]> Cases => RealModels.Ids.SelectMany(m => RealModels.Cases(m).Cases.Select(c => new object[] { m, c.Id }));

    [Theory]
    [MemberData(nameof(Models))]
    public void File_of_cases_fits_its_schema_and_names_what_the_model_has(string model)
    {
        FaultModel known = RealModels.Model(model);
        HashSet<string> ids = [.. known.Components.Select(c => c.Id), .. known.Checks.Select(c => c.Id), .. known.Cells.Select(s => s.Id), .. known.Events.Select(e => e.Id), .. known.Trials.Select(t => t.Id), .. known.Trials.SelectMany(t => t.Formerly.Keys)];
        CaseFile file = RealModels.Cases(model);

        Assert.True(Schema.Evaluate(JsonNode.Parse(File.ReadAllText(RealModels.File(model, "cases.json")))).IsValid, "cases.json is not of its schema");
        Assert.Equal(file.Cases.Count, file.Cases.Select(c => c.Id).Distinct().Count());
        Assert.Empty(file.Cases.SelectMany(Named).Except(ids));
        Assert.Empty(file.Cases.Select(c => c.Source).Except(known.Sources.Keys));
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Case_comes_out_or_is_a_known_miss(string model, string id)
    {
        HandCase hand = RealModels.Cases(model).Cases.Single(c => c.Id == id);

        string[] misses = [.. Misses(hand, RealModels.Compiled(model))];

        Assert.True(hand.KnownMiss is null || misses.Length > 0, $"{id} comes out now: take its knownMiss away.");
        Assert.True(hand.KnownMiss is not null || misses.Length == 0, $"{id}: {string.Join("; ", misses)}");
    }

    private static IEnumerable<string> Misses(HandCase hand, CompiledModel model)
    {
        AssessmentInput input = CaseInput.Of(hand, model.Source);
        CaseExpected expect = hand.Expect;
        (string Id, double Explains)[] ranked = Ranked(model, input);
        string[] three = [.. ranked[..3].Select(r => r.Id)];
        string first = string.Join(", ", ranked[..3].Select(r => $"{r.Id} {r.Explains:P0}"));
        if (expect.LeaderAmong is { } leaders && !leaders.Contains(three[0]))
        {
            yield return $"not led by {string.Join(" or ", leaders)}: {first}";
        }

        foreach (string missing in (expect.TopThree ?? []).Except(three))
        {
            yield return $"{missing} is not among the first three: {first}";
        }

        foreach (string unwanted in (expect.Not ?? []).Intersect(ranked[..3].Where(r => r.Explains >= Suspect).Select(r => r.Id)))
        {
            yield return $"{unwanted} is a suspect: {first}";
        }

        if (expect.NextAmong is { } checks && Next(model, input) is var next && !checks.Contains(next))
        {
            yield return $"next is {next ?? "no check"}, not {string.Join(" or ", checks)}";
        }
    }

    /// <summary>As the answer ranks: by what each part explains.</summary>
    private static (string Id, double Explains)[] Ranked(CompiledModel model, AssessmentInput input) =>
        [.. Assert.IsType<Answered>(Assess.Run(model, input)).Ranking.Select(r => (r.Component, r.Explains))];

    private static string? Next(CompiledModel model, AssessmentInput input) =>
        Assert.IsType<AdviceAnswered>(Assess.Advise(model, input)).NextChecks.FirstOrDefault(c => c.Pays)?.Check;

    private static IEnumerable<string> Named(HandCase c) =>
    [
        .. c.Complaint.Present, .. c.Complaint.Absent ?? [], .. c.Expect.LeaderAmong ?? [], .. c.Expect.TopThree ?? [], .. c.Expect.Not ?? [], .. c.Expect.NextAmong ?? [],
        .. (c.Car?.Work ?? []).Select(w => w.Component), .. (c.Findings ?? []).SelectMany(f => new[] { f.Check, f.Component }).OfType<string>(),
    ];
}
