using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>One broken model per rule: the real file with one thing spoilt. The note must name rule and place.</summary>
public class LintRefusalTests
{
    private const string Regulator = "components/pressure-regulator/modes/low";

    public static TheoryData<string, string, string, string?> Broken => new()
    {
        // rule, path of the note, what is set, to which JSON (null: taken away)
        { "duplicate-id", "components[pump]", "components/+", """{ "id": "pump", "title": "x", "modes": [], "source": "ej" }""" },
        { "duplicate-id", "components[elsewhere]", "components/exhaust/id", "\"elsewhere\"" },
        { "duplicate-id", "components[pump].modes[worn]", "components/pump/modes/dead/id", "\"worn\"" },
        { "duplicate-id", "checks[fuse-look].outcomes[blown]", "checks/fuse-look/outcomes/sound/id", "\"blown\"" },
        { "unknown-id", "conditions[pump-flow].effects[pump.tired]", "conditions/pump-flow/effects/pump.worn/of", "\"pump.tired\"" },
        { "unknown-id", "components[pump].includes[chek-valve]", "components/pump/includes/0", "\"chek-valve\"" },
        { "former-part", "components[ignition-coil].formerly[pump]", "components/ignition-coil/formerly/0", "\"pump\"" },
        { "unknown-id", "components[strainer].modes[clogged].causedBy[tank.holes]", "components/strainer/modes/clogged/causedBy/0", "\"tank.holes\"" },
        { "unknown-id", "components[tank].modes[debris].together[barrel]", "components/tank/modes/debris/together/0", "\"barrel\"" },
        { "together", "components[tank].modes[debris].together[tank]", "components/tank/modes/debris/together/0", "\"tank\"" },
        { "unknown-id", "checks[pump-listen].answeredBy[pump-sings]", "checks/pump-listen/answeredBy/0", "\"pump-sings\"" },
        { "unknown-id", "components[pump].modes[worn].incidents[flood]", "components/pump/modes/worn/incidents/flood", "2" },
        { "unknown-id", "elsewhere.cells[sings]", "elsewhere/cells/sings", "0.1" },
        { "unknown-id", "checks[pump-current].tools[wand]", "checks/pump-current/tools/0", "\"wand\"" },
        { "unknown-id", "checks[leak-down-whole].watches[puddle]", "checks/leak-down-whole/watches/0", "\"puddle\"" },
        { "unknown-id", "checks[leak-down-whole].store[bucket]", "checks/leak-down-whole/store", "\"bucket\"" },
        { "unknown-id", "checks[system-pressure].measures[mood]", "checks/system-pressure/measures", "\"mood\"" },
        { "unknown-id", "options[pump-kind].choices[in-tank].absent[lifter]", "options/pump-kind/choices/in-tank/absent/0", "\"lifter\"" },
        { "option-idle", "options[lambda-control].choices", "options/lambda-control/choices/none/absent", "[]" },
        { "unknown-id", "checks[lift-pump-test].needs[lifter]", "checks/lift-pump-test/needs/0", "\"lifter\"" },
        { "unknown-tag", "checks[lift-pump-test].involves[magic]", "checks/lift-pump-test/involves/0", "\"magic\"" },
        { "unknown-tag", "stopNotes[petrol-in-oil].forbids[magic]", "stopNotes/petrol-in-oil/forbids/0", "\"magic\"" },
        { "stop-note", "stopNotes[petrol-in-oil]", "stopNotes/petrol-in-oil/when", "[]" },
        { "stop-sign", "stopNotes[petrol-in-oil].when", "stopNotes/petrol-in-oil/when/0", """{ "event": "petrol-in-oil", "part": "pump" }""" },
        { "stop-sign", "stopNotes[petrol-in-oil].when", "stopNotes/petrol-in-oil/when/0", """{ "work": "pump" }""" },
        { "unknown-id", "stopNotes[petrol-in-oil].when[0][sings]", "stopNotes/petrol-in-oil/when/0/event", "\"sings\"" },
        { "unknown-id", "stopNotes[throttle-open].when[1][throttle.sings]", "stopNotes/throttle-open/when/1/part", "\"throttle.sings\"" },
        { "unknown-id", "stopNotes[throttle-open].endedBy[0][throtle]", "stopNotes/throttle-open/endedBy/0/work", "\"throtle\"" },
        { "unknown-outcome", "stopNotes[throttle-open].when[0].outcomes[sings]", "stopNotes/throttle-open/when/0/outcomes/0", "\"sings\"" },
        { "setup-minutes", "checks[system-pressure].setupMinutes", "checks/system-pressure/setupMinutes", "3" },
        { "setup-minutes", "checks[fuse-look].setupMinutes", "checks/fuse-look/setupMinutes", "3" },
        { "source-kind", "sources[cp].kind", "sources/cp/kind", "\"rumour\"" },
        { "source-kind", "sources[cp].cite", "sources/cp/cite", "\" \"" },
        { "unknown-source", "conditions[delivery].source", "conditions/delivery/source", "\"nowhere\"" },
        { "unknown-source", "components[pump].work[replace].source", "components/pump/work/replace/source", "\"\"" },
        { "unknown-source", "checks[system-pressure].limits.source", "checks/system-pressure/limits/source", "\"nowhere\"" },
        { "probability", "components[pressure-regulator].modes[low].unnoticed", $"{Regulator}/unnoticed", "1.2" },
        { "probability", "components[pump].notOriginal", "components/pump/notOriginal", "-0.1" },
        { "probability", "elsewhere.prior", "elsewhere/prior", "2" },
        { "probability", "cells[no-start].background", "cells/no-start/background", "1.01" },
        { "probability", "cells[pump-silent].causes[pump.dead].p", "cells/pump-silent/causes/pump.dead/p", "-1" },
        { "probability", "checks[trigger-lamp].falseAlarm", "checks/trigger-lamp/falseAlarm", "7" },
        { "probability", "badWhenFitted.used", "badWhenFitted/used", "3" },
        { "sum-above-one", "conditions[system-pressure].effects[pressure-regulator.low]", "conditions/system-pressure/effects/pressure-regulator.low/adds", """{ "-1": 0.7, "-2": 0.4 }""" },
        { "sum-above-one", "conditions[delivery].effects[pump-flow].at[-1]", "conditions/delivery/effects/pump-flow/at/-1", """{ "-1": 0.7, "-2": 0.4 }""" },
        { "sum-above-one", "checks[injector-tips].otherwise", "checks/injector-tips/otherwise", """{ "one": 0.6, "several": 0.6 }""" },
        { "sum-above-one", "components[pump-fuse].modes", "components/pump-fuse/modes/open/shareWhenNew", "0.9" },
        { "cause-twice", "conditions[delivery].effects[filter.clogged]", "conditions/delivery/effects/+", """{ "of": "filter.clogged", "adds": { "-1": 0.1 } }""" },
        { "cause-twice", "cells[pump-silent].causes[pump.dead]", "cells/pump-silent/causes/+", """{ "of": "pump.dead", "p": 0.1 }""" },
        { "cause-kind", "cells[pump-silent].causes[pump.dead]", "cells/pump-silent/causes/pump.dead", """{ "of": "pump.dead", "at": { "1": 0.5 } }""" },
        { "cause-kind", "conditions[delivery].effects[pump-flow]", "conditions/delivery/effects/pump-flow", """{ "of": "pump-flow", "adds": { "-1": 0.5, "-2": 0.2 } }""" },
        { "condition-loop", "conditions[supply-inlet].effects", "conditions/supply-inlet/effects/+", """{ "of": "delivery", "at": { "-1": { "-1": 0.1 } } }""" },
        { "condition-range", "conditions[cold-air]", "conditions/cold-air/min", "-4" },
        { "range-unreached", "conditions[spark]", "conditions/spark/max", "1" },
        { "step-range", "conditions[stored-volume].effects[accumulator.volume-lost].-2", "conditions/stored-volume/effects/accumulator.volume-lost/adds/-2", "0.01" },
        { "step-range", "conditions[delivery].background.1", "conditions/delivery/background", """{ "1": 0.0001 }""" },
        { "step-range", "cells[no-start].causes[delivery].at[1]", "cells/no-start/causes/delivery/at/1", "0.2" },
        { "step-range", "conditions[delivery].effects[filter.clogged].half", "conditions/delivery/effects/filter.clogged/adds/half", "0.01" },
        { "life-empty", "components[pressure-regulator].modes[low].life", $"{Regulator}/life", """{ "shape": 2 }""" },
        { "figure-range", "components[pressure-regulator].modes[low].life.shape", $"{Regulator}/life/shape", "0" },
        { "figure-range", "components[pressure-regulator].modes[low].life.perParkedYear", $"{Regulator}/life/perParkedYear", "-0.1" },
        { "figure-range", "checks[trigger-lamp].minutes", "checks/trigger-lamp/minutes", "-5" },
        { "figure-range", "components[pump].work[replace].parts", "components/pump/work/replace/parts", "-1" },
        { "bias-kind", "components[pressure-regulator].modes[low].bias", $"{Regulator}/bias", "0.1" },
        { "action-kind", "components[check-valve].modes[leaks-back].curedBy.adjust", "components/check-valve/modes/leaks-back/curedBy/adjust", "0.3" },
        { "action-kind", "components[pump].work[polish]", "components/pump/work/+", """{ "action": "polish", "minutes": 1, "parts": 1, "source": "ej" }""" },
        { "check-kind", "checks[system-pressure]", "checks/system-pressure/detects", "[]" },
        { "check-kind", "checks[trigger-lamp]", "checks/trigger-lamp/yes", null },
        { "check-kind", "checks[system-pressure]", "checks/system-pressure/quantity", null },
        { "check-kind", "checks[fuse-look]", "checks/fuse-look/table", null },
        { "hazard-kind", "checks[trigger-lamp].hazard", "checks/trigger-lamp/hazard", "\"some\"" },
        { "missing-cautions", "checks[trigger-lamp].cautions", "checks/trigger-lamp/cautions", "[]" },
        { "missing-steps", "checks[trigger-lamp].steps", "checks/trigger-lamp/steps", "[\" \"]" },
        { "unknown-outcome", "checks[fuse-look].table[pump-fuse.open].melted", "checks/fuse-look/table/pump-fuse.open/p", """{ "melted": 0.9 }""" },
        { "unknown-outcome", "checks[spark-test].table[spark].at[-2].gone", "checks/spark-test/table/spark/at/-2", """{ "gone": 0.9 }""" },
        { "first-outcome", "checks[fuse-look].otherwise.sound", "checks/fuse-look/otherwise", """{ "sound": 0.9 }""" },
        { "missing-limits", "checks[system-pressure].limits", "checks/system-pressure/limits", null },
        { "missing-limits", "checks[system-pressure].limits", "checks/system-pressure/limits", """{ "unit": "bar", "source": "ej" }""" },
        { "limits-mismatch", "checks[system-pressure].limits", "checks/system-pressure/limits/high", null },
        { "limits-mismatch", "checks[delivery-return].covariate", "checks/delivery-return/covariate", null },
        { "limits-order", "checks[system-pressure].limits", "checks/system-pressure/limits/low", "6" },
        { "limits-order", "checks[control-cold].limits.points", "checks/control-cold/limits/points/1/at", "-10" },
        { "bands-mismatch", "checks[system-pressure].bands", "checks/system-pressure/bands/farAbove", null },
        { "bands-mismatch", "checks[system-pressure].bands.top", "checks/system-pressure/bands/top", "6" },
        { "bands-mismatch", "checks[system-pressure]", "checks/system-pressure/bands", null },
        { "bands-mismatch", "checks[system-pressure].bands", "checks/system-pressure/bands/farBelow", "1.2" },
        { "bands-mismatch", "checks[pump-current].edges", "checks/pump-current/edges/0", null },
        { "bands-mismatch", "checks[pump-current].edges", "checks/pump-current/limits/low", "4" },
        { "leak-down-hook-up", "checks[leak-down-whole].watches", "checks/leak-down-whole/watches/6", null },
        { "leak-down-limits", "checks[leak-down-whole].limits", "checks/leak-down-whole/limits", null },
        { "leak-down-limits", "checks[leak-down-whole].limits", "checks/leak-down-whole/limits/hold", "1.6" },
        { "leak-down-limits", "checks[leak-down-whole].limits.hold", "checks/leak-down-whole/limits/holdSource", null },
        { "leak-down-limits", "checks[leak-down-whole].limits.hold", "checks/leak-down-whole/limits/from", "2.5" },
        { "limits-order", "checks[dead-head].limits.usual", "checks/dead-head/limits/usual", "4.2" },
        { "limits-order", "checks[system-pressure].limits.usual", "checks/system-pressure/limits/usual", "5" },
        { "unknown-source", "checks[dead-head].limits.usualSource", "checks/dead-head/limits/usualSource", "\"nowhere\"" },
        { "watched-range", "checks[leak-down-whole].watches[delivery]", "checks/leak-down-whole/watches/0", "\"delivery\"" },
        { "watched-range", "checks[leak-down-whole].store", "checks/leak-down-whole/store", "\"delivery\"" },
        { "uncaused-event", "cells[slow-crank].causes", "cells/slow-crank/causes", "[]" },
        { "duplicate-id", "trials[relay-swap]", "trials/relay-tap/id", "\"relay-swap\"" },
        { "duplicate-id", "trials[fuse-look]", "trials/relay-tap/id", "\"fuse-look\"" },
        { "duplicate-id", "when[cold]", "when/hot/id", "\"cold\"" },
        { "unknown-id", "cells[hunting].event[sings]", "cells/hunting/event", "\"sings\"" },
        { "unknown-id", "cells[hunting].when[at-noon]", "cells/hunting/when", "\"at-noon\"" },
        { "unknown-id", "cells[cuts-out].then[at-noon]", "cells/cuts-out/then", "\"at-noon\"" },
        { "unknown-id", "events[hard-start].formerly[hard-start-warm]", "events/hard-start/formerly/hard-start-warm", """{ "when": ["cold"] }""" },
        { "unknown-id", "events[hard-start].formerly[hard-start-cold].when[at-noon]", "events/hard-start/formerly/hard-start-cold/when/+", "\"at-noon\"" },
        { "unknown-id", "components[pump-relay].moves[pump-fuze]", "components/pump-relay/moves/0", "\"pump-fuze\"" },
        { "unknown-id", "trials[relay-tap].component[pump-rely]", "trials/relay-tap/component", "\"pump-rely\"" },
        { "unknown-id", "trials[wiggle].moves[pump-fuze]", "trials/wiggle/moves/0", "\"pump-fuze\"" },
        { "unknown-id", "trials[prime-trick].right[puddle]", "trials/prime-trick/right/0", "\"puddle\"" },
        { "unknown-id", "trials[relay-tap].tools[wand]", "trials/relay-tap/tools/0", "\"wand\"" },
        { "unknown-source", "events[hard-start].source", "events/hard-start/source", "\"nowhere\"" },
        { "unknown-source", "trials[relay-tap].source", "trials/relay-tap/source", "\"nowhere\"" },
        { "cells-alike", "cells[cuts-out-dead]", "cells/cuts-out-dead/then", "\"after-wait\"" },
        { "event-cells", "events[no-noise]", "events/+", """{ "id": "no-noise", "title": "x", "ask": "x", "kind": "other", "source": "ej" }""" },
        { "event-kind", "events[stalls].kind", "events/stalls/kind", "\"flying\"" },
        { "event-named-cell", "events[rough-idle]", "cells/surges-steady/id", "\"rough-idle\"" },
        { "formerly-empty", "events[hard-start].formerly[hard-start-cold]", "events/hard-start/formerly/hard-start-cold/when/0", "\"overrun\"" },
        { "former-check", "trials[relay-tap].formerly[fuse-look]", "trials/relay-tap/formerly/fuse-look", """{ "blown": "ended" }""" },
        { "trial-result", "trials[relay-tap].formerly[relay-tap].yes", "trials/relay-tap/formerly/relay-tap/yes", "\"cured\"" },
        { "trial-kind", "trials[relay-tap].do", "trials/relay-tap/do", "\"kick\"" },
        { "trial-kind", "trials[relay-tap]", "trials/relay-tap/component", null },
        { "trial-kind", "trials[relay-swap].standIn", "trials/relay-swap/standIn", "\"old\"" },
        { "trial-kind", "trials[prime-trick].kinds[flying]", "trials/prime-trick/kinds/0", "\"flying\"" },
        { "figure-range", "trials[relay-tap].minutes", "trials/relay-tap/minutes", "-5" },
        { "figure-range", "components[pump-fuse].modes[open].onset.suddenly", "components/pump-fuse/modes/open/onset/suddenly", "-2" },
        { "missing-cautions", "trials[relay-tap].cautions", "trials/relay-tap/cautions", "[]" },
        { "missing-steps", "trials[relay-tap].steps", "trials/relay-tap/steps", "[\" \"]" },
        { "hazard-kind", "trials[relay-tap].hazard", "trials/relay-tap/hazard", "\"some\"" },
        { "side-kind", "components[pump].side", "components/pump/side", "\"left\"" },
        { "onset-kind", "components[pump-fuse].modes[open].onset.at-noon", "components/pump-fuse/modes/open/onset/at-noon", "2" },
        { "unseen-mode", "components[air-valve].modes[stuck-closed]", "", null },
    };

