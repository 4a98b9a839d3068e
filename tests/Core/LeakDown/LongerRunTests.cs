using FuelHistory.Core.Assessment;
using FuelHistory.Tests.Core.Assessment;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.LeakDown;

/// <summary>A run that holds and one look out of its middle say the same of the circuit.</summary>
public class LongerRunTests
{
    private static readonly (double, double)[] Run = [(0.5, 3.6), (1, 3.4), (5, 3.1), (10, 2.9), (20, 2.6), (30, 2.4)];

    public static TheoryData<string> Systems => ["continuous-mechanical", "continuous-electro-hydraulic"];

    [Theory]
    [MemberData(nameof(Systems))]
    public void Run_that_holds_and_its_ten_minute_look_clear_the_same_parts(string system)
    {
        RealCase told = new RealCase { Model = RealModels.Compiled(system) }.Present("hard-start-overnight");
        Dictionary<string, double> before = told.Bad(), look = told.Watched("leak-down-whole", (10, 2.9)).Bad(), run = told.Watched("leak-down-whole", Run).Bad();

        foreach (string part in new[] { "accumulator", "check-valve", "pressure-regulator" })
        {
            Assert.True(look[part] < before[part], $"{part}: {before[part]:0.0000} to {look[part]:0.0000} by the look");
            Assert.True(run[part] < before[part], $"{part}: {before[part]:0.0000} to {run[part]:0.0000} by the run");
        }

        Assert.Empty(told.Watched("leak-down-whole", Run).Answer().SetAside);
    }
}
