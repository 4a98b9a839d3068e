using System.Text.Json.Nodes;
using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>Every system beside what several writers of the trade put down (MODEL.md 10, judged figures): the rule, or a decision with
/// its reason in sources.md.</summary>
public class WritersTests
{
    private const int LongestFile = 120_000, ShortestReason = 20;

    public static TheoryData<string> Models => RealModels.All;

    [Theory]
    [InlineData(0.4, 20.0, 80.0, null)]
    [InlineData(0.2, 10.0, 20.0, 40.0)]
    [InlineData(0.15, null, 30.0, null)]
    [InlineData(0, null, 9.0, null)]
    [InlineData(0, null, null, null)]
    public void Target_of_figures_is_what_the_rule_makes_of_them(double target, double? first, double? second, double? third) =>
        Assert.Equal(target, WritersFigures.Target([first, second, third]), 9);

    [Theory]
    [MemberData(nameof(Models))]
    public void Model_says_what_the_writers_said_or_the_reason_is_listed(string model)
    {
        IReadOnlyList<WritersDecision> decided = WritersDecision.Of(model);

        IEnumerable<WritersDifference> open = WritersFigures.Of(model).Differences(RealModels.Model(model))
            .Where(d => !decided.Any(r => r.Covers(d)));

        Assert.Empty(open.Select(d => FormattableString.Invariant($"{d.Mode} | {d.Where} | {d.Target:0.00} | {d.Model:0.00}")));
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Decision_by_hand_is_still_needed_and_gives_a_reason(string model)
    {
        WritersDifference[] found = [.. WritersFigures.Of(model).Differences(RealModels.Model(model))];
        IReadOnlyList<WritersDecision> decided = WritersDecision.Of(model);

        Assert.NotEmpty(decided);
        Assert.Empty(decided.Where(r => r.Reason.Length < ShortestReason).Select(r => $"{r.Modes} | {r.Where}: no reason"));
        Assert.Empty(decided.SelectMany(r => r.Idle(found), (r, id) => $"{r.Modes} | {r.Where}: no difference with {id}"));
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Mode_is_told_of_in_one_case_of_ten_or_marked_as_not_noticed(string model)
    {
        var marked = JsonNode.Parse(File.ReadAllText(RealModels.File(model, "reviewed.json")))!["warnings"]!.AsArray()
            .Where(w => (string?)w!["rule"] == "mode-unheard").Select(w => (string?)w!["path"]).ToHashSet();
        var backgrounds = RealModels.Model(model).Cells.ToDictionary(c => c.Id, c => c.Background);
        var heard = ModelTable.Of(RealModels.Model(model))
            .Where(e => e.Total - backgrounds[e.Cell] >= ModelTable.Noticed).Select(e => e.Mode).ToHashSet();

        IEnumerable<string> silent = RealModels.Model(model).Components.Where(c => !c.Instrument)
            .SelectMany(c => c.Modes, (c, m) => (Id: $"{c.Id}.{m.Id}", Path: $"components[{c.Id}].modes[{m.Id}]"))
            .Where(m => !heard.Contains(m.Id) && !marked.Contains(m.Path)).Select(m => m.Id);

        Assert.Empty(silent);
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Rows_of_the_writers_are_of_this_model_and_whole(string model)
    {
        WritersFigures writers = WritersFigures.Of(model);
        HashSet<string> modes = [.. new ModelMap(RealModels.Model(model)).Modes.Keys], told = [.. writers.Cells.Split(' ')];

        Assert.True(writers.Writers >= 2);
        Assert.True(new FileInfo(Path.Combine(WritersFigures.Folder, model + ".json")).Length < LongestFile);
        Assert.Empty(told.Except(RealModels.Model(model).Cells.Select(c => c.Id)));
        Assert.Empty(writers.Each.Select(m => m.Mode).Except(modes));
        Assert.Equal(writers.Each.Count(), writers.Each.Select(m => m.Mode).Distinct().Count());
        Assert.All(writers.Modes.Values.SelectMany(r => r), r =>
        {
            Assert.Equal(writers.Writers, r.Value.Length);
            Assert.All(r.Value.OfType<double>(), f => Assert.InRange(f, 0.1, 100));
            Assert.True(r.Key.Contains('=') ? writers.Others.ContainsKey(r.Key) : r.Key.Split('/').All(told.Contains), r.Key);
        });
    }

    /// <summary>The comparison itself, on a model in which nothing was changed but what one writer's row says.</summary>
    [Theory]
    [InlineData("rich-smoke", 90, true)]
    [InlineData("no-start", 90, false)]
    [InlineData("pump-listen=growl", 90, true)]
    [InlineData("pump-listen=silent", 90, false)]
    public void Row_that_the_model_contradicts_is_a_difference(string where, double figure, bool differs)
    {
        WritersFigures writers = WritersFigures.Of("continuous-mechanical");
        Dictionary<string, double?[]> row = new() { [where] = [figure, figure] };
        writers = writers with { Modes = new Dictionary<string, Dictionary<string, double?[]>> { ["pump-fuse.open"] = row } };

        IEnumerable<WritersDifference> found = writers.Differences(RealModels.Model("continuous-mechanical"));

        Assert.Equal(differs, found.Any(d => d.Where == where));
    }
}
