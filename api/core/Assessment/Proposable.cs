using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>Which checks may be proposed at all: not those of parts that the car does not have, not those that were set aside, and none
/// that a stop note forbids.</summary>
internal sealed class Proposable
{
    private readonly ModelIndex _index;
    private readonly AssessmentInput _input;
    private readonly IReadOnlySet<string> _forbidden;

    private Proposable(ModelIndex index, AssessmentInput input, IReadOnlySet<string> forbidden) => (_index, _input, _forbidden) = (index, input, forbidden);

    public static Proposable Of(ModelIndex index, AssessmentInput input) =>
        new(index, input, StopNotes.Forbidden(StopNotes.Standing(index.Model, input)));

    public bool May(CheckIndex check) =>
        !(_input.SetAside?.Contains(check.Source.Id) ?? false) && !check.Source.Involves.Any(_forbidden.Contains) && Fits(check);

    /// <summary>It needs no part that the car lacks; where needs are not stated, some part that it can show is there.</summary>
    private bool Fits(CheckIndex check)
    {
        IReadOnlySet<string> absent = _input.Car.Absent;
        if (absent.Count == 0)
        {
            return true;
        }

        if (check.Source.Needs is { } needs)
        {
            return !needs.Any(absent.Contains);
        }

        bool[] shown = Ancestors.Of(_index, check);
        string[] parts = [.. _index.Parts.Where(p => shown[p.Index] && !p.Source.Instrument).Select(p => p.Id)];
        return parts.Length == 0 || !parts.All(absent.Contains);
    }
}
