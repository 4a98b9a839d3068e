using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

public class LintWarningTests
{
    public static IReadOnlyList<string> Rules { get; } = [
        "unnoticed-high", "background-owned", "sees-condition", "broad-event", "modes-alike", "mode-unchecked", "check-idle", "usual-missing", "mode-unheard", "outcome-unreached",
    ];

    [Theory]
    [InlineData("unnoticed-high", "components[pump].modes[worn].unnoticed", "components/pump/modes/worn/unnoticed", "0.2")]
    [InlineData("background-owned", "conditions[delivery].background", "conditions/delivery/background", """{ "-1": 0.001 }""")]
    [InlineData("sees-condition", "checks[idle-co].seesPart", "checks/idle-co/seesPart", "true")]
    [InlineData("sees-condition", "checks[smoke-intake].seesPart", "checks/smoke-intake/seesPart", "true")]
    [InlineData("broad-event", "cells[no-start].causes", "", "")]
    [InlineData("mode-unchecked", "components[throttle].modes[opens-short]", "checks/throttle-look/table/throttle.opens-short/p", "{}")]
    [InlineData("check-idle", "checks[trigger-lamp]", "checks/trigger-lamp/detects", """[{ "of": "pump-trigger.lost", "p": 0.06 }]""")]
    [InlineData("usual-missing", "checks[dead-head].limits", "checks/dead-head/limits/usual", null)]
    [InlineData("outcome-unreached", "checks[throttle-look].outcomes[hangs]", "checks/throttle-look/table/throttle.hangs-open/p/hangs", "0.06")]
    [InlineData("modes-alike", "pump.worn ~ pump.noisy", "", "")]
    [InlineData("mode-unheard", "components[air-valve].modes[stuck-closed]", "", "")]
    public void Doubtful_model_warned_of_with_rule_and_path(string rule, string path, string at, string? value)
    {
        JsonObject json = ModelFile.Json();
        if (rule == "broad-event")
        {
            AskEverything(json);
        }
        else if (rule == "modes-alike")
        {
            ModelFile.Drop(json, "pump.noisy");
            ModelFile.Double(json, "pump.worn", "pump.noisy");
        }
        else if (rule == "mode-unheard")
        {
            ModelFile.Drop(json["conditions"]!, "air-valve.stuck-closed");
            ModelFile.Drop(json["cells"]!, "air-valve.stuck-closed");
        }
        else
        {
            ModelFile.Set(json, at, value is null ? null : JsonNode.Parse(value));
        }

        LintResult found = FaultModelLinter.Lint(FaultModelReader.Read(json.ToJsonString()));

        Assert.Empty(found.Refusals);
        Assert.True(found.Warnings.Any(n => n.Rule == rule && n.Path == path), string.Join("\n", found.Warnings));
    }

    /// <summary>One way of being bad of every part makes the engine not start.</summary>
    private static void AskEverything(JsonObject json)
    {
        HashSet<string> known = [.. ModelFile.Model.Cells.Single(c => c.Id == "no-start").Causes.Select(c => c.Of)];
        foreach (string mode in ModelFile.Model.Components.Where(c => c.Modes.Count > 0).Select(c => $"{c.Id}.{c.Modes[0].Id}").Where(m => !known.Contains(m)))
        {
            ModelFile.Set(json, "cells/no-start/causes/+", JsonNode.Parse($$"""{ "of": "{{mode}}", "p": 0.1 }"""));
        }
    }
}
