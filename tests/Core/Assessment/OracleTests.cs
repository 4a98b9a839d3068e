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
    [InlineData(7, 2)]
    [InlineData(60, 2)]
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
            return Reliefs(situation, small.Priors.Count).All(relief => !double.IsNaN(situation.LogWeight(relief)));
        }
        catch (TooLargeException)
        {
            return false;
        }
    }

    private static Repair[] Repairs(int parts) => [.. Enumerable.Range(0, parts).Select(p => new Repair(false, p)), Repair.All, Repair.Nothing];

    private static IEnumerable<Relief?> Reliefs(Situation situation, int parts) =>
        [null, .. Repairs(parts).SelectMany(r => situation.Items.Select(i => new Relief(r, [i])).Append(new Relief(r, situation.Items)))];

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
        }

        Assert.Equal(oracle.Items.Select(i => i.Name).Order(), situation.Items.Select(i => i.Name).Order());
        Repair[] repairs = Repairs(oracle.Bad.Length);
        for (int r = 0; r < repairs.Length; r++)
        {
            for (int i = 0; i < oracle.Items.Count; i++)
            {
                Relieved(r, i, [situation.Items.Single(item => item.Name == oracle.Items[i].Name)]);
            }

            Relieved(r, oracle.Items.Count, situation.Items);
        }

        void Relieved(int repair, int item, IReadOnlyList<Item> items)
        {
            double p = items.Count == 0 ? 1 : oracle.Relieved[repair, item] / oracle.Weight;
            Near(p, Math.Exp(situation.LogWeight(new Relief(repairs[repair], items)) - log), lost, $"{name}, {repairs[repair].Key} relieves {string.Join("+", items.Select(i => i.Name))}");
        }
    }

    /// <summary>Rounding of doubles: of the figures themselves, and of the sums near 1 that the findings' weight is left over from where signed
    /// terms cancel (MODEL.md 7). Whatever that bound allows, 1e-9 is asked of all findings that are likelier than 1e-9.</summary>
    private static double Lost(double weight) => Math.Min(2e-14 + (1e-15 / weight), Math.Max(1e-9, 1e-18 / weight));

    private static void Near(double expected, double actual, double lost, string name) =>
        Assert.True(Math.Abs(expected - actual) <= lost, $"{name}: {expected:R} expected, {actual:R} seen, {lost:e2} allowed");
}
