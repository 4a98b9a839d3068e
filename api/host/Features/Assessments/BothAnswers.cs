using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;

namespace FuelHistory.Host.Features.Assessments;

using Assessment = FuelHistory.Contracts.Assessment;

/// <summary>What is likely, and what to do, of one complaint and day.</summary>
public sealed record BothAnswers(Assessment Assessment, Advice Advice)
{
    public static BothAnswers Of(Gathered gathered, DateOnly day, CancellationToken cancel)
    {
        var (model, input) = (gathered.InUse.Model, gathered.Input);
        return new BothAnswers(
            AssessmentAnswer.Of(Assess.Run(model, input, cancel), gathered, day, null), AdviceAnswer.Of(Assess.Advise(model, input, cancel), gathered, day, null));
    }
}
