using System.Globalization;

namespace FuelHistory.Core.Assessment;

/// <summary>Distribution of the signed step that one cause adds to a condition: steps with probabilities, the remainder being 0.
/// Ordered by size, then sign, as the inverse distribution function needs it (MODEL.md 7).</summary>
internal sealed class StepDistribution
{
    public static readonly StepDistribution None = new([]);

    private StepDistribution(IEnumerable<(int Step, double P)> stated)
    {
        (int Step, double P)[] some = [.. stated.Where(s => s.P > 0)];
        double rest = 1 - some.Sum(s => s.P);
        (int Step, double P)[] all = rest > 1e-12 ? [(0, rest), .. some] : some;
        Steps = [.. all.OrderBy(s => Math.Abs(s.Step)).ThenBy(s => s.Step)];
    }

    public (int Step, double P)[] Steps { get; }

    /// <summary>Never adds anything.</summary>
    public bool Idle => Steps.Length == 1 && Steps[0].Step == 0;

    public static StepDistribution Of(IReadOnlyDictionary<string, double>? stated) =>
        stated is null ? None : new(stated.Select(s => (int.Parse(s.Key, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture), s.Value)));

    /// <summary>The step at threshold u in 0..1: the inverse of the distribution function.</summary>
    public int At(double u)
    {
        double sum = 0;
        foreach ((int step, double p) in Steps)
        {
            sum += p;
            if (u < sum)
            {
                return step;
            }
        }

        return Steps[^1].Step;
    }

    /// <summary>The points at which the step changes, without 0 and 1.</summary>
    public IEnumerable<double> Breaks()
    {
        double sum = 0;
        for (int i = 0; i + 1 < Steps.Length; i++)
        {
            yield return sum += Steps[i].P;
        }
    }
}

/// <summary>One arrow into a condition: per state of its cause a step distribution, all driven by one hidden threshold.</summary>
internal sealed class Arrow
{
    private readonly StepDistribution[] _byState;

    /// <param name="byState">Per mode (one entry) or per level of the causing condition.</param>
    public Arrow(StepDistribution[] byState)
    {
        _byState = byState;
        double[] cuts = [0, .. byState.SelectMany(s => s.Breaks()).Order(), 1];
        var ends = new List<double> { 0 };
        foreach (double cut in cuts.Skip(1).Where(c => c - ends[^1] > 1e-12))
        {
            ends.Add(cut);
        }

        ends[^1] = 1;
        _up = Array.Exists(byState, d => Array.Exists(d.Steps, s => s.Step > 0));
        _down = Array.Exists(byState, d => Array.Exists(d.Steps, s => s.Step < 0));
        BothWays = Array.Exists(byState, d => Array.Exists(d.Steps, s => s.Step > 0) && Array.Exists(d.Steps, s => s.Step < 0));
        Cells = [.. ends.Zip(ends.Skip(1), (a, b) => b - a)];
        _middles = [.. ends.Zip(ends.Skip(1), (a, b) => (a + b) / 2)];
    }

    private readonly double[] _middles;
    private readonly bool _up;
    private readonly bool _down;

    /// <summary>Lengths of the spans of u within which every state's step stays the same.</summary>
    public double[] Cells { get; }

    /// <summary>Some state steps in the direction of the sign.</summary>
    public bool Has(int sign) => sign > 0 ? _up : _down;

    /// <summary>From one and the same state it may step up or down.</summary>
    public bool BothWays { get; }

    public StepDistribution For(int state) => _byState[state];

    public int StepIn(int cell, int state) => _byState[state].At(_middles[cell]);
}
