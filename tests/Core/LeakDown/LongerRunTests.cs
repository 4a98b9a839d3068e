using FuelHistory.Core.Assessment;
using FuelHistory.Tests.Core.Assessment;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.LeakDown;

/// <summary>A run that holds and one look out of its middle say the same of the circuit.</summary>
public class LongerRunTests
{
    /// <summary>The electro-hydraulic system starts some tenths of a bar higher.</summary>
    private static (double, double)[] Run(double more) => [(0.5, 3.6 + more), (1, 3.4 + more), (5, 3.1 + more), (10, 2.9 + more), (20, 2.6 + more), (30, 2.4 + more)];

    public static TheoryData<string, double> Systems => new() { { "continuous-mechanical", 0 }, { "continuous-electro-hydraulic", 0.4 } };

    [Theory]
    [MemberData(nameof(Systems))]
    public void Run_that_holds_and_its_ten_minute_look_clear_the_same_parts(string system, double more)
    {
        RealCase told = new RealCase { Model = RealModels.Compiled(system) }.Present("hard-start-overnight");
        Dictionary<string, double> before = told.Bad(), look = told.Watched("leak-down-whole", (10, 2.9 + more)).Bad(), run = told.Watched("leak-down-whole", Run(more)).Bad();

        foreach (string part in new[] { "accumulator", "check-valve", "pressure-regulator" })
        {
            Assert.True(look[part] < before[part], $"{part}: {before[part]:0.0000} to {look[part]:0.0000} by the look");
            Assert.True(run[part] < before[part], $"{part}: {before[part]:0.0000} to {run[part]:0.0000} by the run");
        }

        Assert.Empty(told.Watched("leak-down-whole", Run(more)).Answer().SetAside);
    }
}
