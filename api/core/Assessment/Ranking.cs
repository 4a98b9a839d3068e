using System.Collections.Concurrent;

namespace FuelHistory.Core.Assessment;

/// <summary>P(bad) and cure of every part now (MODEL.md 8).</summary>
internal sealed class Ranking
{
    private readonly Situation _situation;
    private readonly ConcurrentDictionary<string, double> _gone = [];

    private Ranking(Situation situation, double logWeight, double[][] states) => (_situation, LogWeight, States) = (situation, logWeight, states);

    public double LogWeight { get; }

    /// <summary>Per part: P(ok), P(mode).</summary>
    public double[][] States { get; }

    public double Bad(int part) => 1 - States[part][0];

    /// <summary>Null where the findings are impossible together.</summary>
    public static Ranking? Of(Situation situation) =>
        situation.States(out double log) is double[][] states ? new Ranking(situation, log, states) : null;

    /// <summary>Probability that the complaint is gone in the stretch to come, with these parts ok and all else as it is.</summary>
    public double Gone(Repair repair)
    {
        if (!_gone.TryGetValue(repair.Key, out double gone))
        {
            _gone[repair.Key] = gone = Math.Clamp(Math.Exp(_situation.LogWeight(repair) - LogWeight), 0, 1);
        }

        return gone;
    }

    /// <summary>Probability that the complaint is gone already: 0 as long as nothing has been repaired.</summary>
    public double Already => Gone(Repair.Nothing);

    /// <summary>Cure of a part: what putting it right, and nothing else, adds to that; 0 where no present symptom hangs on the part.</summary>
    public double Cure(int part) => Reaches(part) ? Math.Max(0, Gone(new Repair(false, part)) - Already) : 0;

    /// <summary>A present symptom of the complaint hangs on the part, through conditions or at once.</summary>
    public bool Reaches(int part) => (_reaching ??= Reaching())[part];

    private bool[]? _reaching;

    private bool[] Reaching() => Ancestors.Of(_situation.Index, _situation.Evidence.OfType<SymptomEvidence>().Where(s => s.Open).Select(s => s.Symptom));
}
