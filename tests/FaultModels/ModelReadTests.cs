using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels;

public class ModelReadTests
{
    [Fact]
    public void Model_file_has_what_the_job_asks_for()
    {
        FaultModel model = ModelFile.Model;

        Assert.True(model.Components.Count >= 30, $"{model.Components.Count} components");
        Assert.True(model.Components.Sum(c => c.Modes.Count) >= 80, $"{model.Components.Sum(c => c.Modes.Count)} modes");
        Assert.True(model.Conditions.Count >= 25, $"{model.Conditions.Count} conditions");
        Assert.True(model.Symptoms.Count >= 25, $"{model.Symptoms.Count} symptoms");
        Assert.True(model.Checks.Count >= 35, $"{model.Checks.Count} checks");
    }
}
