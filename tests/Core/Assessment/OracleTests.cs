using System.Globalization;
using FuelHistory.Core.Assessment;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>The network builder against the walk through all worlds, on random small models: the same ones in every run, and as many times
/// more as FUELHISTORY_SEEDS says.</summary>
public class OracleTests
{
    [Theory]
    [InlineData(1, false, 290)]
    [InlineData(2, false, 140)]
    [InlineData(3, false, 15)]
    [InlineData(4, false, 6)]
    [InlineData(1, true, 60)]
    [InlineData(2, true, 15)]
    [InlineData(3, true, 3)]
    public void Situation_random_models_agrees_with_the_walk_through_all_worlds(int stretches, bool intermittent, int models) =>
        Enumerable.Range(0, int.MaxValue).Where(seed => Fits(new SmallCase(seed, stretches, intermittent))).Take(models * Times)
            .AsParallel().ForAll(seed => Compare(seed, stretches, intermittent));

    /// <summary>Models that once needed more digits than were asked of them.</summary>
    [Theory]
    [InlineData(118755211, 3)]
    public void Situation_unlikely_findings_agree_as_far_as_the_arithmetic_reaches(int seed, int stretches) => Compare(seed, stretches, false);

    private static int Times => int.Parse(Environment.GetEnvironmentVariable("FUELHISTORY_SEEDS") ?? "1", CultureInfo.InvariantCulture);

    /// <summary>Some of those models make their findings impossible; each such one must be named so, with a set from which nothing can be taken.</summary>
    [Fact]
    public void Situation_impossible_findings_have_no_states_and_a_smallest_set()
    {
        int met = 0;
        for (int seed = 0; seed < 3000 && met < 5; seed++)
        {
            var small = new SmallCase(seed, 1 + (seed % 2), false);
            (Situation situation, _) = small.Build();
            if (situation.States() is not null)
            {
                continue;
            }

            met++;
            Assert.Equal(0, new WorldOracle(small).Weight);
            IReadOnlyList<string> set = Contradictions.Smallest(situation);
            Evidence[] items = [.. situation.Evidence.Where(e => e.Findings.Any(set.Contains))];
            Assert.Null(situation.With(evidence: items).States());
            Assert.All(items, left => Assert.NotNull(situation.With(evidence: [.. items.Where(e => !ReferenceEquals(e, left))]).States()));
        }

        Assert.Equal(5, met);
    }

    /// <summary>None of the networks asked for is beyond the bound.</summary>
    private static bool Fits(SmallCase small)
    {
        (Situation situation, _) = small.Build();
        try
        {
            return Repairs(small.Priors.Count).All(repair => !double.IsNaN(situation.LogWeight(repair)));
        }
        catch (TooLargeException)
        {
            return false;
        }
    }

    private static IEnumerable<Repair?> Repairs(int parts) => [null, .. Enumerable.Range(0, parts).Select(p => new Repair(false, p)), Repair.All];

    private static void Compare(int seed, int stretches, bool intermittent)
    {
        var small = new SmallCase(seed, stretches, intermittent);
        Compare($"seed {seed}, {stretches} stretches{(intermittent ? ", intermittent" : "")}", small.Build().Situation, new WorldOracle(small));
    }

    private static void Compare(string name, Situation situation, WorldOracle oracle)
    {
        if (oracle.Weight < 1e-14)
        {
            Assert.Null(situation.States());
            return;
        }

        double[][] states = situation.States(out double log)!;
        double lost = Lost(oracle.Weight);
        Near(Math.Log(oracle.Weight), log, lost, name);
        for (int p = 0; p < oracle.Bad.Length; p++)
        {
            Near(oracle.Bad[p] / oracle.Weight, 1 - states[p][0], lost, $"{name}, bad {p}");

            // cure: the complaint's present symptoms gone in a stretch to come with this part ok
            Gone(new Repair(false, p), oracle.Gone[p]);
        }

        Gone(Repair.All, oracle.Gone[^1]);

        void Gone(Repair repair, double gone) =>
            Near(gone / oracle.Weight, Math.Exp(situation.LogWeight(repair) - log), lost, $"{name}, gone by {repair.Key}");
    }

    /// <summary>Rounding of doubles: of the figures themselves, and of the sums near 1 that the findings' weight is left over from where signed
    /// terms cancel (MODEL.md 7). Whatever that bound allows, 1e-9 is asked of all findings that are likelier than 1e-9.</summary>
    private static double Lost(double weight) => Math.Min(2e-14 + (1e-15 / weight), Math.Max(1e-9, 1e-18 / weight));

    private static void Near(double expected, double actual, double lost, string name) =>
        Assert.True(Math.Abs(expected - actual) <= lost, $"{name}: {expected:R} expected, {actual:R} seen, {lost:e2} allowed");
}
