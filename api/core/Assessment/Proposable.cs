using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>Which checks may be proposed at all: not those of parts that the car does not have, not those that were set aside, and none
/// that a stop note forbids.</summary>
internal sealed class Proposable
{
    private readonly AssessmentInput _input;
    private readonly IReadOnlySet<string> _forbidden;
    private readonly IReadOnlySet<string> _senseless;

    private Proposable(FaultModel model, AssessmentInput input)
    {
        _input = input;
        _forbidden = StopNotes.Forbidden(StopNotes.Standing(model, input));
        _senseless = FittedChecks.Senseless(model, input.Car.Absent);
    }

    public static Proposable Of(ModelIndex index, AssessmentInput input) => new(index.Model, input);

    public bool May(CheckIndex check) =>
        !(_input.SetAside?.Contains(check.Source.Id) ?? false) && !check.Source.Involves.Any(_forbidden.Contains) && !_senseless.Contains(check.Source.Id);
}
