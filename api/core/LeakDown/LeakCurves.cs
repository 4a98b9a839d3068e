using FuelHistory.Core.Readings;
using MathNet.Numerics.Distributions;

namespace FuelHistory.Core.LeakDown;

/// <summary>Whole curves drawn from what is believed of a run: evenly spread points instead of chance, so that the same readings give the
/// same picture.</summary>
internal sealed class LeakCurves
{
    private const int Drawn = 1024;

    private readonly (double Weight, Curve[] Curves)[] _parts;

    private LeakCurves((double Weight, Curve[] Curves)[] parts) => _parts = parts;

    /// <summary>One curve: hold pressure, what the gauge shows beside the truth and how surely, and when its store runs empty.</summary>
    private readonly record struct Curve(LeakNode Node, double Hold, double Height, double Offset, double OffsetSd, double Shown)
    {
        public double At(double minutes) => (Hold * Node.Curve(minutes)) + Offset + (Node.Drop < 0 ? 0 : Height * LeakLaws.Dropping(minutes, Node.Drop));
    }

    public static LeakCurves Draw(LeakNode[] nodes, RunDensities runs, double weight)
    {
        var curves = new Curve[Drawn];
        double sum = nodes.Length == 0 ? 0 : nodes[0].Weight;
        for (int i = 0, k = 0; i < Drawn; i++)
        {
            double at = (i + 0.5) / Drawn;
            while (sum < at && k < nodes.Length - 1)
            {
                sum += nodes[++k].Weight;
            }

            curves[i] = Of(nodes[k], runs.Of(nodes[k]), i);
        }

        return new LeakCurves([(weight, curves)]);
    }

    public LeakCurves And(LeakCurves other, double weight) => new([.. _parts, .. other._parts.Select(p => (weight, p.Curves))]);

    /// <summary>P(the pressure is at least so much).</summary>
    public double AtLeast(double bar, double minutes) => _parts.Sum(p => p.Weight * p.Curves.Average(c =>
        c.OffsetSd > 0 ? NormalTail.Above((bar - c.At(minutes)) / c.OffsetSd) : c.At(minutes) >= bar ? 1 : 0));

    public ForecastPoint Band(double minutes)
    {
        double[] bars = [.. _parts.SelectMany(p => p.Curves.Select(c => Math.Max(0, c.At(minutes) + (c.OffsetSd * c.Shown))))];
        double[] weights = [.. _parts.SelectMany(p => Enumerable.Repeat(p.Weight / p.Curves.Length, p.Curves.Length))];
        Array.Sort(bars, weights);
        return new ForecastPoint(minutes, Quantile(bars, weights, 0.025), Quantile(bars, weights, 0.5), Quantile(bars, weights, 0.975));
    }

    private static double Quantile(double[] bars, double[] weights, double share)
    {
        double sum = 0;
        for (int i = 0; i < bars.Length; i++)
        {
            sum += weights[i];
            if (sum >= share)
            {
                return bars[i];
            }
        }

        return bars[^1];
    }

    private static Curve Of(LeakNode node, RunDensity run, int i)
    {
        // 1. hold pressure, normal given the looks, where the law lets it be
        (double mean, double precision, Func<double, (double Mean, double Sd)> drop, Func<double, double, double> offset) = run.Given(node);
        double hold = HoldDraw.At(Weights(node, run.LastMinutes), mean, precision, Spread.At(i, 0));
        (double expected, double sd) = drop(hold);
        double height = expected + (sd * Normal.InvCDF(0, 1, Spread.At(i, 7)));

        // 2. a store still to run empty does so at a pressure below the last one
        if (node.Form == LeakForm.EmptyLater)
        {
            double now = Math.Min(LeakLaws.EmptyTo, hold * Math.Exp(-run.LastMinutes / node.Tau));
            double empty = LeakLaws.EmptyFrom + (Math.Max(0, now - LeakLaws.EmptyFrom) * Spread.At(i, 1));
            node = node with { Form = LeakForm.RunsEmpty, A = LeakLaws.EmptyAt(hold, empty) };
        }
        else if (node.Form == LeakForm.EmptyAtBar)
        {
            node = node with { Form = LeakForm.RunsEmpty, A = LeakLaws.EmptyAt(hold, node.A) };
        }

        return new Curve(node, hold, height, offset(hold, height), run.OffsetSd, Normal.InvCDF(0, 1, Spread.At(i, 2)));
    }

    /// <summary>What the law's hidden pressure of the empty store makes of the hold pressure's distribution: pieces with intercept and slope.</summary>
    private static HoldPiece[] Weights(LeakNode node, double lastMinutes)
    {
        double grown = Math.Exp(node.Form == LeakForm.RunsEmpty ? node.A : lastMinutes / node.Tau);
        const double Range = LeakLaws.EmptyTo - LeakLaws.EmptyFrom;
        return node.Form switch
        {
            LeakForm.RunsEmpty => [new(LeakLaws.EmptyFrom * grown, LeakLaws.EmptyTo * grown, 0, 1)],
            LeakForm.EmptyFromStart => [new(0, LeakLaws.EmptyFrom, 1, 0), new(LeakLaws.EmptyFrom, LeakLaws.EmptyTo, LeakLaws.EmptyTo / Range, -1 / Range)],
            LeakForm.EmptyLater => [new(LeakLaws.EmptyFrom * grown, LeakLaws.EmptyTo * grown, -LeakLaws.EmptyFrom / Range, 1 / (grown * Range)), new(LeakLaws.EmptyTo * grown, double.PositiveInfinity, 1, 0)],
            _ => [new(0, double.PositiveInfinity, 1, 0)],
        };
    }
}

internal readonly record struct HoldPiece(double From, double To, double Intercept, double Slope);

/// <summary>A quantile of a normal hold pressure weighted by linear pieces, by halving.</summary>
internal static class HoldDraw
{
    public static double At(HoldPiece[] pieces, double mean, double precision, double share)
    {
        double sd = 1 / Math.Sqrt(precision), whole = Below(double.PositiveInfinity);
        double low = Math.Max(pieces[0].From, mean - (8 * sd)), high = Math.Min(pieces[^1].To, mean + (8 * sd));
        if (!(whole > 0) || low >= high)
        {
            return Math.Clamp(mean, pieces[0].From, pieces[^1].To);         // all of it lies in a tail beyond digits
        }

        for (int i = 0; i < 30 && high - low > 1e-4 * sd; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Below(middle) < share * whole ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;

        double Below(double hold)
        {
            double sum = 0;
            foreach (HoldPiece p in pieces)
            {
                sum += p.From < hold ? RunDensity.Linear(mean, precision, p.From, Math.Min(p.To, hold), p.Intercept, p.Slope) : 0;
            }

            return sum;
        }
    }
}
