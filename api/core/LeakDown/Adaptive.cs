using MathNet.Numerics.Integration;

namespace FuelHistory.Core.LeakDown;

/// <summary>Integral that halves where it must; what a point adds to the list of nodes gets the point's weight.</summary>
/// <param name="rule">Points of one interval.</param>
/// <param name="rough">Difference of its two rules, as a share of the integral, at which the better one is good enough.</param>
internal sealed class Adaptive(GaussKronrod rule, double rough)
{
    private const int Deepest = 14;

    /// <param name="atLeast">Size of what this is a part of: the integral need not be better than to a share of it.</param>
    public double Integrate(double from, double to, LeakNodes nodes, Func<double, LeakNodes, double> value, double atLeast = 0) =>
        Integrate(from, to, nodes, value, atLeast, 0);

    private double Integrate(double from, double to, LeakNodes nodes, Func<double, LeakNodes, double> value, double atLeast, int depth)
    {
        int before = nodes.Into?.Count ?? 0;
        double middle = (from + to) / 2, half = (to - from) / 2, fine = 0, coarse = 0;
        for (int k = 0; k < rule.Nodes.Length; k++)
        {
            double weight = rule.Kronrod[k] * half, v = value(middle + (half * rule.Nodes[k]), nodes.Times(weight));
            fine += weight * v;
            coarse += rule.Gauss[k] * half * v;
        }

        if (Math.Abs(fine - coarse) <= rough * Math.Max(fine, atLeast) || depth == Deepest)
        {
            return fine;
        }

        // the halves need not be better than the whole: what a half holds little of may be rough
        nodes.Into?.RemoveRange(before, nodes.Into.Count - before);
        double enough = Math.Max(atLeast, 0.1 * fine);
        double left = Integrate(from, middle, nodes, value, enough, depth + 1);
        return left + Integrate(middle, to, nodes, value, Math.Max(enough, 0.3 * left), depth + 1);
    }
}

/// <summary>Gauss-Legendre with eight points in equal panels, for what is known to be smooth at a width.</summary>
internal static class Panels
{
    private static readonly GaussLegendreRule Rule = new(-1, 1, 8);

    private static readonly double[] X = [.. Enumerable.Range(0, 8).Select(Rule.GetAbscissa)];

    private static readonly double[] W = [.. Enumerable.Range(0, 8).Select(Rule.GetWeight)];

    private const int Most = 200;

    public static double Integrate(double from, double to, double width, Func<double, double> value, LeakNodes nodes, Func<double, LeakNode> node)
    {
        if (to <= from)
        {
            return 0;
        }

        int panels = (int)Math.Clamp(Math.Ceiling((to - from) / width), 1, Most);
        double half = (to - from) / panels / 2, sum = 0;
        for (int k = 0; k < panels; k++)
        {
            for (int i = 0; i < X.Length; i++)
            {
                double x = from + (((2 * k) + 1 + X[i]) * half), part = half * W[i] * value(x);
                sum += part;
                if (part > 0 && nodes.Into is not null)
                {
                    nodes.Add(node(x) with { Weight = part });
                }
            }
        }

        return sum;
    }
}
