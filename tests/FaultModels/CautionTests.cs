using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>What can hurt is said at every check where it can happen, in all systems.</summary>
public class CautionTests
{
    public static TheoryData<string> Systems => OptionTests.Systems;

    [Theory]
    [MemberData(nameof(Systems))]
    public void Every_check_says_what_it_involves(string system)
    {
        JsonNode whole = JsonNode.Parse(ModelFile.Composed(system).Json)!;

        Assert.All(whole["checks"]!.AsArray(), c => Assert.True(c!["involves"] is JsonArray, c["id"]!.GetValue<string>()));
        Assert.All(ModelFile.Composed(system).Read().Checks.Where(c => c.Involves.Contains(Involved.Road)), c => Assert.Contains(Involved.Running, c.Involves));
        Assert.All(ModelFile.Composed(system).Read().Checks.Where(c => c.Involves.Contains(Involved.Running)), c => Assert.Contains(Involved.Cranking, c.Involves));
    }

    [Theory]
    [MemberData(nameof(Systems))]
    public void Steps_that_crank_run_or_drive_are_marked_so(string system)
    {
        foreach (Check check in ModelFile.Composed(system).Read().Checks)
        {
            string steps = string.Join(' ', check.Steps);
            Says(check, Involved.Cranking, Regex.IsMatch(steps, "[Cc]rank (at once|it|again|five|ten|for|and)|while it cranks|is cranked|[Ww]arm, at idle"));
            Says(check, Involved.Running, Regex.IsMatch(steps, "[Ww]arm, at idle|[Ee]ngine running|Run at idle"));
            Says(check, Involved.Road, Regex.IsMatch(steps, "Drive (until|on|once|a|up|20|or|at)|drive a while|drive and read"));
        }
    }

    [Theory]
    [MemberData(nameof(Systems))]
    public void Eye_protection_is_asked_for_wherever_fuel_can_spray(string system) =>
        Assert.All(
            ModelFile.Composed(system).Read().Checks.Where(c => c.Hazard is "high" || Regex.IsMatch(Text(c), "may (still )?stand|relief valve of the gauge|Catch fuel|can spray")),
            c => Assert.True(Regex.IsMatch(Text(c), "eye (protection|shield)", RegexOptions.IgnoreCase), c.Id));

    [Theory]
    [InlineData("open-throttle-start", "hydraulic", "cylinder full of petrol")]
    [InlineData("extra-fuel", "hydraulic", "cylinder full of petrol")]
    [InlineData("plugs-at-fault", "hydraulic", "cylinder full of petrol")]
    [InlineData("plate-lift", "hydraulic", "cylinder full of petrol")]
    [InlineData("cold-valve-spray", "twelve volts", "join the lead at the part first")]
    [InlineData("extra-fuel", "twelve volts", "join the lead at the part first")]
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
        List<Check> found = [.. OptionTests.Ids.Select(s => ModelFile.Composed(s).Read().Checks.FirstOrDefault(c => c.Id == check)).OfType<Check>()];

        Assert.NotEmpty(found);
        Assert.All(found, c => Assert.True(Text(c).Contains(words, StringComparison.Ordinal), $"{check}: {danger}"));
    }

    private static void Says(Check check, string tag, bool should) => Assert.True(!should || check.Involves.Contains(tag), $"{check.Id} should involve {tag}");

    private static string Text(Check check) => string.Join(' ', [.. check.Cautions, .. check.Steps]);
}
