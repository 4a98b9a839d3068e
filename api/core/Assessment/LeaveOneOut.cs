namespace FuelHistory.Core.Assessment;

/// <summary>The findings with each of them left out in turn: weight and states of the parts. Reasons, conflicts and flips all start from it.</summary>
internal sealed class LeaveOneOut
{
    private readonly Dictionary<string, (double LogWeight, double[][]? States)> _without;

    private LeaveOneOut(Dictionary<string, (double, double[][]?)> without) => _without = without;

    public static LeaveOneOut Of(Situation situation) => new(Each.Of(situation.Evidence.SelectMany(e => e.Findings), finding =>
    {
        double[][]? states = situation.States(out double log, new Omitted(finding));
        return (finding, (log, states));
    }).ToDictionary());

    /// <summary>Natural logarithm of P(all findings but this one).</summary>
    public double LogWeight(string finding) => _without[finding].LogWeight;

    /// <summary>P(ok), P(mode) of every part by all findings but this one; null where those are impossible together.</summary>
    public double[][]? States(string finding) => _without[finding].States;
}