    [Theory]
    [MemberData(nameof(Broken))]
    public void Broken_model_refused_by_this_rule_alone_with_path_and_line(string rule, string path, string at, string? value)
    {
        JsonObject json = ModelFile.Json();
        if (rule == "unseen-mode")
        {
            ModelFile.Drop(json, "air-valve.stuck-closed");
        }
        else
        {
            ModelFile.Set(json, at, value is null ? null : JsonNode.Parse(value));
        }

        ComposedModel broken = ModelFile.Composed(json);
        IReadOnlyList<LintNote> found = FaultModelLinter.Refusals(broken.Read());

        Assert.True(found.Any(n => n.Rule == rule && n.Path == path && n.Message.Length > 10), string.Join("\n", found));
        Assert.True(found.All(n => n.Rule == rule), string.Join("\n", found));
        string lines = ModelFile.LinesAt(json, broken.PlaceOf(path)); // what is missing is placed where it should be
        Assert.True(path.Split('.', '[', ']').Where(s => s.Length > 0).TakeLast(2).Any(s => lines.Contains($"{s}\"", StringComparison.Ordinal)), $"{path} was placed at {lines}");
    }

    [Fact]
    public void Each_rule_that_refuses_has_a_broken_model()
    {
        IEnumerable<string> tried = Broken.Select(row => (string)row[0]).Concat(LintWarningTests.Rules).Distinct().Order(StringComparer.Ordinal);

        Assert.Equal(RulesInCode().Order(StringComparer.Ordinal), tried);
    }

    [Fact]
    public void Several_faults_told_at_once()
    {
        JsonObject json = ModelFile.Json();
        ModelFile.Set(json, "checks/trigger-lamp/cautions", new JsonArray());
        ModelFile.Set(json, "elsewhere/prior", 2);
        ModelFile.Set(json, "conditions/delivery/source", "nowhere");

        LintResult found = FaultModelLinter.Lint(FaultModelReader.Read(json.ToJsonString()));

        Assert.Equal(["missing-cautions", "probability", "unknown-source"], found.Refusals.Select(n => n.Rule).Order(StringComparer.Ordinal));
    }

    private static IEnumerable<string> RulesInCode()
    {
        string folder = Path.Combine(ModelFile.Folder, "..", "core", "FaultModels");
        return Directory.GetFiles(folder, "FaultModelLinter*.cs")
            .SelectMany(file => Regex.Matches(File.ReadAllText(file), "(?:LintNote|new)\\(\"(?<rule>[a-z-]+)\"").Select(m => m.Groups["rule"].Value)).Distinct();
    }
}
