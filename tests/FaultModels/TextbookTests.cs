using System.Text.Json.Nodes;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using Json.Schema;
using Xunit;
using Xunit.Abstractions;

namespace FuelHistory.Tests.FaultModels;

/// <summary>The textbook.json of every model: situations that technicians wrote in words without having seen a model (situations/), put into its
/// ids by others who saw no figure. Not each need come out; so many of them must.</summary>
public class TextbookTests(ITestOutputHelper output)
{
    private const string Name = "textbook.json";

    /// <summary>Of all situations so many are led by a part that the textbook accepts, and begin with a check that it accepts.</summary>
    private const double Led = 0.9, Agreed = 0.75;

    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(ModelFile.Folder, "cases.schema.json")));

    public static TheoryData<string> Models => RealModels.All;

    [Theory]
    [MemberData(nameof(Models))]
    public void File_of_textbook_situations_fits_its_schema_and_names_what_the_model_has(string model)
    {
        FaultModel known = RealModels.Model(model);
        HashSet<string> ids = [.. known.Components.Select(c => c.Id), .. known.Checks.Select(c => c.Id), .. known.Cells.Select(s => s.Id), .. known.Events.Select(e => e.Id), .. known.Trials.Select(t => t.Id)];
        CaseFile file = CaseFile.Of(model, Name);

        Assert.True(Schema.Evaluate(JsonNode.Parse(File.ReadAllText(RealModels.File(model, Name)))).IsValid, "textbook.json is not of its schema");
        Assert.Empty(file.Cases.SelectMany(c => (c.Expect.LeaderAmong ?? []).Concat(c.Expect.NextAmong ?? []).Concat(c.Complaint.Present).Concat(c.Complaint.Absent ?? [])).Except(ids));
    }

    [Fact]
    public void Textbook_situations_are_led_by_the_part_and_begin_with_the_check_that_the_trade_names()
    {
        (string Id, bool? Led, bool? Next, string Said)[] all = [.. RealModels.Ids.SelectMany(m => CaseFile.Of(m, Name).Cases.Select(c => Of(c, RealModels.Compiled(m))))];
        foreach ((string id, bool? led, bool? next, string said) in all.Where(c => c.Led == false || c.Next == false))
        {
            output.WriteLine($"{id}: {(led == false ? "LEADER " : "")}{(next == false ? "NEXT " : "")}{said}");
        }

        double leading = Share(all, c => c.Led), agreed = Share(all, c => c.Next);
        output.WriteLine($"{all.Length} situations: led {leading:P0}, next check agreed {agreed:P0}");
        Assert.True(leading >= Led && agreed >= Agreed, $"led {leading:P0}, next check agreed {agreed:P0}");
    }

    private static double Share<T>(T[] all, Func<T, bool?> comes) => (double)all.Count(c => comes(c) == true) / all.Count(c => comes(c) is not null);

    private static (string Id, bool? Led, bool? Next, string Said) Of(HandCase hand, CompiledModel model)
    {
        AssessmentInput input = CaseInput.Of(hand, model.Source);
        RankedFault[] ranked = [.. ((Answered)Assess.Run(model, input)).Ranking.Where(r => r.Component != ModelIndex.Elsewhere).Take(3)];
        string? next;
        try { next = ((AdviceAnswered)Assess.Advise(model, input)).NextChecks.FirstOrDefault(c => c.Pays)?.Check; } catch (Exception e) { next = "CRASH " + e.Message; }
        return (hand.Id, hand.Expect.LeaderAmong?.Contains(ranked[0].Component), hand.Expect.NextAmong?.Contains(next ?? ""),
            $"{string.Join(", ", ranked.Select(r => $"{r.Component} {r.Explains:P0}"))}; next {next ?? "none"}; wanted {string.Join(" ", hand.Expect.LeaderAmong ?? [])}; next {string.Join(" ", hand.Expect.NextAmong ?? [])}");
    }
}
