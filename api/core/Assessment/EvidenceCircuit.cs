namespace FuelHistory.Core.Assessment;

/// <summary>A circuit with what findings share: whether the fault was acting in a session, slips of a gauge; and what hypothetical worlds
/// ask of events and outcomes, which is entered together with the findings on them.</summary>
internal sealed class EvidenceCircuit(Circuit circuit, bool intermittent)
{
    private readonly Dictionary<string, int> _acting = [];
    private readonly Dictionary<(string, string), int> _slips = [];
    private readonly Dictionary<int, List<Answer>> _answers = [];
    private readonly Dictionary<int, List<EventGroup>> _hidden = [];
    private readonly Dictionary<string, int> _right = [];

    public Circuit Circuit { get; } = circuit;

    public bool Intermittent => intermittent;

    /// <summary>Variable (0 not acting, 1 acting) of a session; -1 where it surely was.</summary>
    public int Acting(SessionFact session)
    {
        if (!intermittent || session.Showed == Showed.Yes)
        {
            return -1;
        }

        if (!_acting.TryGetValue(session.Name, out int variable))
        {
            double p = session.Showed == Showed.No ? 0.1 : 0.4;         // MODEL.md 4
            _acting[session.Name] = variable = Circuit.Network.AddVariable(2);
            Circuit.Network.AddFactor([variable], [1 - p, p]);
        }

        return variable;
    }

    /// <summary>Variable (0 sound, 1 slipped) of a session and gauge.</summary>
    public int Slip(string session, string instrument)
    {
        if (!_slips.TryGetValue((session, instrument), out int variable))
        {
            _slips[(session, instrument)] = variable = Circuit.Network.AddVariable(2);
            Circuit.Network.AddFactor([variable], [1 - Readings.ReadingError.Slip, Readings.ReadingError.Slip]);
        }

        return variable;
    }

    /// <summary>One thing more is said of an event: in a hypothetical world.</summary>
    public void Ask(int source, Answer answer) => (_answers.TryGetValue(source, out List<Answer>? list) ? list : _answers[source] = []).Add(answer);

    public IEnumerable<Answer> Asked(int source) => _answers.GetValueOrDefault(source) ?? [];

    /// <summary>An arrow that only this investigation has.</summary>
    public void Hide(int source, EventGroup arrow) => (_hidden.TryGetValue(source, out List<EventGroup>? list) ? list : _hidden[source] = []).Add(arrow);

    public IReadOnlyList<EventGroup> Hidden(int source) => _hidden.GetValueOrDefault(source) ?? [];

    /// <summary>The outcome of a finding is to be right in another world, with the draws of the finding.</summary>
    public void MakeRight(string finding, int world) => _right[finding] = world;

    /// <summary>That world; -1: none.</summary>
    public int RightIn(string finding) => _right.GetValueOrDefault(finding, -1);
}
