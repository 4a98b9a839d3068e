using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>A fixed order of checks for pressure lost after the stop, as workshops do it (common practice: whole circuit first, then the
/// cheapest isolation): the first abnormal outcome names the part.</summary>
internal static class FlowChart
{
    private static readonly (string Check, string[] Abnormal, string Component)[] Order =
    [
        ("accumulator-vent", ["yes"], "accumulator"),
        ("bleed-recover", ["yes"], "accumulator"),
        ("leak-down-return-shut", ["hold"], "pressure-regulator"),
        ("leak-down-control-shut", ["hold"], "push-valve"),
        ("leak-down-supply", ["slow", "fast"], "check-valve"),
        ("leak-down-cold-start-blanked", ["hold"], "cold-start-valve"),
        ("injector-tips", ["one", "several"], "injectors"),
    ];

    private static readonly string[] Complaints = ["hard-start-hot", "hard-start-overnight", "hot-catches-and-dies"];

    /// <summary>The chart covers this complaint of this fuel system.</summary>
    public static bool Covers(FaultModel model, IEnumerable<string> present) => Order.All(o => model.Checks.Any(c => c.Id == o.Check)) && present.Any(Complaints.Contains);

    /// <summary>Checks that are made in turn, and the part that each outcome points to (null: go on).</summary>
    public static IEnumerable<(Check Check, Func<string, string?> Points)> Of(FaultModel model) =>
        Order.Select(o => (model.Checks.Single(c => c.Id == o.Check), (Func<string, string?>)(outcome => o.Abnormal.Contains(outcome) ? o.Component : null)));

    /// <summary>The outcome in words; a leak-down by its limit.</summary>
    public static string Word(Check check, Observation done)
    {
        if (done.Outcome is string outcome)
        {
            return outcome;
        }

        double low = check.Limits!.Points.MinBy(p => p.Minutes)!.Low!.Value;
        return done.Points[0].Bar >= low ? "hold" : done.Points[0].Bar > 0.3 ? "slow" : "fast";
    }
}
