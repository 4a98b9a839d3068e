using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>A fault model checked and turned into indexes once; safe to share between threads.</summary>
public sealed class CompiledModel
{
    public CompiledModel(FaultModel source) => Source = source;

    public FaultModel Source { get; }
}

/// <summary>The one entry: record, complaint and day in, ranking and advice out. Changes nothing, reads no clock.</summary>
public static class Assess
{
    public static AssessmentResult Run(CompiledModel model, AssessmentInput input) => throw new NotImplementedException();
}
