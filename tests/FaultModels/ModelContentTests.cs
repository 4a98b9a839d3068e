using System.Text.RegularExpressions;
using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

public class ModelContentTests
{
    private static readonly FaultModel Model = ModelFile.Model;

    private static readonly string[] Fitting = ["pressure bar", "voltage V", "current A", "volume ml", "time s", "resistance ohm", "ratio %", "temperature °C"];

    [Fact]
    public void Counts_are_what_the_job_asks_for()
    {
        Assert.True(Model.Components.Count >= 30, $"{Model.Components.Count} components");
        Assert.True(Model.Components.Sum(c => c.Modes.Count) >= 80, $"{Model.Components.Sum(c => c.Modes.Count)} modes");
        Assert.True(Model.Conditions.Count >= 25, $"{Model.Conditions.Count} conditions");
        Assert.True(Model.Cells.Count >= 25, $"{Model.Cells.Count} cells");
        Assert.True(Model.Checks.Count >= 35, $"{Model.Checks.Count} checks");
    }

    [Fact]
    public void Leak_down_warns_of_everything_that_hurts()
    {
        var leakDowns = Model.Checks.Where(c => c.Kind == CheckKind.LeakDown).ToList();

        Assert.NotEmpty(leakDowns);
        foreach (string word in new[] { "relief valve", "bottle", "eye protection", "air moving", "glows or sparks", "extinguisher", "workshop manual" })
        {
            Assert.All(leakDowns, c => Assert.Contains(word, string.Join(' ', c.Cautions), StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Mode_has_an_effect_or_finding_of_its_own()
    {
        var map = new ModelMap(Model);
        HashSet<string> named = [.. map.Arrows.Where(a => a.Acts).Select(a => a.Of)];

        Assert.Superset(map.Modes.Keys.ToHashSet(), named);
    }

    [Fact]
    public void Source_is_used_and_none_claims_to_be_read_in_full()
    {
        HashSet<string> used = [.. Regex.Matches(ModelFile.Text, "\"source\": \"(?<key>[^\"]+)\"").Select(m => m.Groups["key"].Value)];

        Assert.Empty(Model.Sources.Keys.Except(used));
        Assert.DoesNotContain(Model.Sources.Values, s => s.Kind == "published"); // every page was seen in part only
    }

    [Fact]
    public void Judgement_that_cites_a_page_says_it_is_judgement() =>
        Assert.All(Model.Sources.Where(s => s.Key.StartsWith('j') && s.Value.Kind != "judgement"), s =>
        {
            Assert.Equal("memory", s.Value.Kind);
            Assert.StartsWith("Engineering judgement", s.Value.Cite, StringComparison.Ordinal);
        });

    [Fact]
    public void Unnoticed_modes_sum_to_about_one()
    {
        double sum = Model.Components.Where(c => !c.Instrument && !c.Consumable).SelectMany(c => c.Modes).Sum(m => m.Unnoticed);

        Assert.InRange(sum, 0.9, 1.3); // about 1.2 by the computation's page, less because the model has more modes
    }

    [Fact]
    public void Dangerous_check_leaves_the_last_word_to_manual_and_licensed_people() =>
        Assert.All(Model.Checks.Where(c => c.Hazard != "none"), c =>
            Assert.Contains(c.Cautions, t => t.Contains("workshop manual", StringComparison.Ordinal) && t.Contains("licensed", StringComparison.Ordinal)));

    [Fact]
    public void Check_has_four_to_eight_steps() =>
        Assert.All(Model.Checks, c => Assert.True(c.Steps.Count is >= 4 and <= 8, $"{c.Id} has {c.Steps.Count} steps"));

    [Fact]
    public void Check_that_opens_or_pressurises_fuel_warns_of_fire() =>
        Assert.All(Model.Checks.Where(c => c.Hazard == "high"), c => Assert.Contains(c.Cautions, t => t.Contains("vapour burns", StringComparison.Ordinal)));

    [Fact]
    public void Leak_down_pressure_and_measures_use_units_of_the_computation() =>
        Assert.All(Model.Checks.Where(c => c.Limits is not null), c => Assert.Contains($"{c.Quantity} {c.Limits!.Unit}", Fitting));

    /// <summary>Graph shape that exact inference is budgeted for.</summary>
    [Fact]
    public void Conditions_and_cells_have_few_causes()
    {
        var map = new ModelMap(Model);

        Assert.All(Model.Conditions, c => Assert.True(c.Effects.Count(e => map.Conditions.ContainsKey(e.Of)) <= 3, c.Id));
        Assert.All(Model.Cells, s => Assert.True(s.Causes.Count(e => e.Source != "judged") <= 24, s.Id)); // beside what several writers gave
    }
}
