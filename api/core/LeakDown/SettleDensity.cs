namespace FuelHistory.Core.LeakDown;

/// <summary>The settling law: p0 exp(-t/tau) (f + (1 - f) exp(-t/ts)). Within a settling time it is two curves whose ratio is f.</summary>
internal sealed class SettleDensity(RunDensity run, (double From, double To) settles)
{
    private const double Width = LeakLaws.KeptTo - LeakLaws.KeptFrom;

    private static readonly Adaptive OverSettling = new(GaussKronrod.Small, 1e-3);

    private readonly Dictionary<double, double[]> _settling = [];

    private readonly double[] _seep = new double[run.Minutes.Length];

    public double At(double tau, LeakNodes nodes)
    {
        for (int i = 0; i < _seep.Length; i++)
        {
            _seep[i] = LeakLaws.Seep(run.Minutes[i], tau);
        }

        double sum = 0;
        for (int h = 0; h < run.Soak.Length; h++)
        {
            int soak = h;
            double weight = LeakLaws.Soaks[h].Weight / (settles.To - settles.From);
            sum += weight * OverSettling.Integrate(settles.From, settles.To, nodes.Times(weight), (ts, kept) => OverKept(tau, ts, soak, kept));
        }

        return sum;
    }

    private double[] Settling(double ts) => _settling.TryGetValue(ts, out double[]? known) ? known : _settling[ts] = [.. run.Minutes.Select(t => Math.Exp(-t / ts))];

    private double OverKept(double tau, double ts, int h, LeakNodes nodes)
    {
        TwoCurves two = Curves(Settling(ts), run.Soak[h]);
        (double best, double width) = two.Best();
        double clipped = Math.Clamp(best, LeakLaws.KeptFrom, LeakLaws.KeptTo);
        if (!run.Counts(two.At(clipped).Exponent))
        {
            return 0;
        }

        (double from, double to) = TwoCurves.Window(best, width, LeakLaws.KeptFrom, LeakLaws.KeptTo);
        return Panels.Integrate(from, to, Math.Min(5 * width, Width), f =>
        {
            (double e, double mean, double precision) = two.At(f);
            return run.Counts(e) ? run.Whole(e, mean, precision) / Width : 0;
        }, nodes, f => new LeakNode(LeakForm.Settle, h, tau, ts, f, 0));
    }

    private TwoCurves Curves(double[] settling, double[] soaked)
    {
        double uu = 0, uv = 0, vv = 0;
        Sums u = default, v = default;
        for (int i = 0; i < settling.Length; i++)
        {
            double whole = _seep[i] * soaked[i], a = whole * settling[i], b = whole - a;
            u = u.With(a, run.Dropping[i], run.Bar[i]);
            v = v.With(b, run.Dropping[i], run.Bar[i]);
            uu += a * a;
            uv += a * b;
            vv += b * b;
        }

        return run.Two(run.Product(uu, u, u), run.Product(uv, u, v), run.Product(vv, v, v), run.ProductWithBar(u), run.ProductWithBar(v));
    }
}
