using System.Runtime.CompilerServices;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Life;

/// <summary>One possibility for the part now on the car: when it was fitted and how likely each of its states is.
/// Sound parts wear out by their hazards; weak ones fail early; the rest is bad in one of the modes.</summary>
internal sealed class FittedPart
{
    /// <summary>Mean years of use until a weak new part fails (MODEL.md 2).</summary>
    public const double WeakMeanYears = 0.4;

    private readonly Component _component;
    private readonly Exposure _start;
    private readonly double[] _hazard;
    private readonly double[] _shares;

    private FittedPart(Component component, DateOnly fitted, Exposure start, double bad, double weak)
    {
        _component = component;
        Fitted = fitted;
        _start = start;
        _shares = Shares(component);
        Sound = 1 - bad - weak;
        Weak = weak;
        Bad = [.. _shares.Select(s => s * bad)];
        _hazard = new double[Bad.Length];
    }

    private FittedPart(FittedPart other)
    {
        (_component, Fitted, _start, _shares, Weight) = (other._component, other.Fitted, other._start, other._shares, other.Weight);
        (Sound, Weak, Bad, _hazard) = (other.Sound, other.Weak, [.. other.Bad], [.. other._hazard]);
    }

    public DateOnly Fitted { get; }

    public double Weight { get; set; } = 1;

    /// <summary>May have come in on this date; nobody recorded it.</summary>
    public bool Unrecorded { get; set; }

    public double Sound { get; private set; }

    public double Weak { get; private set; }

    public double[] Bad { get; }

    public double Ok => Sound + Weak;

    /// <summary>The part the car was built with: its early life is over.</summary>
    public static FittedPart Original(Component component, DateOnly firstUse) => new(component, firstUse, default, 0, 0);

    /// <summary>A part fitted on a day: d/2 bad now, d/2 weak, the rest sound at its age.</summary>
    /// <param name="at">Exposure of the car on that day.</param>
    /// <param name="age">What the part had behind it already (a used part); it is known good there.</param>
    public static FittedPart On(Component component, DateOnly day, Exposure at, Exposure age, double badWhenFitted)
    {
        var part = new FittedPart(component, day, at - age, badWhenFitted / 2, badWhenFitted / 2);
        for (int m = 0; m < part._hazard.Length; m++)
        {
            part._hazard[m] = Hazard.Cumulative(component.Modes[m].Life, age);
        }

        return part;
    }

    /// <summary>Share of each mode among parts that are bad when fitted; worked out once per component, not to be changed.</summary>
    public static double[] Shares(Component component) => Known.GetValue(component, MakeShares);

    private static readonly ConditionalWeakTable<Component, double[]> Known = [];

    private static double[] MakeShares(Component component)
    {
        double[] stated = [.. component.Modes.Select(m => m.ShareWhenNew ?? 0)];
        double sum = stated.Sum();
        return sum > 0 ? [.. stated.Select(s => s / sum)] : [.. stated.Select(_ => 1.0 / stated.Length)];
    }

    public FittedPart Copy() => new(this);

    /// <summary>One step of at most a quarter year: dp(m) = p(ok) h_m dt, shared among the modes by their part in the step's hazard.</summary>
    /// <param name="to">Exposure of the car at the end of the step.</param>
    /// <param name="used">Years of use in the step.</param>
    public void Age(Exposure to, double used)
    {
        Exposure since = to - _start;
        double kept = 1, pull = 0;
        Span<double> pulls = stackalloc double[Bad.Length];
        for (int m = 0; m < Bad.Length; m++)
        {
            LifeFigures life = _component.Modes[m].Life;
            double h = Hazard.Cumulative(life, since);
            double s = Hazard.Survival(_hazard[m], h, life.A, life.A);
            _hazard[m] = h;
            kept *= s;
            double lost = 1 - s;
            pull += pulls[m] = lost * (1 + (lost * (0.5 + (lost / 3))));         // -ln s: its part in the step's hazard
        }

        double failed = Sound * (1 - kept);
        Sound -= failed;
        for (int m = 0; m < Bad.Length && pull > 0; m++)
        {
            Bad[m] += failed * pulls[m] / pull;
        }

        FailWeak(used);
    }

    /// <summary>Multiplies each mode by a likelihood (and the ok states by <paramref name="ok"/>); the lost or gained total goes into the weight.</summary>
    public void Multiply(double ok, ReadOnlySpan<double> modes)
    {
        double total = (Sound + Weak) * ok;
        for (int m = 0; m < Bad.Length; m++)
        {
            Bad[m] *= modes[m];
            total += Bad[m];
        }

        Weight *= total;
        double scale = total > 0 ? 1 / total : 0;
        Sound *= ok * scale;
        Weak *= ok * scale;
        for (int m = 0; m < Bad.Length; m++)
        {
            Bad[m] *= scale;
        }
    }

    /// <summary>Cleaning or adjusting: mode m becomes ok with its probability of success, ok becomes bad with <paramref name="spoilt"/>.</summary>
    public void PutRight(ReadOnlySpan<double> success, double spoilt)
    {
        double cured = 0, lost = Sound * spoilt;
        for (int m = 0; m < Bad.Length; m++)
        {
            double right = Bad[m] * success[m];
            cured += right;
            Bad[m] += (lost * _shares[m]) - right;
        }

        Sound += cured - lost;
    }

    private void FailWeak(double used)
    {
        if (Weak <= 0 || used <= 0)
        {
            return;
        }

        double failed = Weak * (1 - Math.Exp(-used / WeakMeanYears));
        Weak -= failed;
        for (int m = 0; m < Bad.Length; m++)
        {
            Bad[m] += failed * _shares[m];
        }
    }
}
