using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>One component during some stretches, as one variable. State 0 is ok; each other state is a mode together with the draw
/// of hidden thresholds that belongs to the piece of metal: a fitted part draws its own, a cleaned one keeps them (MODEL.md 7).</summary>
internal sealed class PartCopy
{
    private static readonly Dictionary<(string, int), double> Nothing = [];

    private PartCopy(int part, (int Mode, int Draw)[] bad, double[]? prior, PartCopy? before, double[][]? transition, IReadOnlyDictionary<(string, int), double> untried) =>
        (Part, Bad, Prior, Before, Transition, Draws, Standard, _untried) =
            (part, bad, prior, before, transition, [.. bad.Select(b => b.Draw).Distinct()], !bad.Where((b, i) => b.Mode != i || b.Draw != bad[0].Draw).Any(), untried);

    /// <summary>Per action and piece of metal: how likely it is that the action was not made on it yet in this investigation; 1 where absent.</summary>
    private readonly IReadOnlyDictionary<(string Action, int Draw), double> _untried;

    public int Part { get; }

    public (int Mode, int Draw)[] Bad { get; }

    /// <summary>Pieces of metal that the states belong to.</summary>
    public int[] Draws { get; }

    /// <summary>One piece of metal with all modes in the model's order: tables over it are the same for every car.</summary>
    public bool Standard { get; }

    public int States => Bad.Length + 1;

    /// <summary>Distribution of a part that stands alone; null where it depends on <see cref="Before"/>.</summary>
    public double[]? Prior { get; }

    public PartCopy? Before { get; }

    /// <summary>Per state of <see cref="Before"/>: distribution over the states of this one.</summary>
    public double[][]? Transition { get; }

    public int Mode(int state) => state == 0 ? -1 : Bad[state - 1].Mode;

    public static PartCopy Alone(int part, double[] prior, int draw) =>
        new(part, [.. Enumerable.Range(0, prior.Length - 1).Select(m => (m, draw))], prior, null, null, Nothing);

    /// <summary>Distribution over the states before any finding.</summary>
    public double[] Alone()
    {
        if (Prior is not null || Before is null)
        {
            return Prior ?? [];
        }

        double[] before = Before.Alone();
        var now = new double[States];
        for (int s = 0; s < before.Length; s++)
        {
            for (int t = 0; t < now.Length; t++)
            {
                now[t] += before[s] * Transition![s][t];
            }
        }

        return now;
    }

    /// <summary>The same piece of metal standing alone, with a belief of its own.</summary>
    public PartCopy Believed(double[] states) => new(Part, Bad, states, null, null, _untried);

    /// <summary>The same change made to another belief of what was there before.</summary>
    public PartCopy Upon(PartCopy before) => new(Part, Bad, null, before, Transition, _untried);

    /// <summary>What one entry of work makes of the part.</summary>
    public PartCopy After(WorkFact work, Component component, LifePrior life, double sure, int draw) => work.Action switch
    {
        WorkAction.Fitted or WorkAction.Rebuilt or WorkAction.Unknown when sure >= 1 => Alone(Part, life.Fitted(component, work), draw),
        WorkAction.Fitted or WorkAction.Rebuilt or WorkAction.Unknown => PerhapsFitted(life.Fitted(component, work), sure, draw),
        _ => PutRight(component, RecordEntry.Name(work.Action), sure),
    };

    /// <summary>How likely an action puts a mode right now. What it did not put right once it does not put right when repeated: whether it
    /// can is one draw per piece of metal (MODEL.md 7). Where the piece is not known for certain, that of the likeliest success.</summary>
    public double Success(Component component, string action, int mode) =>
        Enumerable.Range(0, Bad.Length).Where(b => Bad[b].Mode == mode).Max(b => SuccessAt(component, action, b + 1));

    private double SuccessAt(Component component, string action, int state)
    {
        double success = component.Modes[Mode(state)].Cures(action), left = success * _untried.GetValueOrDefault((action, Bad[state - 1].Draw), 1);
        return left > 0 ? left / (1 - success + left) : 0;
    }

    /// <summary>The same piece of metal with its contact faults made good for a moment, with a probability.</summary>
    public PartCopy Touched(Component component, double right)
    {
        var rows = new double[States][];
        for (int s = 0; s < States; s++)
        {
            rows[s] = new double[States];
            double made = s > 0 && component.Modes[Mode(s)].Contact ? right : 0;
            rows[s][0] = made;
            rows[s][s] += 1 - made;
        }

        return new PartCopy(Part, Bad, null, this, rows, _untried);
    }

    private PartCopy PerhapsFitted(double[] fresh, double sure, int draw)
    {
        (int, int)[] bad = [.. Bad, .. Enumerable.Range(0, fresh.Length - 1).Select(m => (m, draw))];
        var rows = new double[States][];
        for (int s = 0; s < States; s++)
        {
            rows[s] = new double[bad.Length + 1];
            rows[s][0] = sure * fresh[0];
            fresh.AsSpan(1).CopyTo(rows[s].AsSpan(States));
            for (int m = 0; m < fresh.Length - 1; m++)
            {
                rows[s][States + m] *= sure;
            }

            rows[s][s] += 1 - sure;
        }

        return new PartCopy(Part, bad, null, this, rows, _untried);
    }

    private PartCopy PutRight(Component component, string action, double sure)
    {
        double[] shares = FittedPart.Shares(component);
        var rows = new double[States][];
        double spoilt = PartBelief.Spoilt * sure;
        for (int s = 0; s < States; s++)
        {
            rows[s] = new double[States];
            double right = s == 0 ? 1 - spoilt : sure * SuccessAt(component, action, s);
            rows[s][0] = right;
            if (s > 0)
            {
                rows[s][s] = 1 - right;
            }
        }

        // an ok part has no thresholds to keep; spoilt, it is taken for the piece fitted last
        for (int m = 0; m < shares.Length; m++)
        {
            rows[0][Array.FindLastIndex(Bad, b => b.Mode == m) + 1] += spoilt * shares[m];
        }

        var untried = new Dictionary<(string, int), double>(_untried);
        foreach (int draw in Draws)
        {
            untried[(action, draw)] = untried.GetValueOrDefault((action, draw), 1) * (1 - sure);
        }

        return new PartCopy(Part, Bad, null, this, rows, untried);
    }
}
