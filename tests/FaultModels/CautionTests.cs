using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>What can hurt is said at every check and trial where it can happen, in all systems.</summary>
public class CautionTests
{
    public static TheoryData<string> Systems => OptionTests.Systems;

    [Theory]
    [MemberData(nameof(Systems))]
    public void Every_check_and_trial_says_what_it_involves(string system)
    {
        JsonNode whole = JsonNode.Parse(ModelFile.Composed(system).Json)!;

        Assert.All(whole["checks"]!.AsArray().Concat(whole["trials"]!.AsArray()), c => Assert.True(c!["involves"] is JsonArray, c["id"]!.GetValue<string>()));
        Assert.All(Doings(system).Where(c => c.Involves.Contains(Involved.Road)), c => Assert.Contains(Involved.Running, c.Involves));
        Assert.All(Doings(system).Where(c => c.Involves.Contains(Involved.Running)), c => Assert.Contains(Involved.Cranking, c.Involves));
    }

    [Theory]
    [MemberData(nameof(Systems))]
    public void Settings_made_on_a_running_engine_are_marked_so(string system) =>
        Assert.All(
            ModelFile.Composed(system).Read().Components.SelectMany(c => c.Work.Where(w => w.Action == "adjust").Select(w => (c.Id, w.Involves)))
                .Where(w => w.Id is "idle-setting" or "ignition-timing" or "carb-setting" or "mixture-setting" or "meter-screw" or "mixture-knob" or "governor" or "warm-up-regulator"),
            w => Assert.Contains(Involved.Running, w.Involves));

    [Theory]
    [MemberData(nameof(Systems))]
    public void Steps_that_crank_run_or_drive_are_marked_so(string system)
    {
        foreach (Doing doing in Doings(system))
        {
            string steps = string.Join(' ', doing.Steps);
            Says(doing, Involved.Cranking, Regex.IsMatch(steps, "[Cc]rank (at once|it|again|five|ten|for|and)|while it cranks|is cranked|[Ww]arm, at idle|turns the starter"));
            Says(doing, Involved.Running, Regex.IsMatch(steps, "[Ww]arm, at idle|[Ee]ngine running|Run at idle"));
            Says(doing, Involved.Road, Regex.IsMatch(steps, "Drive (until|on|once|a|up|20|or|at)|drive a while|drive and read|drive as the trouble asks"));
        }
    }

    [Theory]
    [MemberData(nameof(Systems))]
    public void Eye_protection_is_asked_for_wherever_fuel_can_spray(string system) =>
        Assert.All(
            Doings(system).Where(c => c.Hazard is "high" || Regex.IsMatch(Text(c), "may (still )?stand|relief valve of the gauge|Catch fuel|can spray")),
            c => Assert.True(Regex.IsMatch(Text(c), "eye (protection|shield)", RegexOptions.IgnoreCase), c.Id));

    [Theory]
    [MemberData(nameof(Systems))]
    public void Fuel_given_by_a_fused_lead_names_the_spark_and_the_full_cylinder(string system) =>
        Assert.All(
            Doings(system).Where(c => c.Id == "extra-fuel" && Text(c).Contains("fused lead", StringComparison.Ordinal)),
            c => Assert.True(Text(c).Contains("join the lead at the part first", StringComparison.Ordinal) && Text(c).Contains("cylinder full of petrol", StringComparison.Ordinal), c.Id));

    [Theory]
    [InlineData("open-throttle-start", "hydraulic", "cylinder full of petrol")]
    [InlineData("plugs-at-fault", "hydraulic", "cylinder full of petrol")]
    [InlineData("plate-lift", "hydraulic", "cylinder full of petrol")]
    [InlineData("cold-valve-spray", "twelve volts", "join the lead at the part first")]
    [InlineData("direct-feed", "twelve volts", "join the lead at the part first")]
    [InlineData("lift-pump-test", "twelve volts", "join the lead at the part first")]
    [InlineData("injector-tips", "twelve volts", "join the lead at the part first")]
    [InlineData("cut-off-click", "twelve volts", "join the lead at the part first")]
    [InlineData("stop-direct", "twelve volts", "join the lead at the part first")]
    [InlineData("cylinder-cut", "ignition", "Transistor ignition")]
    [InlineData("spark-test", "ignition", "Transistor ignition")]
    [InlineData("leads-look", "ignition", "Transistor ignition")]
    [InlineData("cylinder-cut", "catalyst", "melts the catalyst")]
    public void Caution_stands_at_the_check_in_every_system_that_has_it(string check, string danger, string words)
    {
        List<Doing> found = [.. OptionTests.Ids.Select(s => Doings(s).FirstOrDefault(c => c.Id == check)).OfType<Doing>()];

        Assert.NotEmpty(found);
        Assert.All(found, c => Assert.True(Text(c).Contains(words, StringComparison.Ordinal), $"{check}: {danger}"));
    }

    private static IEnumerable<Doing> Doings(string system)
    {
        FaultModel model = ModelFile.Composed(system).Read();
        return model.Checks.Select(c => new Doing(c.Id, c.Hazard, c.Cautions, c.Steps, c.Involves))
            .Concat(model.Trials.Select(t => new Doing(t.Id, t.Hazard, t.Cautions, t.Steps, t.Involves)));
    }

    private static void Says(Doing doing, string tag, bool should) => Assert.True(!should || doing.Involves.Contains(tag), $"{doing.Id} should involve {tag}");

    private static string Text(Doing doing) => string.Join(' ', [.. doing.Cautions, .. doing.Steps]);

    /// <summary>A check or a trial.</summary>
    private sealed record Doing(string Id, string Hazard, IReadOnlyList<string> Cautions, IReadOnlyList<string> Steps, IReadOnlyList<string> Involves);
}
