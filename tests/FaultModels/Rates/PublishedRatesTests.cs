using FuelHistory.Core.FaultModels;
using Xunit;
using Xunit.Abstractions;

namespace FuelHistory.Tests.FaultModels.Rates;

/// <summary>Rates of the fault models against what is published, in ratios. Each check and how other cars were allowed for stand in
/// published-rates.json, the sources in rate-sources.json. A model that differs by more than the band is listed there as a known
/// miss: neither rate nor band is bent to make it pass.</summary>
public class PublishedRatesTests(ITestOutputHelper output)
{
    private static readonly PublishedRates Published = PublishedRates.All;

    public static TheoryData<string> Checks => [.. Published.Checks.Select(c => c.Id)];

    [Theory]
    [MemberData(nameof(Checks))]
    public void Ratio_beside_a_publication_is_met_by_all_models_but_the_known_misses(string id)
    {
        RateCheck check = Published.Checks.Single(c => c.Id == id);
        var found = Published.Systems[check.Models].ToDictionary(m => m, m => ModelRates.Of(check, m));
        string figures = string.Join(", ", found.Select(f => $"{f.Key} {f.Value:0.###}"));

        // what a maintainer wants to see beside the publication: --logger "console;verbosity=detailed"
        output.WriteLine($"{id}: {check.Published} published, {check.Low:0.###} to {check.High:0.###} accepted; {figures}");
        Assert.All(found.Values, ratio => Assert.True(double.IsFinite(ratio) && ratio > 0, figures));
        Assert.True(check.Misses.ToHashSet().SetEquals(found.Where(f => !check.Met(f.Value)).Select(f => f.Key)),
            $"{check.Of}: {check.Low:0.###} to {check.High:0.###} wanted, known to miss: {string.Join(", ", check.Misses)}; {figures}");
    }

    [Fact]
    public void Sources_that_were_read_are_of_at_least_eight_publishers()
    {
        HashSet<string> by = [.. Published.Checks.SelectMany(c => c.Sources).Select(s => PublishedRates.Sources[s])
            .Where(s => s.Kind == ReadHow.Excerpt).Select(s => s.By)];

        Assert.True(by.Count >= 8, string.Join(", ", by));
    }

    [Fact]
    public void Source_is_used_and_says_where_it_stands_or_that_it_is_a_memory()
    {
        Assert.Equal(PublishedRates.Sources.Keys.Order(), Published.Checks.SelectMany(c => c.Sources).Distinct().Order());
        Assert.All(PublishedRates.Sources.Values.Where(s => s.Kind == ReadHow.Excerpt), s =>
            Assert.Matches(@"[a-z0-9-]+\.(com|org|de|at|gov|ch|net|nz|uk|au)\b", s.Cite));
        Assert.All(PublishedRates.Sources.Values.Where(s => s.Kind == ReadHow.Memory), s =>
            Assert.StartsWith("From memory", s.Cite, StringComparison.Ordinal));
    }

    /// <summary>Three either way is the widest that was thought right; more would be a band made to pass.</summary>
    [Fact]
    public void Band_is_no_wider_than_three_and_has_its_reason() => Assert.All(Published.Checks, c =>
    {
        Assert.InRange(c.Factor, 1, 3);
        Assert.InRange(c.Meant, 0.5, 1);
        Assert.True(c.Allowed.Length > 60, $"{c.Id}: {c.Allowed}");
        Assert.True(c.AtLeast || c.Factor > 1, c.Id);
    });

    [Fact]
    public void Known_miss_is_one_of_the_models_asked_and_has_its_reason() => Assert.All(Published.Checks, c =>
    {
        Assert.Subset(Published.Systems[c.Models].ToHashSet(), c.Misses.ToHashSet());
        Assert.Equal(c.Misses.Count > 0, c.Why is not null);
    });

    [Fact]
    public void Pick_names_something_in_one_of_the_models()
    {
        List<(Component Part, int Mode)> modes =
            [.. RealModels.Ids.SelectMany(id => RealModels.Model(id).Components).SelectMany(c => c.Modes.Select((_, i) => (c, i)))];

        Assert.All(Published.Groups.Values.SelectMany(g => g), pick =>
            Assert.True(modes.Exists(m => ModelRates.Means(pick, m.Part, m.Mode)), pick));
        Assert.Equal(Published.Groups.Keys.Order(), Published.Checks.SelectMany(c => c.Over.Concat(c.Under)).Distinct().Order());
    }

    [Fact]
    public void Fitting_is_one_that_the_model_knows() => Assert.All(RealModels.Ids, id =>
    {
        FaultModel model = RealModels.Model(id);
        RatedFitting fitted = Published.Fitted[id];

        Assert.All(fitted.Options, o =>
            Assert.True(model.Options.Any(m => m.Id == o.Key && m.Choices.Any(c => c.Id == o.Value)), $"{id}: {o.Key} {o.Value}"));
        Assert.All(fitted.Absent, part => Assert.Contains(model.Components, c => c.Id == part));
    });

    [Theory]
    [InlineData(0.39, false, false)]
    [InlineData(0.41, true, true)]
    [InlineData(3.59, true, true)]
    [InlineData(3.61, false, true)]
    public void Met_at_the_edge_of_the_band_is_as_the_factor_says(double ratio, bool met, bool metAtLeast)
    {
        RateCheck any = Published.Checks[0] with { Published = 2.4, Meant = 0.5, Factor = 3, AtLeast = false };

        Assert.Equal(met, any.Met(ratio));
        Assert.Equal(metAtLeast, (any with { AtLeast = true }).Met(ratio));
    }
}
