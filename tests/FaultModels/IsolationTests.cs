using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

/// <summary>What each leak-down still sees when one way out is shut. Matrix of isolation: engineering judgement from common practice,
/// kept apart from the file so that a slip there shows here.</summary>
public class IsolationTests
{
    [Theory]
    [InlineData("leak-down-whole", "check-valve-leak cold-start-leak control-leak distributor-leak hook-up-leak regulator-leak supply-leak")]
    [InlineData("leak-down-return-shut", "check-valve-leak cold-start-leak distributor-leak hook-up-leak supply-leak")]
    [InlineData("leak-down-control-shut", "check-valve-leak cold-start-leak distributor-leak hook-up-leak regulator-leak supply-leak")]
    [InlineData("leak-down-engine-side", "cold-start-leak control-leak distributor-leak hook-up-leak regulator-leak")]
    [InlineData("leak-down-cold-start-blanked", "check-valve-leak control-leak distributor-leak hook-up-leak regulator-leak supply-leak")]
    [InlineData("leak-down-supply", "check-valve-leak hook-up-leak supply-leak")]
    [InlineData("leak-down-supply-clamped", "hook-up-leak supply-leak")]
    [InlineData("leak-down-gauge", "hook-up-leak")]
    public void Leak_down_watches_what_its_section_holds(string check, string leaks)
    {
        Check found = ModelFile.Model.Checks.Single(c => c.Id == check);

        Assert.Equal(leaks.Split(' '), found.Watches!.Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("check-valve.leaks-back", "leak-down-supply-clamped", "leak-down-engine-side")]
    [InlineData("accumulator.ruptured", "leak-down-engine-side")]
    [InlineData("supply-hoses.leaks", "leak-down-engine-side")]
    [InlineData("pressure-regulator.leaks-at-rest", "leak-down-return-shut", "leak-down-supply", "leak-down-supply-clamped")]
    [InlineData("push-valve.leaks", "leak-down-return-shut", "leak-down-control-shut", "leak-down-supply", "leak-down-supply-clamped")]
    [InlineData("cold-start-valve.leaking", "leak-down-cold-start-blanked", "leak-down-supply", "leak-down-supply-clamped")]
    [InlineData("distributor.plunger-leaks", "leak-down-supply", "leak-down-supply-clamped")]
    public void Fault_alone_holds_exactly_where_its_way_out_is_shut(string mode, params string[] holds)
    {
        var map = new ModelMap(ModelFile.Model);
        IReadOnlyDictionary<string, double[]> trace = ModeTrace.Of(map, mode).Checks;

        IEnumerable<string> tight = ModelFile.Model.Checks.Where(c => c.Watches is not null && Leak(trace[c.Id], 0) > 0.999).Select(c => c.Id);

        Assert.Equal(holds.Append("leak-down-gauge").Order(StringComparer.Ordinal), tight.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Stored_volume_is_what_lost_store_takes_and_no_leak()
    {
        IReadOnlyDictionary<string, double[]> trace = ModeTrace.Of(new ModelMap(ModelFile.Model), "accumulator.volume-lost").Checks;

        Assert.Equal(1, Leak(trace["leak-down-whole"], 0), 1e-9);
        Assert.True(trace["leak-down-whole"].Where((_, k) => (k % 7) - 3 == -1).Sum() > 0.9, "store at level -1");
    }

    /// <summary>A leak-down's trace has an entry for each leak level -3..3 and, where it has a store, each level of the store within.</summary>
    private static double Leak(double[] trace, int level) => trace.Where((_, k) => (k / (trace.Length / 7)) - 3 == level).Sum();
}
