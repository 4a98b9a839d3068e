using MathNet.Numerics.Integration;

namespace FuelHistory.Core.LeakDown;

/// <summary>Integral that halves where it must; what a point adds to the list of nodes gets the point's weight.</summary>
internal static class Adaptive
{
    /// <summary>Difference of the two rules, as a share of the integral, at which the better one is good to about 1e-5.</summary>
    private const double Rough = 1e-3;

    private const int Deepest = 14;

    /// <param name="atLeast">Size of what this is a part of: the integral need not be better than to a share of it.</param>
    public static double Integrate(double from, double to, LeakNodes nodes, Func<double, LeakNodes, double> value, double atLeast = 0) =>
        Integrate(from, to, nodes, value, atLeast, 0);

    private static double Integrate(double from, double to, LeakNodes nodes, Func<double, LeakNodes, double> value, double atLeast, int depth)
    {
        LeakNodes own = nodes.In(nodes.Into is null ? null : []);
        double middle = (from + to) / 2, half = (to - from) / 2, fine = 0, coarse = 0;
        for (int k = 0; k < GaussKronrod.Points; k++)
        {
            double weight = GaussKronrod.Kronrod[k] * half, v = value(middle + (half * GaussKronrod.Nodes[k]), own.Times(weight));
            fine += weight * v;
            coarse += GaussKronrod.Gauss[k] * half * v;
        }

        if (Math.Abs(fine - coarse) <= Rough * Math.Max(fine, atLeast) || depth == Deepest)
        {
            nodes.Into?.AddRange(own.Into!);
            return fine;
        }

        // the halves need not be better than the whole: what a half holds little of may be rough
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
