using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>Which checks, trials and work may be proposed at all: not those of parts that the car does not have, not those that were set
/// aside, and none that a stop note forbids (MODEL.md 10).</summary>
internal sealed class Proposable
{
    private readonly IReadOnlySet<string> _setAside;
    private readonly IReadOnlySet<string> _senseless;

    private Proposable(IReadOnlySet<string> forbidden, IReadOnlySet<string> setAside, IReadOnlySet<string> senseless) =>
        (Forbidden, _setAside, _senseless) = (forbidden, setAside, senseless);

    /// <summary>Tags of what must not be done now.</summary>
    public IReadOnlySet<string> Forbidden { get; }

    public static Proposable Of(ModelIndex index, AssessmentInput input) => new(
        StopNotes.Standing(index, input).SelectMany(s => s.Note.Forbids).ToHashSet(), input.SetAside ?? new HashSet<string>(), FittedChecks.Senseless(index.Model, input.Car.Absent));

    public bool May(Check check) => May(check.Id, check.Involves);

    public bool May(Trial trial) => May(trial.Id, trial.Involves);

    private bool May(string id, IReadOnlyList<string> involves) => !_setAside.Contains(id) && !_senseless.Contains(id) && !involves.Any(Forbidden.Contains);
}
